using FixtureGen.Model;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Finished;

/// <summary>
/// Heights of the trim cutter: never below the design's floor, never below a bridge's top over the bridge, and down to that top at
/// least once; level stretches only at heights that belong to the cut.
/// </summary>
internal sealed class TabCheck(Run run)
{
    private const double Spacing = 0.4;
    private readonly double _tabTop = run.Design.FixtureHeight + run.Job.Rules.TabThickness;

    public void Check()
    {
        if (run.Design.TrimCuts.IsEmpty)
        {
            return;
        }
        Motion[] cuts =
        [
            .. run.Motions()
                .Select(m => m.Motion)
                .Where(m =>
                    Run.Low(m) < run.StockTop
                    && run.CutterOf(m) is { Tool.Kind: not ToolKind.Drill } c
                    && !run.IsMark(m, c)
                ),
        ];
        double floor = run.Design.TrimCuts.Min(c => c.FloorZ);
        foreach (Motion motion in cuts)
        {
            Deep(motion, floor);
            Tool(motion);
        }
        Levels(cuts);
        Ramps(cuts, floor);
        Lifted(cuts);
        foreach (TrimCut cut in run.Design.TrimCuts)
        {
            foreach (Tab tab in cut.Tabs)
            {
                Bridge(cut, tab, cuts);
            }
        }
    }

    private void Deep(Motion motion, double floor)
    {
        double deep = floor - Run.Low(motion);
        if (deep > run.Limits.Gouge)
        {
            run.Log.Error(
                "trim-too-deep",
                motion.Line,
                $"the tip goes to Z {Run.Low(motion):0.###}, {deep:0.###} mm below the trim's floor",
                "Correct the height",
                motion.To.Xy
            );
        }
    }

    private void Tool(Motion motion)
    {
        if (Run.IsFeed(motion) && run.Design.TrimCuts.All(c => c.Tool.Number != motion.Tool))
        {
            run.Log.Error(
                "trim-tool",
                motion.Line,
                $"tool {motion.Tool} cuts the shell, the trim was planned for {run.Design.TrimCuts[0].Tool.Name}",
                $"Call T{run.Design.TrimCuts[0].Tool.Number}",
                motion.To.Xy
            );
        }
    }

    /// <summary>A level that serves for less than half of the shortest cut is no pass.</summary>
    private void Levels(Motion[] cuts)
    {
        double shortest = run.Design.TrimCuts.Min(c => c.Path.Segments.Sum(s => s.Length));
        foreach (
            IGrouping<long, Motion> level in cuts.Where(m =>
                    Run.IsFeed(m) && Math.Abs(m.From.Z - m.To.Z) < 1e-6 && Piece.From(m).Length > 0.2
                )
                .GroupBy(m => (long)Math.Round(m.To.Z * 200))
        )
        {
            double z = level.First().To.Z;
            bool known =
                Math.Abs(z - _tabTop) <= run.Limits.Gouge
                || run.Design.TrimCuts.Any(c => Math.Abs(z - c.FloorZ) <= run.Limits.Gouge);
            double length = level.Sum(m => Piece.From(m).Length);
            if (!known && length > 1 && length < shortest / 2)
            {
                run.Log.Odd(
                    "lone-level",
                    level.First().Line,
                    $"the cutter runs level at Z {z:0.###}, which is neither the trim's floor nor a bridge's top nor a whole pass",
                    "Check the height",
                    level.First().To.Xy
                );
            }
        }
    }

    /// <summary>Level at a bridge's height where no bridge is: the way down after it is missing.</summary>
    private void Lifted(Motion[] cuts)
    {
        Bridges bridges = new(run.Design);
        double shortest = run.Design.TrimCuts.Min(c => c.Path.Segments.Sum(s => s.Length));
        Motion[] lifted =
        [
            .. cuts.Where(m =>
                Run.IsFeed(m)
                && Math.Abs(m.From.Z - m.To.Z) < 1e-6
                && Math.Abs(m.To.Z - _tabTop) <= run.Limits.Gouge
                && !(bridges.Contains(m.From.Xy) && bridges.Contains(m.To.Xy))
            ),
        ];
        if (lifted.Length == 0 || lifted.Sum(m => Piece.From(m).Length) >= shortest / 2)
        {
            return;
        }
        run.Log.Odd(
            "lone-level",
            lifted[0].Line,
            $"the cutter runs on at a tab's height, Z {_tabTop:0.###}, beyond the tab",
            "The way down after the tab is missing",
            lifted[0].To.Xy
        );
    }

