using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Geometry;

/// <summary>Joins, caps, one-sided paths, repair, sources and exclusive or, each against a closed form.</summary>
public sealed class KernelShapesTest
{
    private readonly Kernel _kernel = new(Tolerances.House);

    private static Region Box(double x0, double y0, double x1, double y1) =>
        Region.From(Contours.Rectangle(new(x0, y0, x1, y1)));

    private static OpenPath Path(params Point2[] points) =>
        new([.. points.Skip(1).Select((p, i) => Segment.Line(points[i], p))]);

    // A square of 20 grown by 3: mitred 26 x 26, squared off by four corners of half side 3 (2 - sqrt 2), round by quarter discs.
    [Fact]
    public void A_square_grows_by_its_joins()
    {
        Region[] square = [Box(0, 0, 20, 20)];
        double cut = 3 * (2 - Math.Sqrt(2));

        Assert.Equal(676, Measure.Area(_kernel.Offset(square, 3, CornerJoin.Mitre, 2)), 1e-9);
        Assert.Equal(676 - (2 * cut * cut), Measure.Area(_kernel.Offset(square, 3, CornerJoin.Square, 2)), 1e-9);
        Assert.Equal(676 - (2 * cut * cut), Measure.Area(_kernel.Offset(square, 3, CornerJoin.Mitre, 1.2)), 1e-9);
        Assert.Equal(640 + (9 * Math.PI), Measure.Area(_kernel.Offset(square, 3, CornerJoin.Round, 2)), 1e-9);
        Assert.Equal(196, Measure.Area(_kernel.Offset(square, -3, CornerJoin.Mitre, 2)), 1e-9);
    }

    // A hole's corners are the material's inner ones: they open when it shrinks.
    [Fact]
    public void A_hole_grows_mitred_when_the_plate_shrinks()
    {
        Region plate = new(
            Contours.Rectangle(new(0, 0, 60, 40)),
            [Contours.Cw(Contours.Rectangle(new(20, 10, 40, 30)))]
        );

        Assert.Equal((56 * 36) - (24 * 24), Measure.Area(_kernel.Offset([plate], -2, CornerJoin.Mitre, 2)), 1e-9);
    }

    [Theory]
    [InlineData(PathCap.Flat, 0)]
    [InlineData(PathCap.Square, 40)]
    [InlineData(PathCap.Round, 4 * Math.PI)]
    public void A_path_s_ends_are_closed_as_wished(PathCap cap, double more)
    {
        double bend = (2 * 30 * 4) - 16 + (cap == PathCap.Square ? 16 : more);

        Assert.Equal(
            (30 * 4) + (cap == PathCap.Square ? 16 : more),
            Measure.Area(_kernel.Stroke(Path(new(0, 0), new(30, 0)), 4, CornerJoin.Mitre, cap, 2)),
            1e-9
        );
        // Two legs of 30 share a square of 2 x 2 inside the bend; the mitre adds one outside.
        Assert.Equal(
            bend + 16 - 4 + 4,
            Measure.Area(_kernel.Stroke(Path(new(0, 0), new(30, 0), new(30, 30)), 4, CornerJoin.Mitre, cap, 2)),
            1e-9
        );
    }

    [Fact]
    public void One_side_of_a_path_is_a_band_of_its_own()
    {
        OpenPath bend = Path(new(0, 0), new(30, 0), new(30, 30));

        Assert.Equal((60 * 2) - 4, Measure.Area(_kernel.StrokeOneSide(bend, 2, CornerJoin.Mitre, 2)), 1e-9);
        Assert.Equal((60 * 2) + 4, Measure.Area(_kernel.StrokeOneSide(bend, -2, CornerJoin.Mitre, 2)), 1e-9);
        Assert.Equal((60 * 2) + Math.PI, Measure.Area(_kernel.StrokeOneSide(bend, -2, CornerJoin.Round, 2)), 1e-9);
    }

    [Fact]
    public void One_side_of_an_arc_is_a_sector_of_a_ring()
    {
        OpenPath half = new([Segment.Arc(new(10, 0), new(-10, 0), default, ccw: true)]);

        Assert.Equal((100 - 64) * Math.PI / 2, Measure.Area(_kernel.StrokeOneSide(half, 2, CornerJoin.Round, 2)), 1e-9);
        Assert.Equal(
            (144 - 100) * Math.PI / 2,
            Measure.Area(_kernel.StrokeOneSide(half, -2, CornerJoin.Round, 2)),
            1e-9
        );
        Assert.Equal(50 * Math.PI, Measure.Area(_kernel.StrokeOneSide(half, 12, CornerJoin.Round, 2)), 1e-9);
    }

