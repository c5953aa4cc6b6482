using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Geometry;

public sealed class EllipseArcsTest
{
    private const double Turn = 2 * Math.PI;

    // 8 (cos - sin), 4 (cos + sin) is the ellipse of half axes 8 sqrt 2 and 4 sqrt 2: equal halves alone make no circle.
    [Fact]
    public void Equal_half_axes_that_are_not_square_make_an_ellipse()
    {
        const double chord = 1e-4;
        var skewed = new EllipseArcs(default, new(8, 4), new(-8, 4), 0, Turn);

        Contour loop = new([.. skewed.Segments(chord)]);

        double root = Math.Sqrt(2);
        Assert.False(skewed.IsCircular);
        Assert.Equal(64 * Math.PI, Measure.Area(loop), Measure.Length(loop) * chord);
        Assert.InRange(Measure.Distance(new(8 * root, 0), loop), 0, chord);
        Assert.InRange(Measure.Distance(new(0, -4 * root), loop), 0, chord);
        Assert.Equal(loop.Segments[0].Start, loop.Segments[^1].End);
    }

    [Fact]
    public void Square_half_axes_of_different_length_make_an_ellipse() =>
        Assert.False(new EllipseArcs(default, new(6, 0), new(0, 4), 0, Turn).IsCircular);

    [Theory]
    [InlineData(1)]
    [InlineData(-1)]
    public void Square_and_equal_half_axes_make_exact_arcs(int side)
    {
        var whole = new EllipseArcs(new(1, 2), new(3, 4), new Point2(-4, 3) * side, 0, Turn);

        List<Segment> full = whole.Segments(1);
        Segment quarter = Assert.Single((whole with { Start = Turn / 4, Sweep = Turn / 4 }).Segments(1));

        Assert.Equal(2, full.Count);
        Assert.Equal(side * 25 * Math.PI, Measure.Area(new Contour([.. full])), 1e-9);
        Assert.All(full, s => Assert.Equal(new Point2(1, 2), s.Centre));
        Assert.Equal(full[0].Start, full[^1].End);
        Assert.Equal(side * Turn / 4, quarter.Sweep, 1e-12);
        Assert.Equal(0, quarter.Start.DistanceTo(new Point2(1, 2) + (new Point2(-4, 3) * side)), 1e-12);
        Assert.Equal(0, quarter.End.DistanceTo(new(-2, -2)), 1e-12);
    }
}
