using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Geometry;

/// <summary>Every operation says what is wrong with input that is no region, or follows the rule that its docstring states.</summary>
public sealed class RefusedInputTest
{
    private static readonly Region[] Good = [Square(0, 0, 10)];
    private readonly Kernel _kernel = new(Tolerances.House);

    public static TheoryData<string> Operations =>
        ["union", "intersect", "difference", "of", "grow", "shrink", "rings"];

    /// <summary>Outer contours that run clockwise were nothing, holes that run counter-clockwise were material, unsaid.</summary>
    [Theory]
    [MemberData(nameof(Operations))]
    public void An_outer_contour_that_runs_clockwise_is_refused(string operation)
    {
        Region[] turned = [.. Good, Region.From(Contours.Cw(Square(20, 0, 10).Outer))];

        RegionFault fault = Refused(operation, turned);

        Assert.Equal((RegionFaultKind.WrongWay, 1, 0), (fault.Kind, fault.Region, fault.Contour));
        Assert.Equal("region 1, contour 0, segment -1: the contour runs the wrong way; reverse it", fault.Message);
    }

    [Theory]
    [MemberData(nameof(Operations))]
    public void A_hole_that_runs_counter_clockwise_is_refused(string operation)
    {
        Region[] turned = [new(Good[0].Outer, [Contours.Circle(new(5, 5), 2)])];

        Assert.Equal((RegionFaultKind.WrongWay, 0, 1), Place(Refused(operation, turned)));
    }

    [Theory]
    [MemberData(nameof(Operations))]
    public void A_hole_beyond_its_outer_contour_is_refused_with_how_far(string operation)
    {
        Region[] outside = [new(Good[0].Outer, [Contours.Cw(Contours.Circle(new(9, 5), 3))])];

        RegionFault fault = Refused(operation, outside);

        Assert.Equal((RegionFaultKind.HoleOutside, 0, 1), Place(fault));
        Assert.Equal(2, fault.Amount, 1e-12);
        Assert.Equal(
            "region 0, contour 1, segment -1: a hole reaches 2 mm beyond the outer contour at (12, 5); put it into the region it lies in",
            fault.Message
        );
    }

    /// <summary>Within the extents, so that only what the contours enclose can tell.</summary>
    [Theory]
    [InlineData("union")]
    [InlineData("difference")]
    [InlineData("of")]
    public void A_hole_in_the_corner_that_its_outer_contour_leaves_is_refused(string operation)
    {
        Contour ell = Contours.FromPoints([new(0, 0), new(10, 0), new(10, 4), new(4, 4), new(4, 10), new(0, 10)]);
        Region[] outside = [new(ell, [Contours.Cw(Contours.Circle(new(8, 8), 1.5))])];

        Assert.Equal(RegionFaultKind.Overlap, Refused(operation, outside).Kind);
    }

    [Theory]
    [MemberData(nameof(Operations))]
    public void A_circle_of_one_arc_is_refused(string operation)
    {
        Region[] one = [Region.From(new([Segment.Arc(new(5, 0), new(5, 0), default, ccw: true)]))];

        Assert.Equal(RegionFaultKind.WholeTurn, Refused(operation, one).Kind);
    }

    [Theory]
    [MemberData(nameof(Operations))]
    public void An_arc_whose_ends_lie_at_unlike_distances_is_refused_with_the_difference(string operation)
    {
        Contour lopsided = new([
            Segment.Arc(new(10, 0), new(-10.002, 0), default, ccw: true),
            Segment.Line(new(-10.002, 0), new(10, 0)),
        ]);

        RegionFault fault = Refused(operation, [Region.From(lopsided)]);

        Assert.Equal(RegionFaultKind.RadiiDiffer, fault.Kind);
        Assert.Equal(0.002, fault.Amount, 1e-12);
    }

    [Theory]
    [MemberData(nameof(Operations))]
    public void Coordinates_that_are_no_numbers_are_refused(string operation)
    {
        foreach (double bad in (double[])[double.NaN, double.PositiveInfinity, double.NegativeInfinity])
        {
            Contour broken = Contours.FromPoints([new(0, 0), new(10, bad), new(5, 10)]);
            Assert.Equal(RegionFaultKind.NotFinite, Refused(operation, [Region.From(broken)]).Kind);
        }
    }

    [Theory]
    [MemberData(nameof(Operations))]
    public void Open_chains_are_refused_with_the_gap(string operation)
    {
        Contour open = new([
            Segment.Line(new(0, 0), new(10, 0)),
            Segment.Line(new(10, 0.5), new(5, 10)),
            Segment.Line(new(5, 10), new(0, 0)),
        ]);

        Assert.Equal(
            (RegionFaultKind.Open, 0.5),
            (Refused(operation, [Region.From(open)]) is var f ? (f.Kind, f.Amount) : default)
        );
    }

