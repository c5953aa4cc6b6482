using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Chaining;

/// <summary>Counts for each loop how many lie round it.</summary>
internal static class LoopDepths
{
    /// <summary>The loops with their depths, largest first; of equals the left and lower one first.</summary>
    public static ImmutableArray<DrawnLoop> Sorted(List<DrawnLoop> loops)
    {
        DrawnLoop[] sorted =
        [
            .. loops
                .OrderByDescending(l => l.AreaMm2)
                .ThenBy(l => l.Bounds.MinX)
                .ThenBy(l => l.Bounds.MinY)
                .ThenBy(l => l.Layer, StringComparer.Ordinal),
        ];
        // Outer loops in the order of their left sides: those that start right of a loop cannot lie round it.
        int[] byLeft = [.. Enumerable.Range(0, sorted.Length).OrderBy(i => sorted[i].Bounds.MinX)];
        double[] left = [.. byLeft.Select(i => sorted[i].Bounds.MinX)];
        for (int i = 0; i < sorted.Length; i++)
        {
            int end = UpperBound(left, sorted[i].Bounds.MinX);
            int depth = 0;
            for (int k = 0; k < end; k++)
            {
                int j = byLeft[k];
                depth += j < i && Around(sorted[j], sorted[i]) ? 1 : 0;
            }
            sorted[i] = sorted[i] with { Depth = depth };
        }
        return [.. sorted];
    }

    /// <summary>True where the inner loop lies inside the outer one; they may touch.</summary>
    public static bool Around(DrawnLoop outer, DrawnLoop inner)
    {
        Box2 a = outer.Bounds;
        Box2 b = inner.Bounds;
        if (b.MinX < a.MinX || b.MaxX > a.MaxX || b.MinY < a.MinY || b.MaxY > a.MaxY)
        {
            return false;
        }
        // loops may touch: the first middle of a segment that is clear of the outer loop decides
        double touch = 1e-9 * Math.Max(a.Width, a.Height);
        foreach (Segment s in inner.Contour.Segments)
        {
            Point2 p = LoopMath.Middle(s);
            bool contains = Inside.Contains(outer.Contour, p);
            if (Measure.Distance(p, outer.Contour) > touch)
            {
                return contains;
            }
        }
        return true;
    }

    private static int UpperBound(double[] sorted, double value)
    {
        int low = 0;
        int high = sorted.Length;
        while (low < high)
        {
            int middle = (low + high) / 2;
            (low, high) = sorted[middle] <= value ? (middle + 1, high) : (low, middle);
        }
        return low;
    }
}
