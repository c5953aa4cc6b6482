using FixtureGen.Model;

namespace FixtureGen.Dxf;

/// <summary>Where two segments meet: crossings, touches, and the ends of a stretch that they share.</summary>
internal static class SegmentMeeting
{
    /// <summary>Points that lie on both within <paramref name="near"/>.</summary>
    public static List<Point2> Points(Segment a, Segment b, double near)
    {
        var points = new List<Point2>();
        if (!a.IsArc && !b.IsArc)
        {
            Lines(a, b, points);
        }
        else if (a.IsArc && b.IsArc)
        {
            Circles(a, b, near, points);
        }
        else
        {
            LineAndCircle(a.IsArc ? b : a, a.IsArc ? a : b, near, points);
        }
        points.RemoveAll(p =>
            !double.IsFinite(p.X + p.Y) || LoopMath.Distance(p, a) > near || LoopMath.Distance(p, b) > near
        );
        Ends(a, b, near, points);
        Ends(b, a, near, points);
        return points;
    }

    private static void Lines(Segment a, Segment b, List<Point2> points)
    {
        Point2 d = a.End - a.Start;
        Point2 e = b.End - b.Start;
        double cross = d.Cross(e);
        if (Math.Abs(cross) > 1e-12 * d.Length * e.Length)
        {
            points.Add(a.Start + ((b.Start - a.Start).Cross(e) / cross * d));
        }
    }

    private static void LineAndCircle(Segment line, Segment arc, double near, List<Point2> points)
    {
        Point2 d = line.End - line.Start;
        double length = d.Length;
        if (length <= 0)
        {
            return;
        }
        d *= 1 / length;
        Point2 foot = line.Start + ((arc.Centre - line.Start).Dot(d) * d);
        double h = foot.DistanceTo(arc.Centre);
        if (h <= arc.Radius + near)
        {
            double half = Math.Sqrt(Math.Max(0, (arc.Radius - h) * (arc.Radius + h)));
            points.Add(foot + (half * d));
            points.Add(foot - (half * d));
        }
    }

    private static void Circles(Segment a, Segment b, double near, List<Point2> points)
    {
        Point2 d = b.Centre - a.Centre;
        double apart = d.Length;
        double ra = a.Radius;
        double rb = b.Radius;
        if (apart <= near || apart > ra + rb + near || apart < Math.Abs(ra - rb) - near)
        {
            return;
        }
        d *= 1 / apart;
        double along = ((apart * apart) + ((ra - rb) * (ra + rb))) / (2 * apart);
        double half = Math.Sqrt(Math.Max(0, (ra - along) * (ra + along)));
        Point2 foot = a.Centre + (along * d);
        points.Add(foot + (half * d.Left));
        points.Add(foot - (half * d.Left));
    }

    private static void Ends(Segment of, Segment on, double near, List<Point2> points)
    {
        foreach (Point2 end in (ReadOnlySpan<Point2>)[of.Start, of.End])
        {
            if (LoopMath.Distance(end, on) <= near && !points.Exists(p => p.DistanceTo(end) <= 2 * near))
            {
                points.Add(end);
            }
        }
    }
}
