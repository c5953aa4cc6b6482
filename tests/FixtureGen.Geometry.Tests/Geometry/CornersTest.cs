using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Geometry;

/// <summary>Common corners of two shifted neighbours, on lines and arcs whose crossings are known by heart.</summary>
public sealed class CornersTest
{
    private static readonly Slack House = Slack.From(Tolerances.House);

    private static Shifted Of(Curve curve) =>
        new()
        {
            Curve = curve,
            From = 0,
            To = 1,
            Alive = true,
        };

    private static Shifted Line(double x1, double y1, double x2, double y2) =>
        Of(Curve.Line(new Point2(x1, y1), new Point2(x2, y2)));

    [Fact]
    public void Lines_are_lengthened_to_a_corner_ahead_of_one_and_behind_the_other()
    {
        Shifted a = Line(0, 0, 10, 0);
        Shifted b = Line(12, 2, 12, 10);

        Assert.True(Corners.Mitre(ref a, ref b));

        Assert.Equal((0, 1.2, new Point2(12, 0)), (a.From, a.To, a.ToPoint));
        Assert.Equal((-0.25, 1, new Point2(12, 0)), (b.From, b.To, b.FromPoint));
    }

    // The lines' corner lies before the end of the first, past the start of the second, or nowhere.
    [Theory]
    [InlineData(8, 2, 8, 10)]
    [InlineData(12, -2, 12, 10)]
    [InlineData(12, 2, 20, 2)]
    public void Lines_without_a_corner_ahead_stay_as_they_are(double x1, double y1, double x2, double y2)
    {
        Shifted a = Line(0, 0, 10, 0);
        Shifted b = Line(x1, y1, x2, y2);

        Assert.False(Corners.Mitre(ref a, ref b));
        Assert.Equal((1, 0), (a.To, b.From));
    }

    [Fact]
    public void Arcs_are_not_lengthened()
    {
        Shifted line = Line(0, 0, 10, 0);
        Shifted arc = Of(Curve.From(Segment.Arc(new(12, 2), new(16, 6), new(12, 6), ccw: true)));

        Assert.False(Corners.Mitre(ref line, ref arc));
        Assert.False(Corners.Mitre(ref arc, ref line));
    }

    [Fact]
    public void Lines_that_cross_are_cut_back_to_their_crossing()
    {
        Shifted a = Line(0, 0, 10, 0);
        Shifted b = Line(8, -3, 8, 9);

        Assert.True(Corners.TrimToCrossing(ref a, ref b, House));

        Assert.Equal((0.8, new Point2(8, 0)), (a.To, a.ToPoint));
        Assert.Equal((0.25, new Point2(8, 0)), (b.From, b.FromPoint));
    }

    [Theory]
    [InlineData(12, -3, 12, 9)]
    [InlineData(8, 1, 8, 9)]
    [InlineData(8, -9, 8, -1)]
    [InlineData(-2, -3, -2, 9)]
    public void Lines_that_miss_each_other_are_not_cut_back(double x1, double y1, double x2, double y2)
    {
        Shifted a = Line(0, 0, 10, 0);
        Shifted b = Line(x1, y1, x2, y2);

        Assert.False(Corners.TrimToCrossing(ref a, ref b, House));
    }

    // y = 3 meets the circle of 5 about (0, 0) at (4, 3) and (-4, 3); the arc from (5, 0) to (0, 5) holds the first only.
    [Fact]
    public void A_line_and_an_arc_are_cut_back_to_the_one_point_both_hold()
    {
        Shifted line = Line(10, 3, 0, 3);
        Shifted quarter = Of(Curve.From(Segment.Arc(new(5, 0), new(0, 5), default, ccw: true)));

        Assert.True(Corners.TrimToCrossing(ref line, ref quarter, House));

        Assert.Equal(0, line.ToPoint.DistanceTo(new(4, 3)), 1e-12);
        Assert.Equal(0.6, line.To, 1e-12);
        Assert.Equal(Math.Asin(0.6) / (Math.PI / 2), quarter.From, 1e-12);
    }

    [Fact]
    public void Two_points_in_common_are_no_corner()
    {
        Shifted line = Line(10, 3, -10, 3);
        Shifted half = Of(Curve.From(Segment.Arc(new(5, 0), new(-5, 0), default, ccw: true)));

        Assert.False(Corners.TrimToCrossing(ref line, ref half, House));
    }

    // Two circles of 5 and 4 whose middles are 3 apart meet at a right angle over the smaller one's middle.
    [Fact]
    public void Two_arcs_are_cut_back_to_the_one_point_both_hold()
    {
        Shifted a = Of(Curve.From(Segment.Arc(new(5, 0), new(0, 5), default, ccw: true)));
        Shifted b = Of(Curve.From(Segment.Arc(new(7, 0), new(-1, 0), new(3, 0), ccw: true)));

        Assert.True(Corners.TrimToCrossing(ref a, ref b, House));

        Assert.Equal(0, a.ToPoint.DistanceTo(new(3, 4)), 1e-12);
        Assert.Equal(0.5, b.From, 1e-12);
    }

    // They were joined where the first one ends, which moved the second one by up to half a stitch.
    [Theory]
    [InlineData(0.4)]
    [InlineData(0.6)]
    public void Ends_that_miss_each_other_are_no_corner(double stitches)
    {
        double gap = stitches * House.Buried;
        Shifted quarter = Of(Curve.From(Segment.Arc(new(5, 0), new(0, 5), default, ccw: true)));
        Shifted line = Line(-gap, 5, -gap, 15);

        Assert.False(Corners.TrimToCrossing(ref quarter, ref line, House));
        Assert.Equal(default, line.FromPoint);
    }

    // Circles of 6 whose middles are a millionth apart meet where both are farthest from the joint.
    [Fact]
    public void A_common_point_far_off_for_a_hair_of_overlap_is_no_corner()
    {
        Shifted a = Of(Curve.From(Segment.Arc(new(6, 0), new(-6, 0), default, ccw: true)));
        Shifted b = Of(Curve.From(Segment.Arc(new(-6, 1e-6), new(6, 1e-6), new(0, 1e-6), ccw: true)));

        Assert.False(Corners.TrimToCrossing(ref a, ref b, House));
    }
}
