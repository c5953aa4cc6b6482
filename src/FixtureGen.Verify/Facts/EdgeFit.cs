using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Facts;

/// <summary>
/// The edge that the program really trims against the drawing in its placement, from the motions alone: nowhere does the cutter go into
/// the part, and every drawn edge is cut, but for what a corner tighter than the cutter keeps.
/// </summary>
internal static class EdgeFit
{
    /// <summary>Stretches of an edge that are asked one by one, mm.</summary>
    private const double Stretch = 0.5;

    public static void Check(FactRun facts)
    {
        Dictionary<double, (List<Piece> Ways, List<int> Lines)> cuts = [];
        foreach ((_, _, Motion motion) in facts.Run.Motions())
        {
            bool through =
                Run.IsFeed(motion)
                && Run.Low(motion) < facts.Run.Face - Fits.Rounding
                && facts.Run.CutterOf(motion) is { } cutter
                && !facts.Run.IsMark(motion, cutter);
            if (!through)
            {
                continue;
            }
            Piece way = Piece.From(motion);
            Carving.Cutter by = facts.Run.CutterOf(motion)!;
            double radius = by.Radius;
            bool drilled = by.Tool.Kind == ToolKind.Drill;
            Into(facts, motion, way, radius, drilled ? Fits.DrilledHole / 2 : 0);
            if (way.Length > 1e-9 || drilled)
            {
                // a drill's stroke is a point, which is a very short way
                way = way.Length > 1e-9 ? way : Piece.Line(way.A, way.A + new Point2(1e-6, 0));
                if (!cuts.TryGetValue(radius, out (List<Piece> Ways, List<int> Lines) alike))
                {
                    cuts[radius] = alike = ([], []);
                }
                alike.Ways.Add(way);
                alike.Lines.Add(motion.Line);
            }
        }
        Left(
            facts,
            [
                .. cuts.OrderByDescending(c => c.Key)
                    .Select(c => new CutBy(c.Key, new PieceBins([.. c.Value.Ways], 4), c.Value.Lines)),
            ]
        );
    }

    /// <param name="more">How much larger than drawn its hole may be made, mm on the radius.</param>
    private static void Into(FactRun facts, Motion motion, Piece way, double radius, double more)
    {
        double allowed = facts.Run.Limits.Gouge + more;
        PlacedDrawing drawn = facts.Drawing;
        Piece[] inside = way.Length > 1e-9 ? [.. Spread.Within(way, drawn.Shell, drawn.Edges)] : [];
        bool within = inside.Length > 0 || drawn.Shell.Contains(way.A);
        Spread off = within
            ? Spread.Find(inside.Length > 0 ? inside : [way], drawn.Edges, 0, 0)
            : Spread.Find([way], drawn.Edges, radius - allowed, double.MaxValue / 4);
        double bite = within ? radius + off.Greatest : radius - off.Least;
        Point2 at = within ? off.GreatestAt : off.LeastAt;
        if (bite > allowed + 1e-9)
        {
            FactFindings.Edge(facts, motion.Line, bite, allowed, at);
        }
    }

    /// <summary>Every edge is cut by one of the cutters: the one that leaves least of it.</summary>
    private static void Left(FactRun facts, IReadOnlyList<CutBy> cutters)
    {
        double allowed = Math.Max(facts.Job.Rules.CornerLeft, facts.Run.Limits.Leftover);
        if (cutters.Count == 0)
        {
            return;
        }
        foreach (ImmutableArray<Piece> edge in facts.Drawing.Cutouts.Append(facts.Drawing.Outer))
        {
            (CutBy by, Spread off) = cutters
                .Select(c => (Cutter: c, Off: Spread.Find(edge, c.Ways, 0, c.Radius + allowed)))
                .MinBy(c => c.Off.Greatest - c.Cutter.Radius);
            if (off.Greatest > by.Radius + allowed && cutters.Count > 1)
            {
                (by, off) = Together(edge, cutters, allowed);
            }
            if (off.Greatest > by.Radius + allowed)
            {
                ImmutableArray<Piece> ways = by.Ways.Pieces;
                int near = Enumerable.Range(0, ways.Length).MinBy(i => Distance.To(ways[i], off.GreatestAt));
                FactFindings.EdgeLeft(facts, by.Lines[near], off.Greatest - by.Radius, allowed, off.GreatestAt);
            }
        }
    }

    /// <summary>
    /// The stretch of an edge that is farthest from being cut, by the cutter that cuts most of it: what one leaves another may cut. Each
    /// stretch is asked whole, so that a stretch which two cutters share is taken for worse than it is, never for better.
    /// </summary>
    private static (CutBy By, Spread Off) Together(
        ImmutableArray<Piece> edge,
        IReadOnlyList<CutBy> cutters,
        double allowed
    )
    {
        IEnumerable<Piece> stretches = edge.SelectMany(p =>
        {
            int n = Math.Max(1, (int)Math.Ceiling(p.Length / Stretch));
            return Enumerable.Range(0, n).Select(i => p.Part((double)i / n, (double)(i + 1) / n));
        });
        return stretches
            .Select(s =>
                cutters
                    .Select(c => (By: c, Off: Spread.Find([s], c.Ways, 0, c.Radius + allowed)))
                    .MinBy(c => c.Off.Greatest - c.By.Radius)
            )
            .MaxBy(s => s.Off.Greatest - s.By.Radius);
    }

    /// <summary>All that cutters of one radius, mm, cut through the shell, and on which lines.</summary>
    private sealed record CutBy(double Radius, PieceBins Ways, List<int> Lines);
}
