using System.Globalization;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Dxf;

/// <summary>Splines against the recursive definition of their basis functions (Cox and de Boor), summed here in the plainest way.</summary>
public sealed class SplineTest
{
    public static TheoryData<string, int, double[], double[], double[]> Cases =>
        new()
        {
            { "clamped cubic", 3, [0, 0, 0, 0, 1, 2, 2, 2, 2], [0, 0, 10, 30, 30, -20, 40, 10, 60, 0], [] },
            { "quadratic with a double knot", 2, [0, 0, 0, 1, 1, 2, 2, 2], [0, 0, 10, 20, 20, 0, 30, -20, 40, 0], [] },
            { "unclamped cubic", 3, [0, 1, 2, 3, 4, 5, 6, 7, 8], [0, 0, 10, 30, 30, 30, 40, 0, 20, -20], [] },
            { "rational", 3, [0, 0, 0, 0, 1, 1, 1, 1], [0, 0, 10, 30, 30, 30, 40, 0], [1, 3, 0.5, 1] },
            { "degree 1", 1, [0, 0, 1, 2, 2], [0, 0, 10, 10, 20, 0], [] },
            { "degree 5", 5, [0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 1, 1], [0, 0, 10, 30, 20, -30, 30, 40, 40, 10, 50, 0], [] },
            { "knots that start elsewhere", 3, [-7, -7, -7, -7, 5, 5, 5, 5], [0, 0, 10, 30, 30, 30, 40, 0], [] },
        };

    [Theory]
    [MemberData(nameof(Cases))]
    public void Arcs_stay_within_the_chord_tolerance(string name, int degree, double[] knots, double[] xy, double[] w)
    {
        Assert.NotEmpty(name);
        OpenChain chain = Assert.Single(Sketch.Drawing(Spline(degree, knots, xy, w)).Open);
        int n = xy.Length / 2;
        double[] weights = w.Length == 0 ? [.. Enumerable.Repeat(1.0, n)] : w;
        double worst = 0;
        for (int i = 0; i <= 1000; i++)
        {
            double t = knots[degree] + ((knots[n] - knots[degree]) * i / 1000);
            Point2 p = Plain(degree, knots, xy, weights, Math.Min(t, knots[n] - 1e-12));
            worst = Math.Max(worst, chain.Path.Segments.Min(s => Measure.Distance(p, s)));
        }
        Assert.True(worst <= Tolerances.House.Chord, string.Create(CultureInfo.InvariantCulture, $"{worst}"));
    }

    // a circle as nine control points of a rational quadratic (Piegl and Tiller, The NURBS Book, 7.5)
    [Fact]
    public void Rational_quadratic_circle_is_a_circle()
    {
        double k = Math.Sqrt(0.5);
        DrawnLoop loop = Sketch.OneLoop(
            Spline(
                2,
                [0, 0, 0, 1, 1, 2, 2, 3, 3, 4, 4, 4],
                [10, 0, 10, 10, 0, 10, -10, 10, -10, 0, -10, -10, 0, -10, 10, -10, 10, 0],
                [1, k, 1, k, 1, k, 1, k, 1]
            )
        );
        Assert.Equal(100 * Math.PI, loop.AreaMm2, 1e-6);
        Assert.All(loop.Contour.Segments, s => Assert.Equal(10, s.Radius, 1e-6));
    }

    // a uniform periodic cubic round a square of control points, its first three points repeated
    [Fact]
    public void Periodic_spline_closes_smoothly()
    {
        DrawnLoop loop = Sketch.OneLoop(
            Spline(
                3,
                [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10],
                [10, 10, -10, 10, -10, -10, 10, -10, 10, 10, -10, 10, -10, -10],
                []
            )
        );
        Assert.True(loop.Clean);
        Segment last = loop.Contour.Segments[^1];
        Point2 leaving = Measure.TangentAt(loop.Contour.Segments[0], 0);
        Assert.True(leaving.Dot(Measure.TangentAt(last, 1)) > 1 - 1e-6);
    }

