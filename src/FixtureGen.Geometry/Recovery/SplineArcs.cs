using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// A rational B-spline in the plane, evaluated by de Boor's scheme (C. de Boor, On calculating with B-splines,
/// J. Approx. Theory 6 (1972) 50-62) in homogeneous coordinates.
/// </summary>
/// <param name="Degree">1 or more.</param>
/// <param name="Knots">Never falling; points + degree + 1 of them.</param>
/// <param name="Points">Control points, mm; more than the degree.</param>
/// <param name="Weights">One a point, above 0.</param>
internal sealed record SplineArcs(int Degree, double[] Knots, Point2[] Points, double[] Weights)
{
    /// <summary>What is wrong with these numbers as a spline; null when nothing is.</summary>
    public static string? Fault(int degree, double[] knots, int points, double[] weights)
    {
        if (degree is < 1 or > 25)
        {
            return FormattableString.Invariant($"its degree is {degree}");
        }
        if (points <= degree)
        {
            return FormattableString.Invariant($"it has {points} control points for degree {degree}");
        }
        if (knots.Length != points + degree + 1)
        {
            return FormattableString.Invariant($"it has {knots.Length} knots where {points + degree + 1} belong");
        }
        if (weights.Length != points)
        {
            return FormattableString.Invariant($"it has {weights.Length} weights for {points} control points");
        }
        if (Array.Exists(weights, w => !(w > 0) || !double.IsFinite(w)))
        {
            return "a weight is not above 0";
        }
        for (int i = 1; i < knots.Length; i++)
        {
            if (!(knots[i] >= knots[i - 1]))
            {
                return "its knots fall";
            }
        }
        return knots[points] - knots[degree] > 0 ? null : "its knots leave no length";
    }

    /// <summary>Tangent arcs within <paramref name="chord"/> mm of the curve between the first and last knot of its domain.</summary>
    public List<Segment> Segments(double chord)
    {
        var spans = new List<CurveSpan>();
        double least = 1e-12 * (Knots[Points.Length] - Knots[Degree]);
        for (int i = Degree; i < Points.Length; i++)
        {
            int span = i;
            if (Knots[i + 1] - Knots[i] > least)
            {
                int parts = Degree == 1 ? 1 : 2;
                double step = (Knots[i + 1] - Knots[i]) / parts;
                for (int k = 0; k < parts; k++)
                {
                    double to = k + 1 == parts ? Knots[i + 1] : Knots[i] + ((k + 1) * step);
                    spans.Add(new CurveSpan(Knots[i] + (k * step), to, t => Evaluate(span, t)));
                }
            }
        }
        return Biarcs.Fit(spans, chord);
    }

    private (Point2 At, Point2 Tangent) Evaluate(int span, double t)
    {
        int p = Degree;
        Span<double> x = stackalloc double[p + 1];
        Span<double> y = stackalloc double[p + 1];
        Span<double> w = stackalloc double[p + 1];
        for (int j = 0; j <= p; j++)
        {
            int k = span - p + j;
            (x[j], y[j], w[j]) = (Points[k].X * Weights[k], Points[k].Y * Weights[k], Weights[k]);
        }
        double dx = 0;
        double dy = 0;
        double dw = 0;
        for (int r = 1; r <= p; r++)
        {
            if (r == p)
            {
                double rate = p / (Knots[span + 1] - Knots[span]);
                (dx, dy, dw) = ((x[p] - x[p - 1]) * rate, (y[p] - y[p - 1]) * rate, (w[p] - w[p - 1]) * rate);
            }
            for (int j = p; j >= r; j--)
            {
                double low = Knots[span - p + j];
                double a = (t - low) / (Knots[span + 1 + j - r] - low);
                x[j] = ((1 - a) * x[j - 1]) + (a * x[j]);
                y[j] = ((1 - a) * y[j - 1]) + (a * y[j]);
                w[j] = ((1 - a) * w[j - 1]) + (a * w[j]);
            }
        }
        var at = new Point2(x[p] / w[p], y[p] / w[p]);
        return (at, new Point2((dx - (dw * at.X)) / w[p], (dy - (dw * at.Y)) / w[p]));
    }
}
