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
    public static void Check(FactRun facts)
    {
        List<Piece> ways = [];
        List<int> lines = [];
        foreach ((_, _, Motion motion) in facts.Run.Motions())
        {
            bool cuts =
                Run.IsFeed(motion)
                && Run.Low(motion) < facts.Run.Face - Fits.Rounding
                && facts.Run.CutterOf(motion) is { } cutter
                && !facts.Run.IsMark(motion, cutter);
            if (!cuts)
            {
                continue;
            }
            Piece way = Piece.From(motion);
            double radius = facts.Run.CutterOf(motion)!.Radius;
            Into(facts, motion, way, radius);
            if (way.Length > 1e-9 && motion.Tool == facts.Job.TrimTool.Number)
            {
                ways.Add(way);
                lines.Add(motion.Line);
            }
        }
        Left(facts, ways, lines);
    }

    private static void Into(FactRun facts, Motion motion, Piece way, double radius)
    {
        double allowed = facts.Run.Limits.Gouge;
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

    private static void Left(FactRun facts, List<Piece> ways, List<int> lines)
    {
        double radius = facts.Job.TrimTool.Radius;
        double allowed = Math.Max(facts.Job.Rules.CornerLeft, facts.Run.Limits.Leftover);
        if (ways.Count == 0)
        {
            return;
        }
        PieceBins cut = new([.. ways], 4);
        foreach (ImmutableArray<Piece> edge in facts.Drawing.Cutouts.Append(facts.Drawing.Outer))
        {
            Spread off = Spread.Find(edge, cut, 0, radius + allowed);
            if (off.Greatest > radius + allowed)
            {
                int near = Enumerable.Range(0, ways.Count).MinBy(i => Distance.To(ways[i], off.GreatestAt));
                FactFindings.EdgeLeft(facts, lines[near], off.Greatest - radius, allowed, off.GreatestAt);
            }
        }
    }
}