    // As long as no sides meet: area + length d + d2 times the sum of tan(half the turn) over all corners, inner ones negative;
    // a kite is 1e-4 mm2 at least, what snapping may move 1e-6.
    [Fact]
    [Trait("Speed", "Slow")]
    public void Mitred_growth_adds_a_kite_for_every_corner()
    {
        for (int i = 0; i < 300; i++)
        {
            var random = new Random(i);
            Region star = Region.From(Contours.Ccw(RandomLoops.Star(random, 0)));
            double d = 0.01 * (1 + random.NextDouble());
            double kites = 0;
            for (int k = 0; k < star.Outer.Segments.Length; k++)
            {
                Point2 before = Measure.TangentAt(star.Outer.Segments[k], 1);
                Point2 after = Measure.TangentAt(star.Outer.Segments[(k + 1) % star.Outer.Segments.Length], 0);
                kites += Math.Tan(Math.Atan2(before.Cross(after), before.Dot(after)) / 2);
            }

            double grown = Measure.Area(_kernel.Offset([star], d, CornerJoin.Mitre, 1e6));

            Assert.Equal(Measure.Area(star) + (Measure.Length(star) * d) + (d * d * kites), grown, 1e-6);
        }
    }

    // A pentagram: the middle is run round twice.
    [Fact]
    public void A_crossing_loop_is_repaired_by_the_rule()
    {
        Contour star = Contours.FromPoints([
            .. Enumerable
                .Range(0, 5)
                .Select(i => new Point2(10 * Math.Cos(4 * Math.PI * i / 5), 10 * Math.Sin(4 * Math.PI * i / 5))),
        ]);
        // Inner pentagon's circumradius over the star's: 1 / golden ratio squared; areas 5/2 r2 sin 72 and 5 R r sin 36.
        double golden = (1 + Math.Sqrt(5)) / 2;
        double inner = 2.5 * 100 / Math.Pow(golden, 4) * Math.Sin(2 * Math.PI / 5);
        double tips = (5 * 100 * Math.Sin(Math.PI / 5) / (golden * golden)) - inner;

        Assert.Equal(tips, Measure.Area(_kernel.Repair([star], FillRule.EvenOdd)), 1e-9);
        Assert.Equal(tips + inner, Measure.Area(_kernel.Repair([star], FillRule.NonZero)), 1e-9);
        Assert.Equal(tips + inner, Measure.Area(_kernel.Repair([star], FillRule.Positive)), 1e-9);
        Assert.Empty(_kernel.Repair([Contours.Reverse(star)], FillRule.Positive));
        Assert.Equal(RegionFaultKind.Overlap, _kernel.Faults([Region.From(star)])[0].Kind);
    }

    [Fact]
    public void Exclusive_or_is_both_differences()
    {
        Region[] a = [Box(0, 0, 10, 10)];
        Region[] b = [Region.From(Contours.Circle(new(10, 5), 4))];

        Assert.Equal(100 - (8 * Math.PI) + (8 * Math.PI), Measure.Area(_kernel.ExclusiveOr(a, b)), 1e-9);
    }

    [Fact]
    public void Every_edge_of_a_traced_result_names_the_edge_it_is_a_part_of()
    {
        Region[] a = [Box(0, 0, 30, 20), Box(100, 0, 110, 10)];
        Region[] b = [Region.From(Contours.Circle(new(30, 10), 5))];

        ImmutableArray<TracedRegion> less = _kernel.Trace(RegionOperation.Difference, a, b);

        TracedRegion bitten = less.Single(r => Measure.Bounds(r.Region).MinX < 50);
        ImmutableArray<Segment> edges = bitten.Region.Outer.Segments;
        Assert.Equal(edges.Length, bitten.Sources[0].Length);
        for (int i = 0; i < edges.Length; i++)
        {
            EdgeSource from = bitten.Sources[0][i];
            Assert.Equal(edges[i].IsArc ? 1 : 0, from.Set);
            Segment given = (from.Set == 0 ? a : b)[from.Region].Outer.Segments[from.Segment];
            Assert.Equal(0, Measure.Distance(Measure.PointAt(edges[i], 0.4), given), 1e-9);
        }
        TracedRegion whole = less.Single(r => Measure.Bounds(r.Region).MinX > 50);
        Assert.Equal([0, 1, 2, 3], whole.Sources[0].Select(s => s.Segment).Order());
        Assert.All(whole.Sources[0], s => Assert.Equal((0, 1, 0), (s.Set, s.Region, s.Contour)));
    }
}
