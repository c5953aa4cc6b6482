using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>The lines and circles that curves run on.</summary>
internal static class Carriers
{
    /// <summary>
    /// The common points of two different carriers, of which one at least is a circle. Where they come within
    /// <paramref name="near"/> of each other, or go into each other by no more than rounding, they touch in one point.
    /// </summary>
    public static int Common(in Curve a, in Curve b, double near, Span<Point2> points)
    {
        if (a.Turn == 0)
        {
            return LineCircle(a, b, near, points);
        }
        if (b.Turn == 0)
        {
            return LineCircle(b, a, near, points);
        }
        bool ordered = a.R < b.R || (a.R == b.R && Precedes(a.C, b.C));
        return ordered ? Circles(a, b, near, points) : Circles(b, a, near, points);
    }

    /// <summary>An order of points that depends on their coordinates alone.</summary>
    public static bool Precedes(Point2 p, Point2 q) => p.X < q.X || (p.X == q.X && p.Y < q.Y);

    /// <summary>True when a point of the curve's carrier lies between its ends.</summary>
    public static bool Holds(in Curve c, Point2 p)
    {
        if (c.Turn != 0)
        {
            return c.SweepHolds(p);
        }
        Point2 d = c.B - c.A;
        double t = (p - c.A).Dot(d);
        return t >= 0 && t <= d.Dot(d);
    }

    private static int Circles(in Curve small, in Curve large, double near, Span<Point2> points)
    {
        Point2 between = large.C - small.C;
        double distance = between.Length;
        double outside = distance - (small.R + large.R);
        double inside = large.R - small.R - distance;
        if (outside > near || inside > near || distance == 0)
        {
            return 0;
        }
        double deep = -Cutter.Harmless * near;
        double x = ((distance * distance) - ((large.R - small.R) * (large.R + small.R))) / (2 * distance);
        if (outside >= deep || inside >= deep)
        {
            // The middle of what lies between the two circles, on the line through their centres.
            double on = outside >= deep ? small.R + (outside / 2) : -small.R - (inside / 2);
            points[0] = small.C + (between * (on / distance));
            return 1;
        }
        double h2 = (small.R - x) * (small.R + x);
        Point2 foot = small.C + (between * (x / distance));
        Point2 half = between.Left * (Math.Sqrt(Math.Max(0, h2)) / distance);
        points[0] = foot + half;
        points[1] = foot - half;
        return 2;
    }

    private static int LineCircle(in Curve line, in Curve arc, double near, Span<Point2> points)
    {
        Point2 d = line.B - line.A;
        d *= 1 / d.Length;
        Point2 w = arc.C - line.A;
        double off = d.Cross(w);
        double gap = Math.Abs(off) - arc.R;
        if (gap > near)
        {
            return 0;
        }
        Point2 foot = line.A + (d * w.Dot(d));
        if (gap >= -Cutter.Harmless * near)
        {
            // off is how far the centre lies to the left of the line; the touch lies half the gap off the line.
            points[0] = foot + (d.Left * (gap * Math.Sign(off) / 2));
            return 1;
        }
        double h2 = (arc.R - off) * (arc.R + off);
        Point2 half = d * Math.Sqrt(h2);
        points[0] = foot + half;
        points[1] = foot - half;
        return 2;
    }
}
