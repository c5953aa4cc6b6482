using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Chaining;

/// <summary>Finds where loops cross or touch themselves and each other.</summary>
internal sealed class LoopCrossings(ChainLimits limits, string file)
{
    private const int MostNamed = 12;

    public List<Finding> Findings { get; } = [];

    /// <summary>False when there were too many pairs to look at them all.</summary>
    public bool Complete { get; private set; } = true;

    /// <summary>The loops with their own crossings filled in.</summary>
    public List<DrawnLoop> Mark(List<DrawnLoop> loops)
    {
        var segments = new List<(int Loop, int Index, Segment Segment)>();
        for (int i = 0; i < loops.Count; i++)
        {
            for (int k = 0; k < loops[i].Contour.Segments.Length; k++)
            {
                segments.Add((i, k, loops[i].Contour.Segments[k]));
            }
        }
        var grid = new SegmentGrid([.. segments.Select(s => Measure.Bounds(s.Segment))], limits.Grid);
        List<(int A, int B)> pairs = grid.Pairs(out bool all);
        if (!all)
        {
            Complete = false;
            Findings.Add(ChainFindings.Tangled(file));
            return [.. loops.Select(l => l with { Crossings = [l.Contour.Segments[0].Start] })];
        }
        var own = new SortedDictionary<int, List<Point2>>();
        var between = new List<Point2>();
        foreach ((int a, int b) in pairs)
        {
            (int loopA, int i, Segment s) = segments[a];
            (int loopB, int k, Segment t) = segments[b];
            List<Point2> points = [.. Intersections.Find(s, t, limits.Grid)];
            if (loopA != loopB)
            {
                between.AddRange(points);
                continue;
            }
            int count = loops[loopA].Contour.Segments.Length;
            points.RemoveAll(p => IsJoint(s, t, i, k, count, p));
            if (points.Count > 0)
            {
                own.TryAdd(loopA, []);
                own[loopA].AddRange(points);
            }
        }
        return Marked(loops, own, between);
    }

    private List<DrawnLoop> Marked(List<DrawnLoop> loops, SortedDictionary<int, List<Point2>> own, List<Point2> between)
    {
        foreach ((int i, List<Point2> points) in own)
        {
            loops[i] = loops[i] with { Crossings = Different(points) };
            if (Findings.Count < MostNamed)
            {
                Findings.Add(ChainFindings.CrossesItself(file, loops[i]));
            }
        }
        if (own.Count > MostNamed)
        {
            Findings.Add(ChainFindings.MoreCrossings(file, own.Count - MostNamed));
        }
        ImmutableArray<Point2> places = Different(between);
        if (places.Length > 0)
        {
            Findings.Add(ChainFindings.LoopsCross(file, places[0], places.Length - 1));
        }
        return loops;
    }

    // Neighbours meet at their joint, and there alone.
    private bool IsJoint(Segment s, Segment t, int i, int k, int count, Point2 p)
    {
        double slack = 4 * limits.Grid;
        return (k == i + 1 && p.DistanceTo(s.End) <= slack)
            || (i == 0 && k == count - 1 && p.DistanceTo(s.Start) <= slack)
            || (k == i + 1 && i == 0 && count == 2 && p.DistanceTo(t.End) <= slack);
    }

    private ImmutableArray<Point2> Different(List<Point2> points)
    {
        var cells = new HashSet<(long, long)>();
        double cell = 4 * limits.Near;
        return [.. points.Where(p => cells.Add(((long)Math.Floor(p.X / cell), (long)Math.Floor(p.Y / cell))))];
    }
}
