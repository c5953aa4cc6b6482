using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Reading;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Finished;

/// <summary>
/// Which scrap the trim cuts loose, and when: the shell is cut on a coarse grid, what hangs together is found, and the line at
/// which each piece parts from the rest is found by putting the cells back (Parting).
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
        using BlockGrid grid = new(run.Grid.Box, Cell, run.Grid.RawBottomZ, run.Grid.RawTopZ);
        Parting parting = new(grid, cuts);
        using Islands end = new(grid);
        Island[] free = [.. end.All.Where(i => !i.TouchesEdge && i.AreaMm2 > Crumb)];
        int[] parted = parting.PartedBy([.. free.Select(i => (CellAt(grid, i.At), i.AreaMm2 / (Cell * Cell)))]);
        ImmutableArray<LooseScrap> sorted =
        [
            .. free.Zip(parted, (f, by) => new LooseScrap(cuts[by].Motion.Line, f.At, f.AreaMm2)).OrderBy(l => l.Line),
        ];
        Judge(run, sorted);
        return sorted;
    }

    private static int CellAt(BlockGrid grid, Point2 p) =>
        ((int)((p.Y - grid.Box.MinY) / grid.Cell) * grid.Columns) + (int)((p.X - grid.Box.MinX) / grid.Cell);

    /// <summary>A loose piece that is not the part must not lie about while the cutter goes on; tabs that were asked for must hold.</summary>
    private static void Judge(Run run, ImmutableArray<LooseScrap> loose)
    {
        Area part = new(Region.From(run.Design.Part.Outer));
        int lastCut = run.Motions()
            .Where(m => Run.IsFeed(m.Motion) && Run.Low(m.Motion) < run.StockTop)
            .Select(m => m.Motion.Line)
            .DefaultIfEmpty(0)
            .Max();
        int[] stops = [.. run.Trace.Events.Where(e => e.Kind == EventKind.Stop).Select(e => e.Line)];
        int[] beginnings = Beginnings(run);
        Area[] cutouts = [.. run.Design.Part.Cutouts.Select(c => new Area(Region.From(c)))];
        foreach (LooseScrap piece in loose)
        {
            bool isPart = part.Contains(piece.At) && !cutouts.Any(c => c.Contains(piece.At));
            // a stop comes after the motion of its own line (NISTIR 6556 table 8)
            if (!isPart && piece.Line < lastCut && !Stopped(stops, beginnings, piece.Line))
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

    /// <summary>Whether a stop stands between a line and the next at which a cut begins: the one that frees a piece may still run out.</summary>
    private static bool Stopped(int[] stops, int[] beginnings, int line)
    {
        int next = FirstFrom(beginnings, line + 1) ?? int.MaxValue;
        return FirstFrom(stops, line) is { } stop && stop < next;
    }

    /// <summary>The first of sorted lines that is no less than one.</summary>
    private static int? FirstFrom(int[] lines, int line)
    {
        int at = Array.BinarySearch(lines, line);
        at = at < 0 ? ~at : at;
        return at < lines.Length ? lines[at] : null;
    }

    /// <summary>Lines that feed into the shell after something else than feeding.</summary>
    private static int[] Beginnings(Run run)
    {
        List<int> lines = [];
        bool fed = false;
        foreach ((_, _, Motion motion) in run.Motions())
        {
            bool cuts = Run.IsFeed(motion) && Run.Low(motion) < run.StockTop;
            if (cuts && !fed)
            {
                lines.Add(motion.Line);
            }
            fed = Run.IsFeed(motion) && (fed || cuts);
        }
        return [.. lines];
    }
}