    /// <summary>Ramps at the bridges rise alike and fall alike; one of a slope of its own was edited.</summary>
    private void Ramps(Motion[] cuts, double floor)
    {
        Bridges bridges = new(run.Design);
        Motion[] ramps =
        [
            .. cuts.Where(m =>
                Run.IsFeed(m)
                && (bridges.Contains(m.From.Xy) || bridges.Contains(m.To.Xy))
                && Math.Abs(m.To.Z - m.From.Z) > 1e-6
                && Piece.From(m).Length > 0.05
                && Math.Max(m.From.Z, m.To.Z) < _tabTop + 0.3
                && Run.Low(m) > floor - 0.3
            ),
        ];
        foreach ((Motion ramp, double off) in ramps.GroupBy(m => Math.Sign(m.To.Z - m.From.Z)).SelectMany(Alone))
        {
            if (off > JudgeRules.TabRampStep)
            {
                run.Log.Odd(
                    "tab-ramp",
                    ramp.Line,
                    $"this ramp at a tab ends {off:0.###} mm off the slope of any other",
                    "Check the height",
                    ramp.To.Xy
                );
            }
        }
    }

    /// <summary>How far each ends off the slope of the one most like it, mm; 0 for a ramp that has no other beside it.</summary>
    private static IEnumerable<(Motion Ramp, double Off)> Alone(IEnumerable<Motion> alike)
    {
        Motion[] ramps = [.. alike.Distinct().OrderBy(Slope)];
        for (int i = 0; i < ramps.Length; i++)
        {
            double before = i > 0 ? Slope(ramps[i]) - Slope(ramps[i - 1]) : double.MaxValue;
            double after = i + 1 < ramps.Length ? Slope(ramps[i + 1]) - Slope(ramps[i]) : double.MaxValue;
            double off = ramps.Length > 1 ? Math.Min(before, after) : 0;
            yield return (ramps[i], off * Piece.From(ramps[i]).Length);
        }
    }

    private static double Slope(Motion m) => Math.Abs(m.To.Z - m.From.Z) / Piece.From(m).Length;

    private void Bridge(TrimCut cut, Tab tab, Motion[] cuts)
    {
        Piece[] over = [.. PathParts.Between(cut.Path, tab.At - (tab.Length / 2), tab.At + (tab.Length / 2))];
        double reach = cut.Tool.Diameter / 4;
        double lowest = double.MaxValue;
        foreach (Motion motion in cuts)
        {
            Piece piece = Piece.From(motion);
            if (over.All(o => Distance.Between(piece, o).Distance > reach))
            {
                continue;
            }
            (double low, Point2 at) = LowestOver(motion, piece, over, reach);
            lowest = Math.Min(lowest, low);
            if (low < _tabTop - run.Limits.Gouge)
            {
                run.Log.Error(
                    "tab-thin",
                    motion.Line,
                    $"over a tab of {cut.Name} the tip is at Z {low:0.###}, the tab's top is Z {_tabTop:0.###}",
                    "Lift the cutter over the tab",
                    at
                );
            }
        }
        if (lowest > _tabTop + run.Limits.Leftover)
        {
            Point2 middle = over[over.Length / 2].PointAt(0.5);
            int line = cuts.Length == 0 ? 1 : cuts.MinBy(m => Distance.To(Piece.From(m), middle)).Line;
            run.Log.Error(
                "tab-thick",
                line,
                $"a tab of {cut.Name} is not cut down to its height, Z {_tabTop:0.###}",
                "Correct the height over the tab",
                middle
            );
        }
    }

    private static (double Low, Point2 At) LowestOver(Motion motion, Piece piece, Piece[] over, double reach)
    {
        int n = Math.Max(1, (int)Math.Ceiling(piece.Length / Spacing));
        (double Low, Point2 At) best = (double.MaxValue, default);
        for (int i = 0; i <= n; i++)
        {
            double t = (double)i / n;
            Point2 p = piece.PointAt(t);
            double z = motion.From.Z + ((motion.To.Z - motion.From.Z) * t);
            if (z < best.Low && over.Any(o => Distance.To(o, p) <= reach))
            {
                best = (z, p);
            }
        }
        return best;
    }
}