    [Fact]
    public void Fit_points_alone_are_met_with_a_warning()
    {
        string points = string.Concat(
            Enumerable
                .Range(0, 12)
                .Select(i =>
                    FormattableString.Invariant(
                        $" 11 {30 * Math.Cos(i * Math.PI / 6)} 21 {30 * Math.Sin(i * Math.PI / 6)}"
                    )
                )
        );
        Stage<DrawingContent> stage = Sketch.Stage("0 SPLINE 70 1 71 3 72 0 73 0 74 12" + points);
        Assert.True(stage.Has("drawing-spline-through-points"));
        // a periodic cubic through twelve points of a circle misses it by no more than the fourth power of their distance
        Assert.Equal(900 * Math.PI, Assert.Single(stage.Value!.Loops).AreaMm2, 3.0);
    }

    [Theory]
    [InlineData(
        "0 SPLINE 70 0 71 3 40 0 40 0 40 0 40 0 40 1 40 1 40 1 10 0 20 0 10 1 20 0 10 2 20 1 10 3 20 0",
        "7 knots"
    )]
    [InlineData("0 SPLINE 70 0 71 3 40 0 40 0 40 1 40 1 10 0 20 0 10 1 20 0", "2 control points")]
    [InlineData("0 SPLINE 70 0 71 1 40 0 40 0 40 1 40 1 10 0 20 0 41 0 10 1 20 0 41 1", "weight")]
    [InlineData("0 SPLINE 70 0 71 1 40 1 40 1 40 0 40 0 10 0 20 0 10 1 20 0", "fall")]
    [InlineData("0 SPLINE 70 0 71 1 40 0 40 0 40 x 40 1 10 0 20 0 10 1 20 0", "no number")]
    [InlineData("0 SPLINE 70 0 71 3 11 0 21 0", "fit points")]
    public void Spline_that_makes_no_sense_is_refused_by_name(string spline, string why)
    {
        Stage<DrawingContent> stage = Sketch.Stage(spline);
        Finding finding = Assert.Single(stage.Findings, f => f.Code == "drawing-entity-unreadable");
        Assert.Contains(why, finding.Message, StringComparison.Ordinal);
    }

    private static string Spline(int degree, double[] knots, double[] xy, double[] weights) =>
        FormattableString.Invariant($"0 SPLINE 70 8 71 {degree} 72 {knots.Length} 73 {xy.Length / 2} 74 0")
        + string.Concat(knots.Select(k => FormattableString.Invariant($" 40 {k}")))
        + string.Concat(weights.Select(k => FormattableString.Invariant($" 41 {k}")))
        + string.Concat(xy.Chunk(2).Select(p => FormattableString.Invariant($" 10 {p[0]} 20 {p[1]} 30 0")));

    private static Point2 Plain(int degree, double[] knots, double[] xy, double[] weights, double t)
    {
        double x = 0;
        double y = 0;
        double sum = 0;
        for (int i = 0; i < weights.Length; i++)
        {
            double b = Basis(knots, i, degree, t) * weights[i];
            (x, y, sum) = (x + (b * xy[2 * i]), y + (b * xy[(2 * i) + 1]), sum + b);
        }
        return new Point2(x / sum, y / sum);
    }

    private static double Basis(double[] u, int i, int p, double t)
    {
        if (p == 0)
        {
            return u[i] <= t && t < u[i + 1] ? 1 : 0;
        }
        double left = u[i + p] > u[i] ? (t - u[i]) / (u[i + p] - u[i]) * Basis(u, i, p - 1, t) : 0;
        double right =
            u[i + p + 1] > u[i + 1] ? (u[i + p + 1] - t) / (u[i + p + 1] - u[i + 1]) * Basis(u, i + 1, p - 1, t) : 0;
        return left + right;
    }
}
