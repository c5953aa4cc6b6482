using FixtureGen.Model;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Sequence;

/// <summary>
/// The order and the sense of a trim: marks, then drilled holes and cutouts, the outline last, while the shell is still whole; and every contour the way
/// round that it was planned, for the cutter's pull on the edge and the hold go with it.
/// </summary>
internal sealed class TrimOrderCheck(Run run)
{
    /// <summary>Shorter stretches show no sense, mm.</summary>
    private const double LeastRun = 0.5;

    private readonly TrimPaths _paths = new(run.Design);

    public void Check()
    {
        int outline = 0;
        int through = 0;
        int told = 0;
        foreach ((int index, _, Motion motion) in run.Motions())
        {
            if (!Run.IsFeed(motion) || Run.Low(motion) >= run.StockTop || run.CutterOf(motion) is not { } cutter)
            {
                continue;
            }
            if (run.IsMark(motion, cutter))
            {
                told = Late(motion, "a mark is engraved", through, told);
            }
            else if (cutter.Tool.Kind == ToolKind.Drill)
            {
                told = Late(motion, "a hole is drilled", outline, told);
                through = through == 0 ? motion.Line : through;
            }
            else if (run.Tallies[index].Removed > JudgeRules.NoMaterial && Along(motion) is { } cut)
            {
                bool last = cut.Kind == TrimKind.Outline;
                told = last ? told : Late(motion, $"{cut.Name} is cut", outline, told);
                outline = last && outline == 0 ? motion.Line : outline;
                through = through == 0 ? motion.Line : through;
            }
        }
    }

    private int Late(Motion motion, string what, int after, int told)
    {
        if (after == 0 || told > after)
        {
            return told;
        }
        run.Log.Error(
            "trim-order",
            motion.Line,
            $"{what} after line {after} has begun to cut the shell loose",
            "Engrave first, then drill and cut the cutouts, the outline last",
            motion.To.Xy
        );
        return motion.Line;
    }

    /// <summary>The cut along whose path a motion runs; one that runs against it has a finding.</summary>
    private TrimCut? Along(Motion motion)
    {
        if (_paths.Along(motion) is not { } found)
        {
            return null;
        }
        (TrimCut cut, double sense) = found;
        bool level = Math.Abs(motion.To.Z - motion.From.Z) < 1e-6;
        if (level && Piece.From(motion).Length >= LeastRun && sense < -0.5)
        {
            run.Log.Error(
                "trim-direction",
                motion.Line,
                $"{cut.Name} is cut the other way round than it was planned",
                "Run the contour as planned: with M3 the cutter climbs along the part's edge only that way",
                motion.To.Xy
            );
        }
        return cut;
    }
}
