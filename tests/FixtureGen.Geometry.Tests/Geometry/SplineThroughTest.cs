using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Geometry;

/// <summary>Cubics through points, against systems solved by hand.</summary>
public sealed class SplineThroughTest
{
    private const double Chord = 1e-4;

    // Equal spans of a periodic cubic: m(i-1) + 4 m(i) + m(i+1) = 3 (f(i+1) - f(i-1)) / h (de Boor, ch. IV). Through the four
    // corners r i^k with h = r sqrt 2 that gives m = 3 i f / (2 h), and half way 0.6875 r (1 + i).
    [Fact]
    public void Through_a_squares_corners_closed()
    {
        const double r = 50;
        Point2[] corners = [new(r, 0), new(0, r), new(-r, 0), new(0, -r)];

        Contour closed = new([.. SplineThrough.Segments(corners, null, null, closed: true, Chord)]);

        const double half = 0.6875 * r;
        Assert.All(
            [.. corners, new(half, half), new(-half, half), new(-half, -half), new(half, -half)],
            p => Assert.InRange(Measure.Distance(p, closed), 0, Chord)
        );
        Assert.Equal(closed.Segments[0].Start, closed.Segments[^1].End);
        Assert.All(
            closed.Segments.Zip(closed.Segments.Skip(1).Append(closed.Segments[0])),
            pair => AssertTangent(pair.First, pair.Second)
        );
    }

    // Zero end curvature over (0,0), (30,40), (60,0), h = 50: 2 m0 + m1 = 3 d0, m0 + 4 m1 + m2 = 3 (d0 + d1), m1 + 2 m2 = 3 d1 with
    // d = (0.6, +-0.8): x runs evenly, y has m = 1.2, 0, -1.2 and at half a span 40/2 + h/8 (1.2 - 0) = 27.5.
    [Fact]
    public void With_free_ends_the_end_curvature_is_nothing()
    {
        OpenPath path = new([
            .. SplineThrough.Segments([new(0, 0), new(30, 40), new(60, 0)], null, null, closed: false, Chord),
        ]);

        Assert.InRange(Measure.Distance(new(15, 27.5), path), 0, Chord);
        Assert.InRange(Measure.Distance(new(45, 27.5), path), 0, Chord);
        Point2 leaving = Measure.TangentAt(path.Segments[0], 0);
        Assert.Equal(2, leaving.Y / leaving.X, 1e-3);
        Assert.Equal(new Point2(60, 0), path.End);
    }

    // The same points with level ends of unit speed (1, 0): y has m0 = m2 = 0 and m1 = 0, so 20 at half a span; x has m0 = m2 = 1
    // and 4 m1 = 3.6 - 2, m1 = 0.4: 15 + 50/8 (1 - 0.4) = 18.75.
    [Fact]
    public void With_given_end_tangents_it_leaves_and_arrives_along_them()
    {
        OpenPath path = new([
            .. SplineThrough.Segments(
                [new(0, 0), new(30, 40), new(60, 0)],
                new Point2(7, 0),
                new Point2(3, 0),
                closed: false,
                Chord
            ),
        ]);

        Assert.InRange(Measure.Distance(new(18.75, 20), path), 0, Chord);
        Assert.InRange(Measure.Distance(new(41.25, 20), path), 0, Chord);
        // Slopes there: x 1.5 30/50 - (1 + 0.4)/4 = 0.55, y 1.5 40/50 = 1.2.
        (int i, double t) = Measure.Locate(path.Segments, Measure.Locate(path.Segments, new Point2(18.75, 20)));
        Point2 half = Measure.TangentAt(path.Segments[i], t);
        Assert.Equal(1.2 / 0.55, half.Y / half.X, 1e-3);
        Assert.Equal(0, Measure.TangentAt(path.Segments[0], 0).DistanceTo(new(1, 0)), 1e-6);
        Assert.Equal(0, Measure.TangentAt(path.Segments[^1], 1).DistanceTo(new(1, 0)), 1e-6);
    }

    private static void AssertTangent(Segment one, Segment next) =>
        Assert.Equal(0, Measure.TangentAt(one, 1).DistanceTo(Measure.TangentAt(next, 0)), 1e-6);
}
