using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Finished;

/// <summary>
/// The trim against the block as it was really carved: the cutter runs in the reliefs and touches nothing, and shank and holder
/// stay clear. A fault of the design is caught here as well.
/// </summary>
internal sealed class BlockContact(Run run, BlockGrid block, AllowedShape shape)
{
    private readonly Carver _carver = new(block);
    private readonly RapidSpace _space = new(block);
    private readonly WallCheck _walls = new(run, shape);

    public void Check()
    {
        foreach ((_, _, Motion motion) in run.Motions())
        {
            if (Run.Low(motion) >= run.Design.FixtureHeight || run.CutterOf(motion) is not { } cutter)
            {
                continue;
            }
            Piece piece = Piece.From(motion);
            double low = Run.Low(motion);
            float? under = Run.IsFeed(motion)
                ? _carver.Highest(piece, cutter.Radius)
                : _space.Highest(RapidSpace.Ground(motion), cutter.Radius);
            (double bite, Point2 where) = _walls.Bite(motion, cutter);
            double into = under is { } high ? high - low : -1;
            if (into >= 0 || bite > run.Limits.Gouge)
            {
                run.Log.Error(
                    "trim-hits-block",
                    motion.Line,
                    into >= 0
                        ? FormattableString.Invariant(
                            $"the cutter at Z {low:0.###} meets the block at Z {low + into:0.###}"
                        )
                        : FormattableString.Invariant(
                            $"the cutter goes {bite:0.###} mm into the block's wall at X {where.X:0.##} Y {where.Y:0.##}"
                        ),
                    "The trim must run in the relief: correct the path or make the relief wider or deeper",
                    motion.To.Xy
                );
            }
        }
    }
}
