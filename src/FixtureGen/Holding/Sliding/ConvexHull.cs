using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Holding.Sliding;

/// <summary>Convex hulls, counter-clockwise, of points and of contours (arcs by chords inside them, so never too large).</summary>
internal static class ConvexHull
{
    private const double Chord = 0.1;

    public static Point2[] Around(IEnumerable<Contour> contours) =>
        Around([.. contours.SelectMany(c => Flatten.Points(c, Chord))]);

    public static Point2[] Around(IReadOnlyList<Point2> points)
    {
        Point2[] sorted = [.. points.OrderBy(p => p.X).ThenBy(p => p.Y)];
        if (sorted.Length < 3)
        {
            return sorted;
        }
        var hull = new List<Point2>();
        foreach (IEnumerable<Point2> side in new[] { sorted, sorted.Reverse() })
        {
            int start = hull.Count;
            foreach (Point2 p in side)
            {
                while (hull.Count >= start + 2 && (hull[^1] - hull[^2]).Cross(p - hull[^1]) <= 1e-9)
                {
                    hull.RemoveAt(hull.Count - 1);
                }
                hull.Add(p);
            }
            hull.RemoveAt(hull.Count - 1);
        }
        return [.. hull];
    }
}
