using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Which contour lies inside which: even depth is material, odd depth is a hole of the contour just outside. Contours within
/// ten grids of the house (1e-5 mm) of each other touch; two of the same area hold neither the other.
/// </summary>
public static class Nesting
{
    private static readonly double Touch = Slack.House.Touch;

    /// <summary>
    /// Regions of contours that may touch but do not cross, in any direction and order. Outer contours are turned
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

    /// <summary>For each contour how many others lie around it, and which is the innermost of those; -1 for none.</summary>
    private static int[] Depths(Contour[] all, out int[] parent)
    {
        Box2[] boxes = [.. all.Select(Measure.Bounds)];
        double[] areas = [.. all.Select(c => Math.Abs(Measure.Area(c)))];
        int[] depth = new int[all.Length];
        parent = new int[all.Length];
        for (int i = 0; i < all.Length; i++)
        {
            parent[i] = -1;
            for (int j = 0; j < all.Length; j++)
            {
                if (i == j || areas[j] <= areas[i] || !Holds(boxes[j], boxes[i]) || !Lies(all[i], all[j]))
                {
                    continue;
                }
                depth[i]++;
                parent[i] = parent[i] < 0 || areas[j] < areas[parent[i]] ? j : parent[i];
            }
        }
        return depth;
    }

    /// <summary>
    /// True when the inner contour lies in the outer one. They may touch, so the first segment's middle that is clear of the
    /// outer contour decides.
    /// </summary>
    private static bool Lies(Contour inner, Contour outer)
    {
        foreach (Segment s in inner.Segments)
        {
            Point2 p = Curve.From(s).Middle;
            if (Measure.Distance(p, outer) > Touch)
            {
                return Inside.Contains(outer, p);
            }
        }
        return true;
    }

    private static bool Holds(in Box2 outer, in Box2 inner) =>
        inner.MinX >= outer.MinX - Touch
        && inner.MaxX <= outer.MaxX + Touch
        && inner.MinY >= outer.MinY - Touch
        && inner.MaxY <= outer.MaxY + Touch;
}
