using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>Joins neighbours that halving cut apart although they are one line or lie on one circle.</summary>
internal static class BiarcTidy
{
    /// <summary>The same path with fewer segments; each join moves the path by no more than some thousandths of <paramref name="chord"/> mm.</summary>
    public static List<Segment> Merge(List<Segment> segments, double chord)
    {
        var merged = new List<Segment>(segments.Count);
        foreach (Segment next in segments)
        {
            if (merged.Count > 0 && TryJoin(merged[^1], next, chord * 1e-3, out Segment one))
            {
                merged[^1] = one;
            }
            else
            {
                merged.Add(next);
            }
        }
        return merged;
    }

    private static bool TryJoin(Segment a, Segment b, double slack, out Segment one)
    {
        one = default;
        if (a.Kind != b.Kind)
        {
            return false;
        }
        if (!a.IsArc)
        {
            Point2 d = b.End - a.Start;
            double off = Math.Abs(d.Cross(a.End - a.Start));
            one = Segment.Line(a.Start, b.End);
            return off <= slack * d.Length && (a.End - a.Start).Dot(b.End - b.Start) > 0;
        }
        double sweep = Math.Abs(a.Sweep) + Math.Abs(b.Sweep);
        if (sweep > Math.PI || a.Centre.DistanceTo(b.Centre) > slack || Math.Abs(a.Radius - b.Radius) > slack)
        {
            return false;
        }
        one = ThroughBulge(a.Start, b.End, Math.Tan(sweep / 4) * (a.IsCcw ? 1 : -1));
        return one.Centre.DistanceTo(a.Centre) <= 2 * slack;
    }

    private static Segment ThroughBulge(Point2 start, Point2 end, double bulge) => Bulges.Arc(start, end, bulge);
}
