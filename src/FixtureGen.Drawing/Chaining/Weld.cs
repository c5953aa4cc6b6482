using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Chaining;

/// <summary>Closes the gap between two segments without leaving an arc whose ends lie on different radii.</summary>
internal static class Weld
{
    /// <summary>A shift this small is rounding: the arc's centre stays.</summary>
    private const double Rounding = 1e-7;

    /// <summary>The segment with other ends nearby; an arc keeps its sweep.</summary>
    public static Segment Ends(Segment s, Point2 start, Point2 end)
    {
        if (s.Start == start && s.End == end)
        {
            return s;
        }
        double shift = Math.Max(s.Start.DistanceTo(start), s.End.DistanceTo(end));
        return !s.IsArc || shift <= Rounding
            ? s with
            {
                Start = start,
                End = end,
            }
            : Bulges.Arc(start, end, Bulges.FromSegment(s));
    }

    /// <summary>
    /// Adds <paramref name="next"/> to the path. A line's end moves over a gap; between arcs the next one moves when it is
    /// long enough to keep its shape, else a short line bridges the gap.
    /// </summary>
    public static void Append(List<Segment> path, Segment next)
    {
        if (path.Count == 0)
        {
            path.Add(next);
            return;
        }
        Segment last = path[^1];
        double gap = last.End.DistanceTo(next.Start);
        if (gap <= Rounding || MayMove(next, gap))
        {
            path.Add(Ends(next, last.End, next.End));
        }
        else if (MayMove(last, gap))
        {
            path[^1] = Ends(last, last.Start, next.Start);
            path.Add(next);
        }
        else
        {
            path.Add(Segment.Line(last.End, next.Start));
            path.Add(next);
        }
    }

    /// <summary>Joins a closed path's end to its start, bit for bit.</summary>
    public static void Close(List<Segment> path)
    {
        Point2 start = path[0].Start;
        Segment last = path[^1];
        double gap = last.End.DistanceTo(start);
        if (gap <= Rounding || MayMove(last, gap))
        {
            path[^1] = Ends(last, last.Start, start);
        }
        else if (MayMove(path[0], gap))
        {
            path[0] = Ends(path[0], last.End, path[0].End);
        }
        else
        {
            path.Add(Segment.Line(last.End, start));
        }
    }

    private static bool MayMove(Segment s, double gap)
    {
        double chord = s.Start.DistanceTo(s.End);
        return s.IsArc ? chord > 50 * gap && Math.Abs(s.Sweep) < 1.2 * Math.PI : chord > 2 * gap;
    }
}
