using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Tests.Support;

/// <summary>Random simple counter-clockwise loops.</summary>
public static class RandomLoops
{
    /// <summary>A star-shaped polygon; each edge is bent into an arc with the given probability, unless that makes it cross or turns it inside out.</summary>
    public static Contour Star(Random random, double arcs)
    {
        Point2[] p = StarPoints(random, 4 + random.Next(14));
        double[] bulge = [.. p.Select(_ => random.NextDouble() < arcs ? (random.NextDouble() * 1.6) - 0.8 : 0)];
        for (double k = 1; k > 0.1; k *= 0.6)
        {
            Contour bent = new([.. p.Select((a, i) => Bent(a, p[(i + 1) % p.Length], bulge[i] * k))]);
            if (!CrossesItself(bent) && Measure.Area(bent) > 0)
            {
                return bent;
            }
        }
        return Contours.FromPoints(p);
    }

    /// <summary>A star-shaped polygon with tangent arcs in its corners where there is room.</summary>
    public static Contour Filleted(Random random)
    {
        Point2[] p = StarPoints(random, 4 + random.Next(10));
        int n = p.Length;
        double radius = 0.5 + (random.NextDouble() * 8);
        List<Segment> loop = [];
        Point2 at = default;
        for (int i = 0; i <= n; i++)
        {
            Segment corner = Fillet(p[(i + n - 1) % n], p[i % n], p[(i + 1) % n], radius);
            if (i > 0)
            {
                loop.Add(Segment.Line(at, corner.Start));
            }
            if (i < n && corner.IsArc)
            {
                loop.Add(corner);
            }
            at = corner.End;
        }
        // The last line ends where the first corner begins, so that arc leads.
        return new([.. loop]);
    }

    /// <summary>A closed wave of arcs, each through three of its points: neighbours are nearly tangent.</summary>
    public static Contour ArcWiggle(Random random)
    {
        int n = 2 * (10 + random.Next(60));
        double a1 = random.NextDouble() * 9;
        double a2 = random.NextDouble() * 3;
        int k1 = 2 + random.Next(6);
        int k2 = 5 + random.Next(10);
        Point2 At(int i)
        {
            double t = 2 * Math.PI * i / n;
            double r = 45 + (a1 * Math.Sin(k1 * t)) + (a2 * Math.Sin((k2 * t) + 0.7));
            return new(r * Math.Cos(t), r * Math.Sin(t));
        }
        return new([
            .. Enumerable
                .Range(0, n / 2)
                .Select(i => Through(At(2 * i), At((2 * i) + 1), At((2 * i) + 2 == n ? 0 : (2 * i) + 2))),
        ]);
    }

    public static Contour Scaled(Contour loop, double k, Point2 shift)
    {
        Point2 Map(Point2 p) => (p * k) + shift;
        return new([
            .. loop.Segments.Select(s =>
                s with
                {
                    Start = Map(s.Start),
                    End = Map(s.End),
                    Centre = s.IsArc ? Map(s.Centre) : default,
                }
            ),
        ]);
    }

    /// <summary>The arc from a to b whose bulge is tan(sweep / 4); a line where that is 0.</summary>
    public static Segment Bent(Point2 a, Point2 b, double bulge)
    {
        if (bulge == 0)
        {
            return Segment.Line(a, b);
        }
        Point2 chord = b - a;
        Point2 centre = ((a + b) * 0.5) + (chord.Left * ((1 - (bulge * bulge)) / (4 * bulge)));
        return Segment.Arc(a, b, centre, bulge > 0);
    }

    private static Segment Through(Point2 a, Point2 middle, Point2 b)
    {
        Point2 u = middle - a;
        Point2 v = b - a;
        double cross = u.Cross(v);
        if (Math.Abs(cross) < 1e-6)
        {
            return Segment.Line(a, b);
        }
        Point2 w = ((u.Left * v.Dot(v)) - (v.Left * u.Dot(u))) * (1 / (2 * cross));
        return Segment.Arc(a, b, a + w, cross > 0);
    }

    private static Point2[] StarPoints(Random random, int n) =>
        [
            .. Enumerable
                .Range(0, n)
                .Select(i =>
                {
                    double t = 2 * Math.PI * (i + (0.8 * random.NextDouble())) / n;
                    double r = 12 + (random.NextDouble() * 38);
                    return new Point2(r * Math.Cos(t), r * Math.Sin(t));
                }),
        ];

    /// <summary>The arc that rounds a corner; where there is no room for it, or no radius, a line without length at the corner.</summary>
    public static Segment Fillet(Point2 before, Point2 p, Point2 after, double radius)
    {
        Point2 u = before - p;
        Point2 v = after - p;
        Point2 a = u * (1 / u.Length);
        Point2 b = v * (1 / v.Length);
        double angle = Math.Atan2(Math.Abs(a.Cross(b)), a.Dot(b));
        double reach = radius / Math.Tan(angle / 2);
        if (radius == 0 || reach > 0.45 * Math.Min(u.Length, v.Length))
        {
            return Segment.Line(p, p);
        }
        Point2 from = p + (a * reach);
        bool ccw = (a * -1).Cross(b) > 0;
        Point2 inward = (a * -1).Left * (ccw ? radius : -radius);
        return Segment.Arc(from, p + (b * reach), from + inward, ccw);
    }

    /// <summary>True where two segments meet elsewhere than where one follows the other.</summary>
    public static bool CrossesItself(Contour loop)
    {
        var s = loop.Segments;
        for (int i = 0; i < s.Length; i++)
        {
            for (int j = i + 1; j < s.Length; j++)
            {
                bool joined = j == i + 1 || (i == 0 && j == s.Length - 1);
                foreach (Point2 q in Intersections.Find(s[i], s[j], 1e-7))
                {
                    bool end = q.DistanceTo(s[i].Start) < 1e-5 || q.DistanceTo(s[i].End) < 1e-5;
                    if (!joined || !end)
                    {
                        return true;
                    }
                }
            }
        }
        return false;
    }
}
