using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>Which contour lies inside which: even depth is material, odd depth is a hole of the contour just outside.</summary>
public static class Nesting
{
    /// <summary>
    /// Regions of contours that do not cross; they may come in any direction and order. Outer contours are turned
    /// counter-clockwise, holes clockwise; regions come in the order of their outer contours.
    /// </summary>
    public static ImmutableArray<Region> Regions(IEnumerable<Contour> contours)
    {
        Contour[] all = [.. contours];
        int[] depth = Depths(all, out int[] parent);
        ImmutableArray<Region>.Builder regions = ImmutableArray.CreateBuilder<Region>();
        for (int i = 0; i < all.Length; i++)
        {
            if (depth[i] % 2 == 0)
            {
                var holes = Enumerable.Range(0, all.Length).Where(j => parent[j] == i && depth[j] % 2 == 1);
                regions.Add(new(Contours.Ccw(all[i]), [.. holes.Select(j => Contours.Cw(all[j]))]));
            }
        }
        return regions.ToImmutable();
    }

    /// <summary>For each contour how many others lie around it, in the given order.</summary>
    public static ImmutableArray<int> Depths(IReadOnlyList<Contour> contours) => [.. Depths([.. contours], out _)];

    private static int[] Depths(Contour[] all, out int[] parent)
    {
        Box2[] boxes = [.. all.Select(Measure.Bounds)];
        double[] areas = [.. all.Select(c => Math.Abs(Measure.Area(c)))];
        Point2[] probes = [.. all.Select(Probe)];
        int[] depth = new int[all.Length];
        parent = new int[all.Length];
        for (int i = 0; i < all.Length; i++)
        {
            parent[i] = -1;
            for (int j = 0; j < all.Length; j++)
            {
                if (
                    i == j
                    || areas[j] <= areas[i]
                    || !Holds(boxes[j], probes[i])
                    || !Inside.Contains(all[j], probes[i])
                )
                {
                    continue;
                }
                depth[i]++;
                parent[i] = parent[i] < 0 || areas[j] < areas[parent[i]] ? j : parent[i];
            }
        }
        return depth;
    }

    /// <summary>The middle of the longest segment: contours may touch at vertices, hardly ever there.</summary>
    private static Point2 Probe(Contour contour) => Measure.PointAt(contour.Segments.MaxBy(s => s.Length), 0.5);

    private static bool Holds(in Box2 b, Point2 p) => p.X >= b.MinX && p.X <= b.MaxX && p.Y >= b.MinY && p.Y <= b.MaxY;
}
