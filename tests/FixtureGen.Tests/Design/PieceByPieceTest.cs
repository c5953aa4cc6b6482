using FixtureGen.Design.Seals;
using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Design;

public sealed class PieceByPieceTest
{
    private const double Radius = 11.5;
    private const double Between = 7;

    private static readonly OwnLoops.Measures Spacing = new(
        Keep: 5,
        Radius,
        Between,
        Passage: 7,
        Reach: 25,
        HalfGroove: 2,
        Port: 7
    );

    /// <summary>A web of 8 mm cannot be rounded at both ends by discs of 11.5 mm, and no cord has to go round it.</summary>
    [Fact]
    public void A_web_between_two_pieces_may_be_as_narrow_as_two_grooves_allow()
    {
        Region[] room = [Rectangle(0, 40), Rectangle(48, 88)];

        BendRadius.Rounded rounded = Round(room);

        double each = (40 * 30) - ((4 - Math.PI) * Radius * Radius);
        Assert.Equal(2, rounded.Zone.Length);
        Assert.Empty(rounded.Sharp);
        Assert.Equal(2 * each, rounded.Zone.Sum(Measure.Area), 0.1);
    }

    /// <summary>The larger keeps all of its room, the smaller gives what is missing of the spacing.</summary>
    [Fact]
    public void Pieces_nearer_than_two_grooves_are_set_apart()
    {
        Region[] room = [Rectangle(0, 41), Rectangle(45, 85)];

        BendRadius.Rounded rounded = Round(room);

        Assert.Equal(2, rounded.Zone.Length);
        Assert.Equal((41 * 30) - ((4 - Math.PI) * Radius * Radius), Measure.Area(rounded.Zone[0]), 0.1);
        double apart = NtsShape.Of([rounded.Zone[0]]).Distance(NtsShape.Of([rounded.Zone[1]]));
        Assert.Equal(Between, apart, 0.01);
        Assert.Equal(85, Measure.Bounds(rounded.Zone[1].Outer).MaxX, 0.001);
    }

    /// <summary>Three holes about a small one and a form: three places for a loop, none of which can go round another.</summary>
    [Fact]
    [Trait("Speed", "Slow")]
    public void A_tray_with_three_places_for_a_loop_has_three_zones()
    {
        Part part = DesignBench.Rectangle(
            130,
            80,
            4,
            Contours.Circle(new(30, 40), 18),
            Contours.Circle(new(95, 20), 6),
            Contours.Circle(new(95, 60), 6),
            Contours.Circle(new(75, 40), 2)
        );

        FixtureDesign design = DesignBench.Begun(part);

        Assert.Equal(3, design.Zones.Length);
        ZonesTest.BothSides(design, DesignBench.BendRadius(DesignBench.Job) - 0.01);
    }

    /// <summary>
    /// Three discs of obstacle hang on each other by three thin bars that meet off their middle. Whichever comes first, what is
    /// left is no less than strips along two sides of their triangle would leave at best.
    /// </summary>
    [Theory]
    [InlineData(0)]
    [InlineData(1)]
    [InlineData(2)]
    public void Obstacles_are_bridged_by_the_way_that_leaves_the_largest_zone(int first)
    {
        Point2[] at = [new(0, 0), new(90, 0), new(60, 50)];
        Point2[] turned = [.. at[first..], .. at[..first]];
        Kernel kernel = new(Tolerances.House);
        Region[] bars =
        [
            .. turned.Select(p => Region.From(Contours.Circle(p, 15))),
            .. turned.Select(p => Region.From(Contours.Slot(p, new(45, 10), 1))),
        ];
        Region frame = Region.From(Contours.Rectangle(new Box2(-90, -90, 160, 140)));
        Region[] room = [.. kernel.Difference([frame], kernel.UnionAll(bars)).Where(r => r.Holes.Length > 0)];

        BendRadius.Rounded rounded = BendRadius.Both(room, bars, Spacing.Keep, Radius, kernel);

        double best = Enumerable
            .Range(0, 3)
            .Max(corner =>
            {
                Point2[] from = [at[corner], at[corner]];
                Point2[] to = [at[(corner + 1) % 3], at[(corner + 2) % 3]];
                Region[] strips = [.. from.Zip(to, (a, b) => Region.From(Contours.Slot(a, b, Radius)))];
                return Outside(kernel.Open(kernel.Difference(room, strips), Radius));
            });
        Assert.Empty(rounded.Sharp);
        Assert.InRange(Outside(rounded.Zone), best * (1 - 1e-4), double.MaxValue);
    }

    private static double Outside(IEnumerable<Region> zone) => zone.Where(r => r.Holes.Length > 0).Sum(Measure.Area);

    private static BendRadius.Rounded Round(Region[] room) =>
        PieceByPiece.Round(room, [], Spacing, new Kernel(Tolerances.House));

    private static Region Rectangle(double fromX, double toX) =>
        Region.From(Contours.Rectangle(new Box2(fromX, 0, toX, 30)));
}
