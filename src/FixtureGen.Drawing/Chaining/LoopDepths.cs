using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Chaining;

/// <summary>Counts for each loop how many lie round it.</summary>
internal static class LoopDepths
{
    /// <summary>Most segments looked at for all pairs of loops whose boxes lie in each other: a second's work.</summary>
    private const long MostWork = 4_000_000;

    /// <summary>So many boxes are looked at in the time of one segment.</summary>
    private const int ChecksOfAStep = 512;

    /// <summary>So many boxes, neighbours by their left sides, are passed over together.</summary>
    private const int Run = 64;

    /// <summary>
    /// The loops with their depths, largest first; of equals the left and lower one first. Where so many boxes lie in each
    /// other that the work is not bounded, all is false and the depths found so far stand.
    /// </summary>
    public static ImmutableArray<DrawnLoop> Sorted(List<DrawnLoop> loops, out bool all)
    {
        long work = 0;
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
        Box2[] boxes = [.. byLeft.Select(i => sorted[i].Bounds)];
        Box2[] runs = [.. boxes.Chunk(Run).Select(run => run.Aggregate(LoopMath.Around))];
        for (int i = 0; i < sorted.Length && work <= MostWork; i++)
        {
            Box2 own = sorted[i].Bounds;
            int end = UpperBound(left, own.MinX);
            int depth = 0;
            int looked = end / Run;
            for (int k = 0; k < end && work <= MostWork; k++)
            {
                // a box that lies in none of the run's whole lies in no box of it
                if (k % Run == 0 && !Boxed(runs[k / Run], own))
                {
                    k += Run - 1;
                    continue;
                }
                looked++;
                if (byLeft[k] < i && Boxed(boxes[k], own))
                {
                    DrawnLoop outer = sorted[byLeft[k]];
                    work += outer.Contour.Segments.Length + sorted[i].Contour.Segments.Length;
                    depth += Around(outer, sorted[i]) ? 1 : 0;
                }
            }
            work += looked / ChecksOfAStep;
            sorted[i] = sorted[i] with { Depth = depth };
        }
        all = work <= MostWork;
        return [.. sorted];
    }

    /// <summary>True where the inner loop lies inside the outer one; they may touch.</summary>
    public static bool Around(DrawnLoop outer, DrawnLoop inner)
    {
        Box2 a = outer.Bounds;
        Box2 b = inner.Bounds;
        if (!Boxed(a, b))
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

    private static bool Boxed(Box2 outer, Box2 inner) =>
        inner.MinX >= outer.MinX && inner.MaxX <= outer.MaxX && inner.MinY >= outer.MinY && inner.MaxY <= outer.MaxY;

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
