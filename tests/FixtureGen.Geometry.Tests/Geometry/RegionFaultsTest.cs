using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Geometry;

/// <summary>Input that is no region is refused with what, where, how much and what to do.</summary>
public sealed class RegionFaultsTest
{
    private static readonly Region[] Good = [Region.From(Contours.Rectangle(new(0, 0, 10, 10)))];
    private readonly Kernel _kernel = new(Tolerances.House);

    [Theory]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    public void Coordinates_that_are_no_numbers_are_refused(double bad)
    {
        Region[] broken = [Region.From(Contours.FromPoints([new(0, 0), new(10, bad), new(5, 10)]))];

        Assert.Equal(RegionFaultKind.NotFinite, Refused(() => _kernel.Union(broken, Good)).Kind);
        Assert.Equal(RegionFaultKind.NotFinite, Refused(() => _kernel.Difference(Good, broken)).Kind);
        Assert.Equal(RegionFaultKind.NotFinite, Refused(() => _kernel.Offset(broken, 1)).Kind);
        Assert.Equal(RegionFaultKind.NotFinite, Refused(() => _kernel.Rings(broken, 1, 1)).Kind);
        Assert.Equal(
            RegionFaultKind.NotFinite,
            Refused(() => _kernel.Repair([broken[0].Outer], FillRule.NonZero)).Kind
        );
        Assert.Equal(RegionFaultKind.NotFinite, _kernel.Faults(broken)[0].Kind);
    }

    [Fact]
    public void Open_contours_are_refused_with_the_gap()
    {
        Contour open = new([
            Segment.Line(new(0, 0), new(10, 0)),
            Segment.Line(new(10, 0.5), new(5, 10)),
            Segment.Line(new(5, 10), new(0, 0)),
        ]);

        RegionFault fault = Refused(() => _kernel.Offset(Region.From(open), 1));

        Assert.Equal((RegionFaultKind.Open, 1, 0.5), (fault.Kind, fault.Segment, fault.Amount));
        Assert.Equal("region 0, contour 0, segment 1: a gap of 0.5 mm before (10, 0.5); join the ends", fault.Message);
    }

    [Fact]
    public void Radii_directions_and_overlaps_are_found()
    {
        Contour lopsided = new([
            Segment.Arc(new(10, 0), new(-10.1, 0), default, ccw: true),
            Segment.Line(new(-10.1, 0), new(10, 0)),
        ]);
        Region[] twice = [.. Good, Region.From(Contours.Rectangle(new(5, 5, 15, 15)))];

        Assert.Equal(0.1, Assert.Single(_kernel.Faults([Region.From(lopsided)])).Amount, 1e-9);
        Assert.Equal(
            RegionFaultKind.WrongWay,
            Assert.Single(_kernel.Faults([Region.From(Contours.Reverse(Good[0].Outer))])).Kind
        );
        Assert.All(_kernel.Faults(twice), f => Assert.Equal(RegionFaultKind.Overlap, f.Kind));
        Assert.NotEmpty(_kernel.Faults(twice));
        Assert.Empty(_kernel.Faults(Good));
    }

    /// <summary>Unproven, without a word why, before.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(-1)]
    public void What_cannot_be_offset_because_it_runs_the_wrong_way_is_refused_with_the_contour(double d)
    {
        Region[] turned = [.. Good, Region.From(Contours.Cw(Contours.Rectangle(new(20, 0, 30, 10))))];

        RegionFault fault = Refused(() => _kernel.Offset(turned, d));

        Assert.Equal((RegionFaultKind.WrongWay, 1, 0), (fault.Kind, fault.Region, fault.Contour));
    }

    [Fact]
    public void Work_that_is_called_off_stops_and_the_kernel_goes_on()
    {
        using var calledOff = new CancellationTokenSource();
        calledOff.Cancel();
        _kernel.Cancel = calledOff.Token;

        Assert.Throws<OperationCanceledException>(() => _kernel.Offset(Good, 1));
        Assert.Throws<OperationCanceledException>(() => _kernel.UnionAll(Good));

        _kernel.Cancel = default;
        Assert.Equal(100, Measure.Area(_kernel.UnionAll(Good)), 1e-9);
        Assert.Equal(64, Measure.Area(_kernel.Offset(Good, -1)), 1e-9);
    }

    private static RegionFault Refused(Action work) => Assert.Throws<RegionException>(work).Faults[0];
}
