using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Seals;

/// <summary>Finds where connected room fell apart into zones, and how wide the room is there.</summary>
internal static class Necks
{
    private const double Precision = 0.01;

    public static IEnumerable<Finding> Between(
        IReadOnlyList<Region> room,
        IReadOnlyList<Region> zones,
        double radius,
        Kernel kernel
    )
    {
        for (int a = 0; a < zones.Count; a++)
        {
            for (int b = a + 1; b < zones.Count; b++)
            {
                if (Neck(room, zones, a, b, radius, kernel) is { } neck)
                {
                    yield return ZoneFindings.Neck(neck.At, neck.Width, 2 * radius, a + 1, b + 1);
                }
            }
        }
    }

    /// <summary>Where zones a and b hang together by one strip that touches no third zone.</summary>
    private static (Point2 At, double Width)? Neck(
        IReadOnlyList<Region> room,
        IReadOnlyList<Region> zones,
        int a,
        int b,
        double radius,
        Kernel kernel
    )
    {
        ImmutableArray<Region> strips = kernel.Difference(room, kernel.UnionAll([.. zones]));
        foreach (Region strip in strips)
        {
            ImmutableArray<Region> reach = kernel.Offset([strip], Precision);
            if (kernel.Intersect(reach, [zones[a]]).Length == 0 || kernel.Intersect(reach, [zones[b]]).Length == 0)
            {
                continue;
            }
            Region[] joined = [.. kernel.UnionAll([.. reach, zones[a], zones[b]])];
            double width = 2 * Severed(joined, zones[a], zones[b], radius, kernel);
            return (NearestBetween(zones[a], zones[b]), width);
        }
        return null;
    }

    /// <summary>The inset at which the two zones come apart, mm, between 0 and the radius.</summary>
    private static double Severed(Region[] joined, Region a, Region b, double radius, Kernel kernel)
    {
        Point2 inA = Widest.Place([a], radius, kernel);
        Point2 inB = Widest.Place([b], radius, kernel);
        double held = 0;
        double apart = radius;
        while (apart - held > Precision)
        {
            double mid = (held + apart) / 2;
            bool together = kernel.Offset(joined, -mid).Any(r => Near(r, inA, mid) && Near(r, inB, mid));
            (held, apart) = together ? (mid, apart) : (held, mid);
        }
        return held;
    }

    private static bool Near(Region region, Point2 p, double by) =>
        Inside.Contains(region, p) || region.Contours.Any(c => Measure.Distance(p, c) <= by);

    private static Point2 NearestBetween(Region a, Region b)
    {
        (Point2 P, Point2 Q) pair = Flatten
            .Points(a.Outer, Precision)
            .Select(p => (P: p, Q: Measure.Closest(p, b.Outer)))
            .MinBy(x => x.P.DistanceTo(x.Q));
        return 0.5 * (pair.P + pair.Q);
    }
}
