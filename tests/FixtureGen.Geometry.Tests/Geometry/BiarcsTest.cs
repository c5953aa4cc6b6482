using CsCheck;
using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Geometry;

/// <summary>Arcs that stand for smooth curves: within the tolerance, end to end, with a common tangent at each joint.</summary>
public sealed class BiarcsTest
{
    private const double Chord = 0.005;

    private static readonly Gen<Point2> Place = Gen.Select(
        Gen.Double[-50, 50],
        Gen.Double[-50, 50],
        (x, y) => new Point2(x, y)
    );

    [Fact]
    [Trait("Speed", "Slow")]
    public void Ellipses_become_tangent_arcs() =>
        Gen.Select(Place, Gen.Double[1, 60], Gen.Double[0.05, 1], Gen.Double[0, 6], Gen.Double[0.1, 6.28])
            .Sample(
                (centre, a, ratio, start, sweep) =>
                {
                    var ellipse = new EllipseArcs(centre, new(a, 0), new(0, a * ratio), start, sweep);
                    Check(ellipse.Segments(Chord), t => ellipse.PointAt(start + (sweep * t)));
                },
                iter: 300
            );

    // a cubic by its Bernstein form, which is not how the spline is evaluated
    [Fact]
    [Trait("Speed", "Slow")]
    public void Cubics_become_tangent_arcs() => Gen.Select(Place, Place, Place, Place).Sample(CheckCubic, iter: 300);

    /// <summary>It turns back within 1e-4 mm; lines that stood for arcs that short broke the tangent by 0.047.</summary>
    [Fact]
    public void A_cubic_that_all_but_has_a_cusp_becomes_tangent_arcs() =>
        CheckCubic(new(-2.75, -48.45402999638566), new(0.00436, 0), new(-3, 0), new(6.417E-08, -29.50883018004762));

    // Two control points in one place: the cubic stands still there, and leaves or arrives along the next leg of its polygon.
    [Fact]
    public void A_cubic_that_stands_still_at_its_ends_runs_along_its_polygon_there() =>
        Gen.Select(Place, Place, Place)
            .Where((a, b, c) => a.DistanceTo(b) > 5 && b.DistanceTo(c) > 5 && Turn(a, b, c) < 1.5)
            .Sample(
                (a, b, c) =>
                {
                    List<Segment> leaving = Cubic(a, a, b, c);
                    List<Segment> arriving = Cubic(a, b, c, c);
                    Assert.Equal(0, Measure.TangentAt(leaving[0], 0).DistanceTo(Unit(b - a)), 0.01);
                    Assert.Equal(0, Measure.TangentAt(arriving[^1], 1).DistanceTo(Unit(c - b)), 0.01);
                },
                iter: 100
            );

    private static void CheckCubic(Point2 a, Point2 b, Point2 c, Point2 d) =>
        Check(
            Cubic(a, b, c, d),
            t =>
            {
                double r = 1 - t;
                return (r * r * r * a) + (3 * r * r * t * b) + (3 * r * t * t * c) + (t * t * t * d);
            }
        );

    private static List<Segment> Cubic(Point2 a, Point2 b, Point2 c, Point2 d) =>
        new SplineArcs(3, [0, 0, 0, 0, 1, 1, 1, 1], [a, b, c, d], [1, 1, 1, 1]).Segments(Chord);

    private static Point2 Unit(Point2 v) => v * (1 / v.Length);

    private static double Turn(Point2 a, Point2 b, Point2 c) => Math.Acos(Unit(b - a).Dot(Unit(c - b)));

    private static void Check(List<Segment> segments, Func<double, Point2> curve)
    {
        for (int i = 0; i <= 500; i++)
        {
            Point2 p = curve(i / 500.0);
            Assert.True(segments.Min(s => Measure.Distance(p, s)) <= Chord * 1.2);
        }
        for (int i = 1; i < segments.Count; i++)
        {
            Assert.Equal(segments[i - 1].End, segments[i].Start);
            Point2 arriving = Measure.TangentAt(segments[i - 1], 1);
            Point2 leaving = Measure.TangentAt(segments[i], 0);
            Assert.True(Math.Abs(arriving.Cross(leaving)) < 0.02 || segments[i].Length < 20 * Chord);
        }
    }
}
