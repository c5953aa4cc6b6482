using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Geometry;

/// <summary>Areas and lengths that follow from the formulas of circle, segment and rectangle; no program behind them.</summary>
public sealed class OffsetClosedFormTest
{
    private readonly Kernel _kernel = new(Tolerances.House);

    [Theory]
    [InlineData(5)]
    [InlineData(-5)]
    [InlineData(-19.05)]
    [InlineData(-40)]
    public void Rounded_rectangle_keeps_its_formula(double d)
    {
        Region region = Region.From(Contours.RoundedRectangle(new(0, 0, 203.2, 152.4), 19.05));

        var result = _kernel.Offset(region, d);

        double w = 203.2 + (2 * d);
        double h = 152.4 + (2 * d);
        double r = Math.Max(0, 19.05 + d);
        Assert.Single(result);
        Assert.Equal((w * h) - ((4 - Math.PI) * r * r), Measure.Area(result), 1e-8);
        Assert.Equal((2 * (w + h)) - ((8 - (2 * Math.PI)) * r), Measure.Length(result[0].Outer), 1e-9);
        Assert.Equal(r > 0 ? 8 : 4, result[0].Outer.Segments.Length);
        Assert.Empty(_kernel.Repairs);
    }

    [Fact]
    public void Square_with_round_hole_grows_outside_and_closes_inside()
    {
        Region ring = new(Contours.Rectangle(new(0, 0, 100, 80)), [Contours.Reverse(Contours.Circle(new(50, 40), 20))]);

        var grown = _kernel.Offset(ring, 5);
        var shrunk = _kernel.Offset(ring, -5);
        var filled = _kernel.Offset(ring, 21);

        Assert.Equal(8000 + (360 * 5) + (25 * Math.PI) - (225 * Math.PI), Measure.Area(grown), 1e-9);
        Assert.Equal((90 * 70) - (625 * Math.PI), Measure.Area(shrunk), 1e-9);
        Assert.Empty(Assert.Single(filled).Holes);
    }

    [Fact]
    public void Dumbbell_falls_into_two_pieces()
    {
        Contour dumbbell = Contours.FromPoints([
            new(0, 0),
            new(20, 0),
            new(20, 8),
            new(40, 8),
            new(40, 0),
            new(60, 0),
            new(60, 20),
            new(40, 20),
            new(40, 12),
            new(20, 12),
            new(20, 20),
            new(0, 20),
        ]);

        var result = _kernel.Offset(Region.From(dumbbell), -3);

        Assert.Equal(2, result.Length);
        Assert.All(result, r => Assert.Equal(14 * 14 - Bite(3), Measure.Area(r), 1e-9));
    }

    // A round bite of radius 2 in a straight side vanishes at 5; over its mouth the two corners' arcs meet in a dip, at u from a
    // corner sqrt(25 - u2) high.
    [Fact]
    public void A_bite_smaller_than_the_distance_leaves_a_dip_between_its_corners()
    {
        Contour bitten = new([
            Segment.Line(new(-20, -30), new(20, -30)),
            Segment.Line(new(20, -30), new(20, 0)),
            Segment.Line(new(20, 0), new(2, 0)),
            Segment.Arc(new(2, 0), new(-2, 0), default, ccw: false),
            Segment.Line(new(-2, 0), new(-20, 0)),
            Segment.Line(new(-20, 0), new(-20, -30)),
        ]);

        Region grown = Assert.Single(_kernel.Offset(Region.From(bitten), 5));

        double dip = 2 * ((Math.Sqrt(21) + (12.5 * Math.Asin(0.4))) - 10);
        Assert.Equal((40 * 30) + (140 * 5) + (25 * Math.PI) + dip, Measure.Area(grown), 1e-8);
        Assert.Equal(0, Measure.Distance(new(0, Math.Sqrt(21)), grown), 1e-9);
        Assert.Equal(140 - 4 + (10 * Math.PI) + (2 * 5 * Math.Asin(0.4)), Measure.Length(grown.Outer), 1e-8);
    }

    // A disc of 10 about (0, 6) over the line y = 0, with a slot of 0.6 along that line to the left: 2 inwards the slot is gone, and
    // the line crosses the round twice, at their common corner and where the slot ran in. What is left is a disc of 8 over y = 2.
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void A_keyhole_whose_slot_vanishes_keeps_its_disc_over_the_line(int start)
    {
        Point2 slot = new(-Math.Sqrt(100 - (5.4 * 5.4)), 0.6);
        Segment[] sides =
        [
            Segment.Line(new(-20, 0), new(8, 0)),
            Segment.Arc(new(8, 0), slot, new(0, 6), ccw: true),
            Segment.Line(slot, new(-20, 0.6)),
            Segment.Line(new(-20, 0.6), new(-20, 0)),
        ];
        Contour keyhole = new([.. sides[start..], .. sides[..start]]);

        Region left = Assert.Single(_kernel.Offset(Region.From(keyhole), -2));

        Assert.Equal((64 * Math.PI * 2 / 3) + (4 * Math.Sqrt(48)), Measure.Area(left), 1e-9);
        Assert.Equal((2 * Math.Sqrt(48)) + (8 * Math.PI * 4 / 3), Measure.Length(left.Outer), 1e-9);
        Assert.Empty(_kernel.Repairs);
    }

    /// <summary>
    /// What the neck's two corners keep of the 14 mm square's side: the side stays 3 mm from the wall, but beside the neck's
    /// mouth of 4 mm it may come nearer, up to 3 mm from both corners. Here that adds a cap between two arcs.
    /// </summary>
    private static double Bite(double d)
    {
        const double half = 2;
        double reach = Math.Sqrt((d * d) - (half * half));
        double angle = Math.Asin(half / d);
        // Between the line at distance d and the two arcs about the mouth's corners.
        double cap = 2 * ((half * d) - ((half * reach / 2) + (d * d * angle / 2)));
        return -cap;
    }
}
