using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Geometry;

public sealed class ArcRecoveryTest
{
    [Fact]
    public void A_flattened_rounded_rectangle_is_found_again()
    {
        Contour rounded = Contours.RoundedRectangle(new(0, 0, 80, 50), 12);
        Contour dense = Contours.FromPoints(Flatten.Points(rounded, 0.0005));

        Contour found = ArcRecovery.Recover(dense, 0.002);

        Assert.InRange(found.Segments.Length, 8, 12);
        Assert.InRange(found.Segments.Count(s => s.IsArc), 4, 8);
        Assert.All(dense.Segments, s => Assert.True(Measure.Distance(s.Start, found) <= 0.002 + 1e-9));
        Assert.All(dense.Segments, s => Assert.True(Measure.Distance(Measure.PointAt(s, 0.5), found) <= 0.002 + 1e-9));
        Assert.Equal(Measure.Area(rounded), Measure.Area(found), 0.002 * Measure.Length(rounded));
    }

    [Fact]
    public void A_wave_of_3000_lines_becomes_some_hundred_arcs_within_the_tolerance()
    {
        Contour wave = Contours.FromPoints([
            .. Enumerable
                .Range(0, 3000)
                .Select(i =>
                {
                    double t = 2 * Math.PI * i / 3000;
                    double r = 60 + (8 * Math.Sin(7 * t)) + (3 * Math.Sin((23 * t) + 0.7));
                    return new Point2(r * Math.Cos(t), r * Math.Sin(t));
                }),
        ]);

        Contour found = ArcRecovery.Recover(wave, 0.002);

        Assert.True(found.Segments.Length < 500);
        Assert.All(wave.Segments, s => Assert.True(Measure.Distance(s.Start, found) <= 0.002 + 1e-9));
        Assert.All(found.Segments, s => Assert.True(Measure.Distance(Measure.PointAt(s, 0.41), wave) <= 0.003));
    }

    // A disc cut off at an arc of 2.5 radians, in chords: one arc and the cut, wherever the drawing begins.
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(40)]
    [InlineData(99)]
    public void An_arc_is_found_whole_wherever_the_contour_begins(int start)
    {
        Point2[] cut =
        [
            .. Enumerable.Range(0, 101).Select(i => new Point2(Math.Cos(i / 40.0), Math.Sin(i / 40.0)) * 20),
        ];

        Contour found = ArcRecovery.Recover(Contours.FromPoints([.. cut[start..], .. cut[..start]]), 0.02);

        Assert.Equal(2, found.Segments.Length);
        Segment arc = Assert.Single(found.Segments, s => s.IsArc);
        Assert.Equal(20, arc.Radius, 0.02);
        Assert.Equal(50, arc.Length, 0.1);
    }

    [Fact]
    public void Corners_and_true_lines_stay_as_they_are()
    {
        Contour square = Contours.Rectangle(new(0, 0, 30, 20));

        Contour found = ArcRecovery.Recover(square, 0.01);

        Assert.Equal(square.Segments, found.Segments);
    }

    // Vertices along the sides, off them by less than the tolerance: four sides. One stands farther off: it and the one before it stay corners.
    [Theory]
    [InlineData(0.004, 4)]
    [InlineData(0.02, 6)]
    public void Vertices_along_a_side_are_gathered_unless_they_stand_off_it(double off, int sides)
    {
        Contour polygon = Contours.FromPoints([
            new(0, 0),
            new(10, 0.004),
            new(20, -off),
            new(40, 0),
            new(40, 10),
            new(39.996, 15),
            new(40, 30),
            new(30, 30),
            new(0, 30),
            new(0, 7),
        ]);

        Contour found = ArcRecovery.Recover(polygon, 0.01);

        Assert.Equal(sides, found.Segments.Length);
        Assert.DoesNotContain(found.Segments, s => s.IsArc);
        Assert.All(polygon.Segments, s => Assert.True(Measure.Distance(s.Start, found) <= 0.01 + 1e-9));
    }
}
