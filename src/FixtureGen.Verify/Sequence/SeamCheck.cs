using FixtureGen.Model;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Sequence;

/// <summary>
/// The last round of every trim cut goes on past the point where it closes: there the cutter came in and goes out, and where it only
/// just meets its beginning a mark stands on the edge, or a sliver that a cutter a little small does not take.
/// </summary>
internal sealed class SeamCheck(Run run)
{
    private readonly TrimPaths _paths = new(run.Design);
    private readonly Dictionary<TrimCut, Round> _last = new(ReferenceEqualityComparer.Instance);

    public void Check()
    {
        TrimCut? now = null;
        foreach ((_, _, Motion motion) in run.Motions())
        {
            double length = Piece.From(motion).Length;
            if (!Run.IsFeed(motion) || Run.Low(motion) >= run.StockTop)
            {
                now = null;
                continue;
            }
            if (length < 1e-9 || run.CutterOf(motion) is not { } cutter || run.IsMark(motion, cutter))
            {
                continue;
            }
            (TrimCut Cut, double Sense)? along = _paths.Along(motion);
            if (along is not { } found)
            {
                now = null;
                continue;
            }
            double net = now == found.Cut ? _last[now].Net : 0;
            now = found.Cut;
            _last[now] = new Round(net + (found.Sense < 0 ? -length : length), motion.Line, motion.To.Xy);
        }
        foreach (TrimCut cut in run.Design.TrimCuts)
        {
            if (_last.TryGetValue(cut, out Round round))
            {
                Beyond(cut, round);
            }
        }
    }

    private void Beyond(TrimCut cut, Round round)
    {
        double whole = cut.Path.Segments.Sum(s => s.Length);
        double least = Math.Min(JudgeRules.SeamShare * cut.Tool.Diameter, whole / 16);
        double beyond = round.Net - whole;
        // what is short by more was cut in another order, or is left over, which the block shows
        if (beyond < least && beyond > -cut.Tool.Diameter)
        {
            run.Log.Warn(
                "contour-seam",
                round.Line,
                $"{cut.Name} ends {beyond:0.##} mm past where it began, {least:0.##} mm is the least",
                "Go on along the contour a little before leaving it, or a mark stands where it closes",
                round.End
            );
        }
    }

    /// <summary>How far along the path a round went in all, mm, back steps taken off, and where it ended.</summary>
    private readonly record struct Round(double Net, int Line, Point2 End);
}
