using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Geometry;

/// <summary>Places along contours, extents and distances, in closed form.</summary>
public sealed class MeasureTest
{
    // 30 x 20 with corners of 5: lines of 20 and 10, quarter turns of 2.5 pi.
    private static readonly Contour Round = Contours.RoundedRectangle(new Box2(0, 0, 30, 20), 5);

    private const double Length = 60 + (10 * Math.PI);

    [Theory]
    [InlineData(0, 5, 0)]
    [InlineData(20, 25, 0)]
    [InlineData(20 + (2.5 * Math.PI), 30, 5)]
    [InlineData(25 + (2.5 * Math.PI), 30, 10)]
    [InlineData(-5 * Math.PI / 2, 0, 5)]
    [InlineData(Length + 7, 12, 0)]
    [InlineData(-Length - Length + 7, 12, 0)]
    public void A_contour_is_counted_on_round_and_round(double s, double x, double y) =>
        Assert.Equal(0, Measure.PointAlong(Round, s).DistanceTo(new(x, y)), 1e-9);

    [Fact]
    public void Travel_turns_with_the_arc()
    {
        Segment corner = Round.Segments[1];

        Assert.Equal(0, Measure.TangentAt(Round.Segments[0], 0.5).DistanceTo(new(1, 0)), 1e-12);
        Assert.Equal(0, Measure.TangentAt(corner, 0.5).DistanceTo(new Point2(1, 1) * Math.Sqrt(0.5)), 1e-9);
        Assert.Equal(0, Measure.TangentAt(corner.Reversed, 1).DistanceTo(new(-1, 0)), 1e-12);
    }

    [Fact]
    public void A_path_ends_at_its_ends()
    {
        OpenPath path = Contours.ToPath(Round, 1);

        Assert.Equal(path.Start, Measure.PointAlong(path, -3));
        Assert.Equal(path.End, Measure.PointAlong(path, Length + 3));
        Assert.Equal((path.Segments.Length - 1, 1.0), Measure.Locate(path.Segments, Length + 3));
    }

    [Fact]
    public void The_length_at_which_a_point_lies_gives_that_point_back()
    {
        for (double s = 0.5; s < Length; s += 0.7)
        {
            Point2 at = Measure.PointAlong(Round, s);
            (int i, double t) = Measure.Locate(Round.Segments, s);
            Point2 outwards = Measure.TangentAt(Round.Segments[i], t).Left * -1;

            Assert.Equal(s, Measure.Locate(Round.Segments, at), 1e-9);
            Assert.Equal(s, Measure.Locate(Round.Segments, at + (outwards * 2)), 1e-9);
        }
    }

    [Fact]
    public void An_arcs_box_takes_in_only_the_far_sides_it_passes()
    {
        double h = 10 * Math.Sqrt(0.5);
        Segment over = Segment.Arc(new(h, h), new(-h, h), default, ccw: true);

        Box2 small = Measure.Bounds(over);
        Box2 rest = Measure.Bounds(over with { Kind = SegmentKind.ArcCw });

        Assert.Equal((-h, h, h), (small.MinX, small.MinY, small.MaxX));
        Assert.Equal(10, small.MaxY, 1e-12);
        Assert.Equal((-10, -10, 10, h), (rest.MinX, rest.MinY, rest.MaxX, rest.MaxY));
    }

    // r^2 (sweep - sin sweep) / 2 of a thin segment, in decimal (28 digits): sweep^3/6 - sweep^5/120 and so on, term by term.
    [Theory]
    [InlineData(0.0999)]
    [InlineData(0.08)]
    [InlineData(0.01)]
    [InlineData(0.2)]
    public void A_thin_segment_of_a_large_circle_keeps_its_digits(double sweep)
    {
        const double r = 1000;
        Point2 from = new(r * Math.Cos(sweep / 2), -r * Math.Sin(sweep / 2));
        Point2 to = new(from.X, -from.Y);
        Contour segment = new([Segment.Arc(from, to, default, ccw: true), Segment.Line(to, from)]);
        decimal s = (decimal)sweep;
        decimal term = s;
        decimal sum = 0;
        for (int k = 2; k < 12; k += 2)
        {
            term *= -s * s / (k * (k + 1));
            sum -= term;
        }
        double area = r * r * (double)sum / 2;

        Assert.Equal(area, Measure.Area(segment), 1e-10 * area);
        Assert.Equal(-area, Measure.Area(Contours.Reverse(segment)), 1e-10 * area);
    }

    [Fact]
    public void Boxes_and_lengths_of_several_are_those_of_all()
    {
        Region square = Region.From(Contours.Rectangle(new Box2(0, 0, 4, 6)));
        Region disc = Region.From(Contours.Circle(new(10, -2), 3));
        Region ring = new(Contours.Circle(default, 10), [Contours.Cw(Contours.Circle(default, 4))]);
        OpenPath path = new([Segment.Line(new(-1, 2), new(5, 2)), Segment.Line(new(5, 2), new(5, 9))]);

        Assert.Equal(new Box2(0, -5, 13, 6), Measure.Bounds([square, disc]));
        Assert.Equal(new Box2(-1, 2, 5, 9), Measure.Bounds(path));
        Assert.Equal(13, Measure.Length(path), 12);
        Assert.Equal(28 * Math.PI, Measure.Length(ring), 1e-12);
        Assert.Equal(24 + (9 * Math.PI), Measure.Area([square, disc]), 1e-12);
        Assert.Equal(2, Measure.Distance(new(3, 4), path), 1e-12);
        Assert.Equal(1, Measure.Distance(new(6, -2), [square, disc]), 1e-12);
        Assert.Equal(new Point2(3, 2), Measure.Closest(new(3, 4), path));
        Assert.Equal(new Point2(2, 0), Measure.Closest(new(2, -5), square.Outer));
    }

    [Fact]
    public void Distance_from_a_region_is_to_the_nearest_boundary_on_either_side()
    {
        Region ring = new(Contours.Circle(default, 10), [Contours.Cw(Contours.Circle(default, 4))]);

        Assert.Equal(1, Measure.Distance(new(3, 0), ring), 1e-12);
        Assert.Equal(2, Measure.Distance(new(0, 6), ring), 1e-12);
        Assert.Equal(3, Measure.Distance(new(-5, 12), ring), 1e-12);
        Assert.Equal(0, Measure.Closest(new(0, 6), ring).DistanceTo(new(0, 4)), 1e-12);
        Assert.Equal(84 * Math.PI, Measure.Area(ring), 1e-9);
        Assert.True(double.IsPositiveInfinity(Measure.Distance(default, Array.Empty<Region>())));
    }
}
