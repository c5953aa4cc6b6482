using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Holding;
using FixtureGen.Holding.Magnets;
using FixtureGen.Model;
using FixtureGen.Solve;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

/// <summary>Places that somebody else chose, against distances read off a plain rounded rectangle.</summary>
public sealed class MagnetClearancesTest
{
    private static readonly Job Job = HeldDesigns.Job();
    private static readonly FixtureDesign Plain = HeldDesigns.Of(HeldDesigns.Plain, Job);
    private static readonly PairOnBlock Pair = HoldingAnalysis.Context(Plain, Job, Tolerances.House).Value!.Pair;

    private static ImmutableArray<ClearanceLack> Lacks(params Point2[] at) =>
        new MagnetClearances(Plain, Job, Pair).Find(at);

    [Fact]
    public void Places_clear_of_everything_lack_nothing() =>
        Assert.Empty(Lacks(new(125, 107), new(125 - Pair.Spacing, 107), new(125 + Pair.Spacing, 107)));

    [Fact]
    public void A_neighbour_too_near_is_named_with_what_is_short()
    {
        Point2 first = new(125, 107);

        ClearanceLack lack = Assert.Single(Lacks(first, new(125 + Pair.Spacing - 1.5, 107)));

        Assert.Equal((1, "its neighbour", first, 0), (lack.Magnet, lack.Against, lack.At, lack.Neighbour));
        Assert.Equal(1.5, lack.ShortBy, 1e-9);
    }

    [Fact]
    public void Pockets_of_neighbours_keep_a_wall_between_them()
    {
        double pocket = Job.Magnet.Diameter + Job.Magnet.DiameterTolerance + Job.Rules.MagnetPocketClearance;

        Assert.Equal(pocket + Job.Rules.Wall, new MagnetRoom(Plain, Job).PocketSpacing, 1e-9);
    }

    // A magnet's diameter from steel: one and a half from the middle, or its pocket and a wall where that is more.
    [Theory]
    [InlineData(FeatureKind.PinSlot, 0)]
    [InlineData(FeatureKind.PinSlot, 10)]
    [InlineData(FeatureKind.PinHole, 0)]
    [InlineData(FeatureKind.Counterbore, 0)]
    public void Steel_keeps_a_magnets_diameter_away(FeatureKind kind, double slot)
    {
        HoleFeature hole = new()
        {
            Name = "pin",
            Kind = kind,
            Setup = Setup.Top,
            At = new(125, 107),
            Diameter = 6,
            TopZ = 20,
            FloorZ = 0,
            SlotLength = slot,
            SlotAngleDeg = 0,
            BreaksThrough = false,
            Opening = null,
            Removals = [],
        };
        MagnetRoom room = new(Plain with { Features = [hole] }, Job);
        double keep = Math.Max((room.PocketSpacing + Job.Rules.Wall) / 2, 1.5 * Job.Magnet.Diameter);

        (double slack, string against) = room.RoomAt(new(125 + 9, 107));

        Assert.Equal("pin", against);
        Assert.Equal(9 - ((6 + slot) / 2) - keep, slack, 1e-9);
        Assert.Equal(hole.At, room.Nearest(new(125 + 9, 107)));
    }

    [Fact]
    public void A_place_in_the_gasket_lacks_what_the_cords_line_takes()
    {
        Contour cord = Assert.Single(Plain.Zones).Boundary.Outer;
        double left = Measure.Bounds(cord).MinX;
        double keep =
            (Job.Gasket.GrooveWidth / 2)
            + Job.Rules.Wall
            + ((Job.Magnet.Diameter + Job.Magnet.DiameterTolerance + Job.Rules.MagnetPocketClearance) / 2);
        (double way, string against) = new MagnetRoom(Plain, Job).RoomAt(new(left + 2, 107));

        ClearanceLack lack = Assert.Single(Lacks(new Point2(left + 2, 107)));

        Assert.Equal(-way, lack.ShortBy, 1e-12);
        Assert.Equal(against, lack.Against);
        Assert.Null(lack.Neighbour);
        Assert.True(lack.ShortBy >= keep - 2 - 1e-9);
        Assert.Equal(107, lack.At.Y, 1e-9);
    }
}
