using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Common points of two curves. Curves that run on the same line or circle share a stretch; its ends are returned then.
/// A point within <c>near</c> of a curve's end counts as on the curve.
/// </summary>
internal static class Crossings
{
    /// <summary>The most points <see cref="Find"/> can return.</summary>
    public const int Most = 4;

    // Squared half chord, as a part of the radius times the greatest length in the sum, that rounding cannot tell from 0.
    private const double Tangent = Rounding.Touching;
    private const double Parallel = Rounding.Touching;

    /// <summary>Writes the common points and returns how many there are.</summary>
    public static int Find(in Curve a, in Curve b, double near, Span<Point2> points)
    {
        if (a.Turn == 0 && b.Turn == 0)
        {
            return LineLine(a, b, near, points);
        }
        if (a.Turn != 0 && b.Turn != 0)
        {
            return SameCircle(a, b, near)
                ? SharedEnds(a, b, near, points)
                : KeepOnBoth(a, b, near, points, Circles(a, b, near, points));
        }
        int count = a.Turn == 0 ? LineCircle(a, b, near, points) : LineCircle(b, a, near, points);
        return KeepOnBoth(a, b, near, points, count);
    }

    /// <summary>True when the point, known to be on the curve's line or circle, lies within its ends.</summary>
    public static bool On(in Curve c, Point2 p, double near)
    {
        if (Near(p, c.A, near) || Near(p, c.B, near))
        {
            return true;
        }
        if (c.Turn != 0)
        {
            return c.SweepHolds(p);
        }
        Point2 d = c.B - c.A;
        double t = (p - c.A).Dot(d);
        return t >= 0 && t <= d.Dot(d);
    }

    /// <summary>Parameters of the crossing of two straight carriers; false when they are parallel.</summary>
    public static bool Lines(in Curve a, in Curve b, out double t, out double u)
    {
        Point2 r = a.B - a.A;
        Point2 s = b.B - b.A;
        double c = r.Cross(s);
        t = u = 0;
        if (Math.Abs(c) <= Parallel * Math.Sqrt(r.Dot(r) * s.Dot(s)))
        {
            return false;
        }
        Point2 w = b.A - a.A;
        t = w.Cross(s) / c;
        u = w.Cross(r) / c;
        return true;
    }

    /// <summary>
    /// The crossing points of the whole carriers (lines, circles), of which one at least is a circle, wherever the curves end;
    /// none when they coincide.
    /// </summary>
    public static int Carriers(in Curve a, in Curve b, double near, Span<Point2> points)
    {
        if (a.Turn != 0 && b.Turn != 0)
        {
            return SameCircle(a, b, near) ? 0 : Circles(a, b, near, points);
        }
        return a.Turn == 0 ? LineCircle(a, b, near, points) : LineCircle(b, a, near, points);
    }

    private static int LineLine(in Curve a, in Curve b, double near, Span<Point2> points)
    {
        if (SameLine(a, b, near))
        {
            return SharedEnds(a, b, near, points);
        }
        if (!Lines(a, b, out double t, out _))
        {
            return 0;
        }
        Point2 q = a.PointAt(t);
        if (!On(a, q, near) || !On(b, q, near))
        {
            return 0;
        }
        points[0] = q;
        return 1;
    }

    private static bool SameLine(in Curve a, in Curve b, double near)
    {
        Point2 d = a.B - a.A;
        Point2 e = b.B - b.A;
        double cross = d.Cross(e);
        double dd = d.Dot(d);
        double ee = e.Dot(e);
        // The shorter one may leave the longer one's line by no more than near over its whole length.
        if (cross * cross > near * near * Math.Max(dd, ee))
        {
            return false;
        }
        double off = dd >= ee ? d.Cross(b.A - a.A) : e.Cross(a.A - b.A);
        return off * off <= near * near * Math.Max(dd, ee);
    }

    private static bool SameCircle(in Curve a, in Curve b, double near) =>
        Math.Abs(a.R - b.R) + a.C.DistanceTo(b.C) < 2 * near;

    private static int SharedEnds(in Curve a, in Curve b, double near, Span<Point2> points)
    {
        int n = 0;
        n = AddIfOn(a, b.A, near, points, n);
        n = AddIfOn(a, b.B, near, points, n);
        n = AddIfOn(b, a.A, near, points, n);
        return AddIfOn(b, a.B, near, points, n);
    }

    private static int AddIfOn(in Curve c, Point2 p, double near, Span<Point2> points, int n)
    {
        if (On(c, p, near))
        {
            points[n++] = p;
        }
        return n;
    }

    private static int Circles(in Curve a, in Curve b, double near, Span<Point2> points) =>
        a.R <= b.R ? SmallAndLarge(a, b, near, points) : SmallAndLarge(b, a, near, points);

    private static int SmallAndLarge(in Curve a, in Curve b, double near, Span<Point2> points)
    {
        Point2 between = b.C - a.C;
        double distance = between.Length;
        if (distance == 0 || distance > a.R + b.R + near || distance < Math.Abs(a.R - b.R) - near)
        {
            return 0;
        }
        double x = ((distance * distance) + ((a.R - b.R) * (a.R + b.R))) / (2 * distance);
        double h2 = (a.R - x) * (a.R + x);
        Point2 foot = a.C + (between * (x / distance));
        if (h2 <= Tangent * a.R * (a.R + distance))
        {
            points[0] = foot;
            return 1;
        }
        Point2 half = between.Left * (Math.Sqrt(h2) / distance);
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
        if (Math.Abs(off) > arc.R + near)
        {
            return 0;
        }
        double h2 = (arc.R - off) * (arc.R + off);
        Point2 foot = line.A + (d * w.Dot(d));
        if (h2 <= Tangent * arc.R * arc.R)
        {
            points[0] = foot;
            return 1;
        }
        Point2 half = d * Math.Sqrt(h2);
        points[0] = foot + half;
        points[1] = foot - half;
        return 2;
    }

    private static int KeepOnBoth(in Curve a, in Curve b, double near, Span<Point2> points, int count)
    {
        int kept = 0;
        for (int i = 0; i < count; i++)
        {
            if (On(a, points[i], near) && On(b, points[i], near))
            {
                points[kept++] = points[i];
            }
        }
        return kept;
    }

    private static bool Near(Point2 p, Point2 q, double near)
    {
        double x = p.X - q.X;
        double y = p.Y - q.Y;
        return (x * x) + (y * y) <= near * near;
    }
}
