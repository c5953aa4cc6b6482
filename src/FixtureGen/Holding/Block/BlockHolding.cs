using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Holding.Sliding;
using FixtureGen.Model;
using FixtureGen.Shop.Files;

namespace FixtureGen.Holding.Block;

/// <summary>
/// Holding of the block while it is cut: the plate's vacuum on its seal zone less the plate gasket's push, the plate's
/// friction under the whole block, pressed evenly or at the rim (the worse counts), and the bolts once they are in. The
/// worst place of each operation is a corner of the convex hull of its cuts (the multiplier's inverse is convex in the place),
/// at the height of its highest cut; 16 directions are tried. Pins and stops are not counted. What is asked again of the same
/// block (a draft and the operation that comes of it) is answered from memory; not for two threads at once.
/// </summary>
public sealed class BlockHolding(FixtureDesign design, Job job)
{
    /// <summary>
    /// Share that is relied on of a bolt's nominal preload, torque / (nut factor times diameter): torque scatters by some 30 %;
    /// common practice, no source.
    /// </summary>
    public const double PreloadShare = 0.7;

    private const int Directions = 16;

    private readonly Dictionary<Asked, BlockHold> _known = [];
    private BlockSeat? _seat;

    /// <summary>
    /// One answer per operation, in order. Errors: block-hold-low below the house limit for the block; vacuum-altitude, with no
    /// answer, outside -500 to 11 000 m.
    /// </summary>
    /// <param name="operations">Each with whether the bolts are in, and whether the plate's seal is broken by then: no vacuum.</param>
    public Stage<ImmutableArray<BlockHold>> Evaluate(
        IReadOnlyList<(Operation Op, bool Bolted, bool SealBroken)> operations
    )
    {
        if (!Atmosphere.Reaches(job.Vacuum.AltitudeM))
        {
            return Stage.Failed<ImmutableArray<BlockHold>>(BlockHoldFindings.Altitude(job.Vacuum.AltitudeM));
        }
        var holds = ImmutableArray.CreateBuilder<BlockHold>();
        List<Finding> findings = [];
        foreach ((Operation op, bool bolted, bool broken) in operations)
        {
            BlockHold hold = Worst(op, bolted, broken);
            holds.Add(hold);
            if (hold.Factor < job.Limits.BlockFactor)
            {
                findings.Add(BlockHoldFindings.BlockLow(hold, broken, job.Limits.BlockFactor));
            }
        }
        return Stage.Answer(holds.ToImmutable(), findings);
    }

    private BlockHold Worst(Operation op, bool bolted, bool broken)
    {
        (CutForce force, double engaged) = BlockCut.Load(op, job, design.FixtureHeight);
        Asked asked = new(
            force,
            BlockCut.Height(op),
            bolted,
            broken,
            new Corners(ConvexHull.Around(BlockCut.Places(op)))
        );
        if (!_known.TryGetValue(asked, out BlockHold? worst))
        {
            _seat ??= new BlockSeat(design, job);
            _known[asked] = worst = Worst(asked, _seat.Held(bolted, broken), engaged);
        }
        return worst with { Operation = op.Name };
    }

    private static BlockHold Worst(Asked asked, HeldPart[] held, double engaged)
    {
        BlockHold worst = new("", LimitState.Most, HoldMode.Slide, asked.Bolted, engaged);
        LimitAnswer[] last = new LimitAnswer[held.Length];
        foreach (Point2 at in asked.Corners.Points)
        {
            for (int k = 0; k < Directions; k++)
            {
                double angle = 2 * Math.PI * k / Directions;
                Point2 shear = new Point2(Math.Cos(angle), Math.Sin(angle)) * asked.Force.Shear;
                CutLoad load = new(at, shear, asked.Force.Axial, asked.Height);
                for (int i = 0; i < held.Length; i++)
                {
                    LimitAnswer answer = last[i] = LimitState.Solve(held[i], load, last[i]);
                    worst =
                        answer.Factor < worst.Factor
                            ? worst with
                            {
                                Factor = answer.Factor,
                                Mode = answer.Mode,
                            }
                            : worst;
                }
            }
        }
        return worst;
    }

    /// <summary>All that decides an operation's answer on one block.</summary>
    private sealed record Asked(CutForce Force, double Height, bool Bolted, bool Broken, Corners Corners);

    /// <summary>Points that are the same where they are the same one by one.</summary>
    private readonly struct Corners(Point2[] points) : IEquatable<Corners>
    {
        public Point2[] Points => points;

        public bool Equals(Corners other) => points.AsSpan().SequenceEqual(other.Points);

        public override bool Equals(object? obj) => obj is Corners other && Equals(other);

        public override int GetHashCode() =>
            points.Length == 0 ? 0 : HashCode.Combine(points.Length, points[0], points[^1]);
    }
}
