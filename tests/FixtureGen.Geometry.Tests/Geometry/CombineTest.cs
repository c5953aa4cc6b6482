using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Geometry;

/// <summary>Areas by the formulas of square, circle and lens (circular segment: r2/2 (a - sin a)).</summary>
public sealed class CombineTest
{
    private readonly Kernel _kernel = new(Tolerances.House);

    private static Region Disc(double x, double y, double r) => Region.From(Contours.Circle(new(x, y), r));

    private static Region Box(double x0, double y0, double x1, double y1) =>
        Region.From(Contours.Rectangle(new(x0, y0, x1, y1)));

    [Fact]
    public void Two_discs_make_a_lens()
    {
        double angle = 2 * Math.Acos(6.0 / 10);
        double lens = 100 * (angle - Math.Sin(angle));

        Assert.Equal(lens, Measure.Area(_kernel.Intersect([Disc(0, 0, 10)], [Disc(12, 0, 10)])), 1e-9);
        Assert.Equal((200 * Math.PI) - lens, Measure.Area(_kernel.Union([Disc(0, 0, 10)], [Disc(12, 0, 10)])), 1e-9);
        Assert.Equal(
            (100 * Math.PI) - lens,
            Measure.Area(_kernel.Difference([Disc(0, 0, 10)], [Disc(12, 0, 10)])),
            1e-9
        );
    }

    [Fact]
    public void A_disc_inside_becomes_a_hole()
    {
        var ring = _kernel.Difference([Disc(0, 0, 10)], [Disc(1, 1, 5)]);

        Assert.Single(Assert.Single(ring).Holes);
        Assert.Equal(75 * Math.PI, Measure.Area(ring), 1e-9);
        Assert.Empty(_kernel.Difference([Disc(1, 1, 5)], [Disc(0, 0, 10)]));
    }

    // Rings of 30 to 20 and 15 to 10 about one middle, in either order: neither takes the other's hole.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_ring_in_a_ring_keeps_its_own_hole(bool smallFirst)
    {
        Region large = new(Contours.Circle(default, 30), [Contours.Cw(Contours.Circle(default, 20))]);
        Region small = new(Contours.Circle(default, 15), [Contours.Cw(Contours.Circle(default, 10))]);

        Region[] grown = [.. _kernel.Offset(smallFirst ? [small, large] : [large, small], 1)];
        Region[] joined = [.. smallFirst ? _kernel.Union([small], [large]) : _kernel.Union([large], [small])];

        double[] growths = [(31 * 31) - (19 * 19), (16 * 16) - (9 * 9)];
        Assert.Equal(growths.Select(a => a * Math.PI), grown.Select(r => Measure.Area(r)).OrderDescending(), Near);
        Assert.Equal([500 * Math.PI, 125 * Math.PI], joined.Select(r => Measure.Area(r)).OrderDescending(), Near);
        Assert.All(grown.Concat(joined), r => Assert.Single(r.Holes));

        static bool Near(double a, double b) => Math.Abs(a - b) < 1e-9;
    }

    // At a common corner the way on is the leftmost one, so what only touches there stays apart.
    [Fact]
    public void Squares_that_touch_at_a_corner_stay_two()
    {
        var joined = _kernel.Union([Box(0, 0, 10, 10)], [Box(10, 10, 20, 20)]);
        var left = _kernel.Difference([Box(0, 0, 20, 20)], [Box(0, 10, 10, 20), Box(10, 0, 20, 10)]);

        foreach (var two in new[] { joined, left })
        {
            Assert.Equal(2, two.Length);
            Assert.All(two, r => Assert.Equal(100, Measure.Area(r), 1e-9));
            Assert.All(two, r => Assert.Equal(4, r.Outer.Segments.Length));
        }
    }

    // A kite of diagonals 10 and 4 whose corners beside lie on the square's side: half of it is inside.
    [Fact]
    public void Sides_that_cross_just_at_a_corner_are_cut_there()
    {
        Region kite = Region.From(Contours.FromPoints([new(5, 5), new(10, 3), new(15, 5), new(10, 7)]));

        Assert.Equal(10, Measure.Area(_kernel.Intersect([Box(0, 0, 10, 10)], [kite])), 1e-9);
        Assert.Equal(110, Measure.Area(_kernel.Union([Box(0, 0, 10, 10)], [kite])), 1e-9);
        Assert.Equal(90, Measure.Area(_kernel.Difference([Box(0, 0, 10, 10)], [kite])), 1e-9);
        Assert.Empty(_kernel.Repairs);
    }

    [Fact]
    public void Shared_edges_vanish_in_a_union()
    {
        var joined = _kernel.Union([Box(0, 0, 10, 10)], [Box(10, 2, 20, 8)]);

        Assert.Equal(160, Measure.Area(joined), 1e-9);
        Assert.Empty(Assert.Single(joined).Holes);
        Assert.Empty(_kernel.Intersect([Box(0, 0, 10, 10)], [Box(10, 2, 20, 8)]));
    }

    [Fact]
    public void The_same_shape_twice_is_itself()
    {
        Region slot = Region.From(Contours.Slot(new(3, 4), new(33, 14), 5));

        Assert.Equal(Measure.Area(slot), Measure.Area(_kernel.Union([slot], [slot])), 1e-9);
        Assert.Equal(Measure.Area(slot), Measure.Area(_kernel.Intersect([slot], [slot])), 1e-9);
        Assert.Empty(_kernel.Difference([slot], [slot]));
    }

    [Fact]
    public void Overlapping_regions_are_united_all_at_once()
    {
        Region[] row = [.. Enumerable.Range(0, 10).Select(i => Box(i * 8, 0, (i * 8) + 10, 10))];

        Assert.Equal(82 * 10, Measure.Area(_kernel.UnionAll(row)), 1e-9);
    }

    [Fact]
    public void Nothing_with_nothing_is_nothing_also_after_something()
    {
        Assert.Single(_kernel.Union([Box(0, 0, 1, 1)], []));
        Assert.Empty(_kernel.Union([], []));
        Assert.Empty(_kernel.UnionAll([]));
    }

    [Fact]
    public void A_disc_cut_along_its_own_edge_leaves_the_other_half()
    {
        var half = _kernel.Difference([Disc(0, 0, 10)], [Box(-10, 0, 10, 10)]);

        Assert.Equal(50 * Math.PI, Measure.Area(half), 1e-9);
    }
}
