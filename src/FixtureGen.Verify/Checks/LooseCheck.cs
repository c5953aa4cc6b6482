using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Reading;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Checks;

/// <summary>
/// Which scrap the trim cuts loose, and when: the shell is cut on a coarse grid, what hangs together is found, and the line at
/// which each piece parts from the rest is searched by halving.
/// </summary>
internal static class LooseCheck
{
    private const double Cell = 0.4;

    /// <summary>Crumbs below this, mm2, are chips.</summary>
    private const double Crumb = 4;

    public static ImmutableArray<LooseScrap> Check(Run run)
    {
        (Motion Motion, Cutter Cutter)[] cuts =
        [
            .. run.Motions()
                .Select(m => (m.Motion, Cutter: run.CutterOf(m.Motion)))
                .Where(m => m.Cutter is not null && Run.Low(m.Motion) < run.StockTop && !run.IsMark(m.Motion, m.Cutter))
                .Select(m => (m.Motion, m.Cutter!)),
        ];
        using Islands end = Cut(run, cuts, cuts.Length);
        ImmutableArray<LooseScrap>.Builder loose = ImmutableArray.CreateBuilder<LooseScrap>();
        foreach (Island island in end.All.Where(i => !i.TouchesEdge && i.AreaMm2 > Crumb))
        {
            int from = 0;
            int to = cuts.Length;
            while (to - from > 1)
            {
                int mid = (from + to) / 2;
                using Islands then = Cut(run, cuts, mid);
                bool parted =
                    then.IslandAt(island.At) is { TouchesEdge: false } now && now.AreaMm2 < island.AreaMm2 * 1.5;
                (from, to) = parted ? (from, mid) : (mid, to);
            }
            loose.Add(new LooseScrap(cuts[to - 1].Motion.Line, island.At, island.AreaMm2));
        }
        ImmutableArray<LooseScrap> sorted = [.. loose.OrderBy(l => l.Line)];
        Judge(run, sorted, end);
        return sorted;
    }

    private static Islands Cut(Run run, (Motion Motion, Cutter Cutter)[] cuts, int count)
    {
        using BlockGrid grid = new(run.Grid.Box, Cell, run.Grid.RawBottomZ, run.Grid.RawTopZ);
        Carver carver = new(grid);
        for (int i = 0; i < count; i++)
        {
            carver.Cut(cuts[i].Motion, cuts[i].Cutter, double.MaxValue);
        }
        return new Islands(grid);
    }

    /// <summary>A loose piece that is not the part must not lie about while the cutter goes on; tabs that were asked for must hold.</summary>
    private static void Judge(Run run, ImmutableArray<LooseScrap> loose, Islands end)
    {
        Shape.Area part = new(Region.From(run.Design.Part.Outer));
        int lastCut = run.Motions()
            .Where(m => Run.IsFeed(m.Motion) && Run.Low(m.Motion) < run.StockTop)
            .Select(m => m.Motion.Line)
            .DefaultIfEmpty(0)
            .Max();
        foreach (LooseScrap piece in loose)
        {
            bool isPart = part.Contains(piece.At) && !InCutout(run, piece.At);
            int next = NextCut(run, piece.Line);
            // a stop comes after the motion of its own line (NISTIR 6556 table 8)
            bool stopped = run.Trace.Events.Any(e => e.Kind == EventKind.Stop && e.Line >= piece.Line && e.Line < next);
            if (!isPart && piece.Line < lastCut && !stopped)
            {
                run.Log.Error(
                    "scrap-loose",
                    piece.Line,
                    $"a piece of {piece.AreaMm2:0} mm2 at X {piece.At.X:0.##} Y {piece.At.Y:0.##} comes loose while the cutter goes on",
                    "Mill it away, hold it by tabs or stop to take it out",
                    piece.At
                );
            }
            else if (
                isPart
                && run.Job.Skirt == SkirtHold.Tabs
                && run.Design.TrimCuts.Any(c => c.Kind == TrimKind.Outline && !c.Tabs.IsEmpty)
            )
            {
                run.Log.Error(
                    "tab-cut",
                    piece.Line,
                    "no tab is left between part and skirt",
                    "Lift the cutter over the tabs",
                    piece.At
                );
            }
        }
    }

    /// <summary>The line at which the next cut begins: the one that frees the piece may still run out.</summary>
    private static int NextCut(Run run, int line) =>
        run.Motions()
            .Select(m => m.Motion)
            .SkipWhile(m => m.Line <= line || Run.IsFeed(m))
            .Where(m => Run.IsFeed(m) && Run.Low(m) < run.StockTop)
            .Select(m => m.Line)
            .FirstOrDefault(int.MaxValue);

    private static bool InCutout(Run run, Point2 p) =>
        run.Design.Part.Cutouts.Any(c => new Shape.Area(Region.From(c)).Contains(p));
}
