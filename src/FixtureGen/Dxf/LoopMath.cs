using FixtureGen.Model;

namespace FixtureGen.Dxf;

/// <summary>Closed-form measures of segments as they come from a drawing, before anything about them is known to be clean.</summary>
internal static class LoopMath
{
    /// <summary>Signed area of a closed chain, positive counter-clockwise: the chord polygon by the shoelace sum, plus each arc's circle segment.</summary>
    public static double Area(IReadOnlyList<Segment> loop)
    {
        Point2 origin = loop[0].Start;
        double twice = 0;
        foreach (Segment s in loop)
        {
            twice += (s.Start - origin).Cross(s.End - origin);
            if (s.IsArc)
            {
                double sweep = s.Sweep;
                twice += s.Radius * s.Radius * (sweep - Math.Sin(sweep));
            }
        }
        return twice / 2;
    }

    public static double Length(IReadOnlyList<Segment> chain)
    {
        double sum = 0;
        foreach (Segment s in chain)
        {
            sum += s.Length;
        }
        return sum;
    }

    public static Box2 Bounds(Segment s)
    {
        double x0 = Math.Min(s.Start.X, s.End.X);
        double x1 = Math.Max(s.Start.X, s.End.X);
        double y0 = Math.Min(s.Start.Y, s.End.Y);
        double y1 = Math.Max(s.Start.Y, s.End.Y);
        if (s.IsArc)
        {
            double r = s.Radius;
            x0 = Passes(s, new(-1, 0)) ? s.Centre.X - r : x0;
            x1 = Passes(s, new(1, 0)) ? s.Centre.X + r : x1;
            y0 = Passes(s, new(0, -1)) ? s.Centre.Y - r : y0;
            y1 = Passes(s, new(0, 1)) ? s.Centre.Y + r : y1;
        }
        return new Box2(x0, y0, x1, y1);
    }

    public static Box2 Bounds(IReadOnlyList<Segment> chain)
    {
        Box2 box = Bounds(chain[0]);
        for (int i = 1; i < chain.Count; i++)
        {
            box = Around(box, Bounds(chain[i]));
        }
        return box;
    }

    public static Box2 Around(Box2 a, Box2 b) =>
        new(
            Math.Min(a.MinX, b.MinX),
            Math.Min(a.MinY, b.MinY),
            Math.Max(a.MaxX, b.MaxX),
            Math.Max(a.MaxY, b.MaxY)
        );

    public static bool Near(Box2 a, Box2 b, double gap) =>
        a.MinX <= b.MaxX + gap && b.MinX <= a.MaxX + gap && a.MinY <= b.MaxY + gap && b.MinY <= a.MaxY + gap;

    /// <summary>The point half way along.</summary>
    public static Point2 Middle(Segment s)
    {
        if (!s.IsArc)
        {
            return (s.Start + s.End) * 0.5;
        }
        (double sin, double cos) = Math.SinCos(s.Sweep / 2);
        Point2 arm = s.Start - s.Centre;
        return s.Centre + new Point2((arm.X * cos) - (arm.Y * sin), (arm.X * sin) + (arm.Y * cos));
    }

    /// <summary>Distance of a point from the segment.</summary>
    public static double Distance(Point2 p, Segment s)
    {
        if (!s.IsArc)
        {
            Point2 d = s.End - s.Start;
            double square = d.Dot(d);
            double t = square > 0 ? Math.Clamp((p - s.Start).Dot(d) / square, 0, 1) : 0;
            return p.DistanceTo(s.Start + (t * d));
        }
        Point2 arm = p - s.Centre;
        return Passes(s, arm)
            ? Math.Abs(arm.Length - s.Radius)
            : Math.Min(p.DistanceTo(s.Start), p.DistanceTo(s.End));
    }

    /// <summary>True where the arc passes through that direction from its centre, ends included.</summary>
    public static bool Passes(Segment s, Point2 direction)
    {
        Point2 from = s.Start - s.Centre;
        double angle = Math.Atan2(from.Cross(direction), from.Dot(direction)) * (s.IsCcw ? 1 : -1);
        return (angle >= 0 ? angle : angle + (2 * Math.PI)) <= Math.Abs(s.Sweep);
    }

    /// <summary>Even-odd by the crossings of a ray to the right; undefined on the loop itself.</summary>
    public static bool Contains(IReadOnlyList<Segment> loop, Point2 p)
    {
        bool inside = false;
        foreach (Segment s in loop)
        {
            if (CrossesRay(s, p))
            {
                inside = !inside;
            }
        }
        return inside;
    }

    // The chord's crossing, put right by whether the point lies between the chord and its arc.
    private static bool CrossesRay(Segment s, Point2 p)
    {
        bool chord = s.Start.Y > p.Y != s.End.Y > p.Y && CrossingX(s, p.Y) > p.X;
        return chord ^ (s.IsArc && BetweenChordAndArc(s, p));
    }

    private static double CrossingX(Segment s, double y) =>
        s.Start.X + ((y - s.Start.Y) / (s.End.Y - s.Start.Y) * (s.End.X - s.Start.X));

    private static bool BetweenChordAndArc(Segment s, Point2 p)
    {
        double side = (s.End - s.Start).Cross(p - s.Start) * (s.IsCcw ? -1 : 1);
        return side > 0 && p.DistanceTo(s.Centre) < s.Radius;
    }
}
