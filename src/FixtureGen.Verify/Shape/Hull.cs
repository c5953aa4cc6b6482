using FixtureGen.Model;

namespace FixtureGen.Verify.Shape;

/// <summary>The convex hull of lines and arcs by points on them (Andrew's chain), counter-clockwise; no larger than the true one.</summary>
internal static class Hull
{
    /// <summary>Arcs are met at points so many radians apart at the most.</summary>
    private const double Turn = 0.2;

    public static Point2[] Around(IEnumerable<Contour> contours)
    {
        Point2[] points =
        [
            .. contours
                .SelectMany(c => c.Segments)
                .Select(Piece.From)
                .SelectMany(Along)
                .Distinct()
                .OrderBy(p => p.X)
                .ThenBy(p => p.Y),
        ];
        if (points.Length < 3)
        {
            return [];
        }
        List<Point2> hull = [];
        Chain(points, hull);
        Array.Reverse(points);
        Chain(points, hull);
        return [.. hull];
    }

    private static void Chain(Point2[] points, List<Point2> hull)
    {
        int start = hull.Count;
        foreach (Point2 p in points)
        {
            while (hull.Count - start >= 2 && (hull[^1] - hull[^2]).Cross(p - hull[^2]) <= 1e-9)
            {
                hull.RemoveAt(hull.Count - 1);
            }
            hull.Add(p);
        }
        hull.RemoveAt(hull.Count - 1);
    }

    private static IEnumerable<Point2> Along(Piece piece)
    {
        int n = piece.IsArc ? Math.Max(1, (int)Math.Ceiling(Math.Abs(piece.Sweep) / Turn)) : 1;
        return Enumerable.Range(0, n).Select(i => piece.PointAt((double)i / n));
    }
}