    /// <summary>The rule of combinations: regions of a set may overlap, they are taken together.</summary>
    [Fact]
    public void Overlapping_regions_are_united_by_combinations()
    {
        Region[] twice = [Square(0, 0, 10), Square(5, 5, 10)];

        Assert.Equal(175, Measure.Area(_kernel.UnionAll(twice)), 1e-9);
        Assert.Equal(75, Measure.Area(_kernel.Difference(twice, [Square(0, 0, 10)])), 1e-9);
    }

    /// <summary>Two strips 1.5 wide that overlap to 2.5 left nothing where a strip of 0.5 is left of what they cover.</summary>
    [Theory]
    [InlineData("grow")]
    [InlineData("shrink")]
    [InlineData("rings")]
    public void Overlapping_regions_are_refused_by_offsets(string operation)
    {
        Region[] strips =
        [
            Region.From(Contours.Rectangle(new(0, 0, 40, 1.5))),
            Region.From(Contours.Rectangle(new(0, 1, 40, 2.5))),
        ];

        RegionFault fault = Refused(operation, strips);

        Assert.Equal(RegionFaultKind.Overlap, fault.Kind);
        Assert.Contains("contours cross or overlap at", fault.Message, StringComparison.Ordinal);
        Assert.Equal(100, Measure.Area(_kernel.UnionAll(strips)), 1e-9);
    }

    [Fact]
    public void Regions_side_by_side_or_within_a_hole_are_shrunk_each_by_itself()
    {
        Region ring = new(Square(0, 0, 40).Outer, [Contours.Cw(Square(10, 10, 20).Outer)]);
        Region[] apart = [ring, Square(15, 15, 10), Square(40, 0, 10)];

        Assert.Equal((38 * 38) - (22 * 22) + 64 + 64 + (4 - Math.PI), Measure.Area(_kernel.Offset(apart, -1)), 1e-6);
    }

    /// <summary>The rule: segments without length are left out.</summary>
    [Fact]
    public void Segments_without_length_change_nothing()
    {
        Contour edged = new([
            Segment.Line(new(0, 0), new(10, 0)),
            Segment.Line(new(10, 0), new(10, 0)),
            Segment.Arc(new(10, 0), new(10, 0), new(10, 0), ccw: true),
            Segment.Line(new(10, 0), new(10, 10)),
            Segment.Line(new(10, 10), new(0, 10)),
            Segment.Line(new(0, 10), new(0, 0)),
        ]);
        Region[] region = [Region.From(edged)];

        Assert.Equal(100, Measure.Area(_kernel.UnionAll(region)), 1e-12);
        Assert.Equal(64, Measure.Area(_kernel.Offset(region, -1)), 1e-12);
        Assert.Empty(_kernel.Faults(region));
    }

    [Fact]
    public void What_encloses_nothing_is_nothing()
    {
        Region spike = Region.From(Contours.FromPoints([new(0, 0), new(10, 0)]));
        Region none = Region.From(new([]));

        Assert.Empty(_kernel.UnionAll([spike, none]));
        Assert.Empty(_kernel.Offset([spike, none], -1));
        Assert.Equal(100, Measure.Area(_kernel.Union(Good, [spike, none])), 1e-12);
    }

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public void Lengths_that_are_no_numbers_are_refused(double bad)
    {
        OpenPath path = new([Segment.Line(new(0, 0), new(10, 0))]);

        Assert.Throws<ArgumentOutOfRangeException>(() => _kernel.Offset(Good, bad));
        Assert.Throws<ArgumentOutOfRangeException>(() => _kernel.Offset(Good, bad, CornerJoin.Mitre, 4));
        Assert.Throws<ArgumentOutOfRangeException>(() => _kernel.Open(Good, bad));
        Assert.Throws<ArgumentOutOfRangeException>(() => _kernel.Rings(Good, bad, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => _kernel.Stroke(path, bad));
        Assert.Throws<ArgumentOutOfRangeException>(() => _kernel.StrokeOneSide(path, bad, CornerJoin.Round, 4));
    }

    private static (RegionFaultKind, int, int) Place(RegionFault f) => (f.Kind, f.Region, f.Contour);

    private static Region Square(double x, double y, double side) =>
        Region.From(Contours.Rectangle(new(x, y, x + side, y + side)));

    private RegionFault Refused(string operation, Region[] regions) =>
        Assert
            .Throws<RegionException>(() =>
            {
                _ = operation switch
                {
                    "union" => _kernel.Union(Good, regions),
                    "intersect" => _kernel.Intersect(regions, Good),
                    "difference" => _kernel.Difference(Good, regions),
                    "of" => _kernel.UnionAll(regions),
                    "grow" => _kernel.Offset(regions, 1),
                    "shrink" => _kernel.Offset(regions, -1),
                    _ => _kernel.Rings(regions, 1, 1)[0],
                };
            })
            .Faults[0];
}
