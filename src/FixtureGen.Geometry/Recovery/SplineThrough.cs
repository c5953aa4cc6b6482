using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// A cubic with continuous curvature through given points, the parameter running with the chord length
/// (C. de Boor, A Practical Guide to Splines, ch. IV). End slopes are the given tangents or, without them, those of
/// zero end curvature; a closed one is periodic.
/// </summary>
internal static class SplineThrough
{
    /// <summary>Tangent arcs within <paramref name="chord"/> mm of the cubic; at least two different points.</summary>
    public static List<Segment> Segments(
        IReadOnlyList<Point2> through,
        Point2? startTangent,
        Point2? endTangent,
        bool closed,
        double chord
    )
    {
        List<Point2> points = Different(through, closed);
        int spans = points.Count - 1;
        double[] h = [.. Enumerable.Range(0, spans).Select(i => points[i].DistanceTo(points[i + 1]))];
        double[] x = Slopes([.. points.Select(p => p.X)], h, Unit(startTangent)?.X, Unit(endTangent)?.X, closed);
        double[] y = Slopes([.. points.Select(p => p.Y)], h, Unit(startTangent)?.Y, Unit(endTangent)?.Y, closed);
        return Biarcs.Fit(
            Enumerable
                .Range(0, spans)
                .SelectMany(i =>
                    Halves(
                        h[i],
                        t =>
                            Hermite(
                                points[i],
                                points[i + 1],
                                new Point2(x[i], y[i]),
                                new Point2(x[i + 1], y[i + 1]),
                                h[i],
                                t
                            )
                    )
                ),
            chord
        );
    }

    private static IEnumerable<CurveSpan> Halves(double h, Func<double, (Point2, Point2)> curve) =>
        [new CurveSpan(0, h / 2, curve), new CurveSpan(h / 2, h, curve)];

    private static List<Point2> Different(IReadOnlyList<Point2> through, bool closed)
    {
        var points = new List<Point2>();
        foreach (Point2 p in through)
        {
            if (points.Count == 0 || points[^1] != p)
            {
                points.Add(p);
            }
        }
        if (closed && points.Count > 2 && points[^1] != points[0])
        {
            points.Add(points[0]);
        }
        return points;
    }

    private static Point2? Unit(Point2? v) => v is { Length: > 0 } t ? t * (1 / t.Length) : null;

    private static (Point2 At, Point2 Tangent) Hermite(Point2 a, Point2 b, Point2 da, Point2 db, double h, double t)
    {
        double s = t / h;
        double r = 1 - s;
        Point2 at = (r * r * (1 + (2 * s)) * a) + (s * s * (3 - (2 * s)) * b) + (h * s * r * ((r * da) - (s * db)));
        Point2 tangent = (6 * s * r / h * (b - a)) + (r * (1 - (3 * s)) * da) + (s * (1 - (3 * r)) * db);
        return (at, tangent);
    }

    // One row a point: the second derivative on both sides of it is the same.
    private static double[] Slopes(double[] f, double[] h, double? first, double? last, bool closed)
    {
        int n = f.Length;
        bool periodic = closed && n > 3;
        var low = new double[n];
        var mid = new double[n];
        var high = new double[n];
        var right = new double[n];
        for (int i = 1; i < n - 1; i++)
        {
            Row(i, h[i - 1], h[i], f[i - 1], f[i], f[i + 1]);
        }
        if (periodic)
        {
            Row(0, h[^1], h[0], f[n - 2], f[0], f[1]);
            return Cyclic(low[..^1], mid[..^1], high[..^1], right[..^1]);
        }
        (mid[0], high[0], right[0]) = first is { } a ? (1, 0, a) : (2, 1, 3 * (f[1] - f[0]) / h[0]);
        (low[^1], mid[^1], right[^1]) = last is { } b ? (0, 1, b) : (1, 2, 3 * (f[^1] - f[^2]) / h[^1]);
        return Tridiagonal(low, mid, high, right);

        void Row(int i, double before, double after, double fa, double fb, double fc)
        {
            low[i] = after;
            mid[i] = 2 * (before + after);
            high[i] = before;
            right[i] = 3 * ((after * (fb - fa) / before) + (before * (fc - fb) / after));
        }
    }

    private static double[] Tridiagonal(double[] low, double[] mid, double[] high, double[] right)
    {
        int n = mid.Length;
        double[] m = [.. mid];
        double[] x = [.. right];
        for (int i = 1; i < n; i++)
        {
            double k = low[i] / m[i - 1];
            m[i] -= k * high[i - 1];
            x[i] -= k * x[i - 1];
        }
        x[n - 1] /= m[n - 1];
        for (int i = n - 2; i >= 0; i--)
        {
            x[i] = (x[i] - (high[i] * x[i + 1])) / m[i];
        }
        return x;
    }

    // Sherman and Morrison: the two corner entries are taken off and put back as a rank-one change.
    private static double[] Cyclic(double[] low, double[] mid, double[] high, double[] right)
    {
        int n = mid.Length;
        double corner = high[n - 1];
        double other = low[0];
        double gamma = -mid[0];
        double[] m = [.. mid];
        m[0] -= gamma;
        m[n - 1] -= corner * other / gamma;
        var u = new double[n];
        u[0] = gamma;
        u[n - 1] = corner;
        double[] x = Tridiagonal(low, m, high, right);
        double[] z = Tridiagonal(low, m, high, u);
        double k = (x[0] + (other * x[n - 1] / gamma)) / (1 + z[0] + (other * z[n - 1] / gamma));
        double[] slopes = [.. x.Zip(z, (a, b) => a - (k * b))];
        return [.. slopes, slopes[0]];
    }
}
