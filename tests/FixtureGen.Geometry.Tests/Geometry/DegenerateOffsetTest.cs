using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Geometry;

public sealed class DegenerateOffsetTest
{
    private readonly Kernel _kernel = new(Tolerances.House);

    [Theory]
    [InlineData(10)]
    [InlineData(9.9999999)]
    [InlineData(10.0000001)]
    [InlineData(25)]
    public void An_offset_that_just_vanishes_leaves_nothing_worth_having(double d)
    {
        Region square = Region.From(Contours.Rectangle(new(0, 0, 20, 20)));
        Region disc = Region.From(Contours.Circle(new(0, 0), 10));

        Assert.True(Measure.Area(_kernel.Offset(square, -d)) < 1e-9);
        Assert.True(Measure.Area(_kernel.Offset(disc, -d)) < 1e-9);
    }

    [Fact]
    public void Zero_length_segments_and_micro_edges_are_left_out_and_counted()
    {
        Contour edged = new([
            Segment.Line(new(0, 0), new(30, 0)),
            Segment.Line(new(30, 0), new(30, 0)),
            Segment.Line(new(30, 0), new(30, 20)),
            Segment.Line(new(30, 20), new(29.9999995, 20)),
            Segment.Line(new(29.9999995, 20), new(0, 20)),
            Segment.Line(new(0, 20), new(0, 0)),
        ]);

        var result = _kernel.Offset(Region.From(edged), 5);

        Assert.Equal(600 + 500 + (25 * Math.PI), Measure.Area(result), 1e-4);
        Assert.Equal(new KernelRepair(RepairKind.MicroEdges, "offset", 2), Assert.Single(_kernel.Repairs));
    }

    [Fact]
    public void A_spike_without_width_is_no_material()
    {
        Contour spiked = Contours.FromPoints([
            new(0, 0),
            new(40, 0),
            new(40, 10),
            new(70, 10),
            new(40, 10),
            new(40, 30),
            new(0, 30),
        ]);

        Assert.Equal(36 * 26, Measure.Area(_kernel.Offset(Region.From(spiked), -2)), 1e-9);
    }

    [Fact]
    public void Holes_that_touch_each_other_and_the_outer_contour_are_offset_together()
    {
        Region plate = new(
            Contours.Rectangle(new(0, 0, 100, 40)),
            [
                Contours.Reverse(Contours.Circle(new(10, 20), 10)),
                Contours.Reverse(Contours.Circle(new(30, 20), 10)),
                Contours.Reverse(Contours.Circle(new(60, 20), 20)),
            ]
        );

        var grown = _kernel.Offset(plate, 2);
        var shrunk = _kernel.Offset(plate, -2);

        // Growing: the outer rectangle with round corners, less the circles of radius r - 2.
        double holes = Math.PI * (64 + 64 + (18 * 18));
        Assert.Equal(4000 + (280 * 2) + (4 * Math.PI) - holes, Measure.Area(grown), 1e-6);
        Assert.True(Measure.Area(shrunk) < Measure.Area(plate) - (2 * 280 * 0.5));
    }

    [Theory]
    [InlineData(2)]
    [InlineData(-2)]
    public void A_gap_exactly_twice_the_distance_wide_closes_cleanly(double d)
    {
        Region plate = new(
            Contours.Rectangle(new(0, 0, 60, 40)),
            [
                Contours.Reverse(Contours.Rectangle(new(4, 4, 28, 36))),
                Contours.Reverse(Contours.Rectangle(new(32, 4, 56, 36))),
            ]
        );

        var result = _kernel.Offset(plate, d);

        // Shrinking leaves a three-cornered scrap in each corner (4 - pi) and at each end of the wall (8 - 2 pi).
        double expected =
            d > 0 ? 2400 + 400 + (4 * Math.PI) - (2 * 20 * 28) : (4 * (4 - Math.PI)) + (2 * (8 - (2 * Math.PI)));
        Assert.Equal(expected, Measure.Area(result), 1e-6);
    }

    [Fact]
    public void Arcs_of_enormous_radius_are_still_arcs()
    {
        // A chord of 50 mm on a radius of 2 km: 0.16 mm high.
        double h = Math.Sqrt((2e6 * 2e6) - (25 * 25));
        Contour flat = new([
            Segment.Line(new(-25, 0), new(25, 0)),
            Segment.Line(new(25, 0), new(25, 10)),
            Segment.Arc(new(25, 10), new(-25, 10), new(0, 10 - h), ccw: true),
            Segment.Line(new(-25, 10), new(-25, 0)),
        ]);

        var result = _kernel.Offset(Region.From(flat), -2);

        Assert.Equal(46 * 6, Measure.Area(result), 1e-2);
        Assert.Empty(_kernel.Repairs);
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void A_hundred_thousand_segments_go_through()
    {
        const int n = 100_000;
        Point2[] points =
        [
            .. Enumerable
                .Range(0, n)
                .Select(i =>
                {
                    double t = 2 * Math.PI * i / n;
                    double r = 60 + (8 * Math.Sin(7 * t)) + (3 * Math.Sin((23 * t) + 0.7));
                    return new Point2(r * Math.Cos(t), r * Math.Sin(t));
                }),
        ];

        var result = _kernel.Offset(Region.From(Contours.FromPoints(points)), -3.175);

        Assert.Single(result);
        // An edge shorter than the grid is left out of the result, no more.
        KernelRepair note = Assert.Single(_kernel.Repairs);
        Assert.Equal(RepairKind.Snapped, note.Kind);
        Assert.InRange(note.Amount, 0, Tolerances.House.Grid);
    }

    /// <summary>
    /// In the middle of each side two corners that hardly open and two between them that hardly close, a fraction of a
    /// micrometre apart, as arcs fitted to a curve leave them: the arcs about the outer two become the lines that run along
    /// them, and the area that was swept could not be proven for it. By Steiner's formula the sides count as straight.
    /// </summary>
    [Fact]
    public void Corners_hardly_open_whose_arcs_become_lines_can_be_proven()
    {
        const double d = 11.584375;
        const double opens = 5.659e-5;
        const double closes = 2.34e-5;
        (double Turn, double Length)[] side =
        [
            (opens, 2.73e-4),
            (-closes, 1.12e-4),
            (-closes, 2.73e-4),
            (opens, 10),
            ((Math.PI / 2) - (2 * (opens - closes)), 10),
        ];
        List<Point2> corners = [new(0, 0)];
        double heading = 0;
        foreach (
            (double turn, double length) in side.Prepend((Turn: 0, Length: 10))
                .Concat(side)
                .Concat(side)
                .Concat(side)
                .SkipLast(1)
        )
        {
            heading += turn;
            corners.Add(corners[^1] + (new Point2(Math.Cos(heading), Math.Sin(heading)) * length));
        }
        corners.RemoveAt(corners.Count - 1);
        Region crinkled = Region.From(Contours.FromPoints([.. corners]));

        double grown = Measure.Area(_kernel.Offset(crinkled, d)) - Measure.Area(crinkled);

        Assert.Equal((Measure.Length(crinkled) * d) + (Math.PI * d * d), grown, 1e-4);
        Assert.DoesNotContain(_kernel.Repairs, r => r.Kind is RepairKind.FallBack or RepairKind.SideTest);
    }
}
