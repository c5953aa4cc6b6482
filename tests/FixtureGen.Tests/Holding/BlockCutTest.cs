using FixtureGen.Holding;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

/// <summary>The cutting load stands where the tool cuts, and nowhere else.</summary>
public sealed class BlockCutTest
{
    [Fact]
    public void A_flat_arc_of_ten_metres_radius_loads_its_own_ends_only()
    {
        Point2[] places = BlockCut.Places(
            Cut(new(0, 0, 18), new ArcMove(new(40, 0, 18), new(20, -10_000), false, 900))
        );

        Assert.All(places, p => Assert.InRange(p.DistanceTo(new(20, 0)), 0, 21));
    }

    [Fact]
    public void A_half_turn_loads_its_far_side_and_a_full_turn_all_four()
    {
        Point2[] half = BlockCut.Places(Cut(new(-5, 0, 18), new ArcMove(new(5, 0, 18), new(0, 0), false, 900)));
        Point2[] full = BlockCut.Places(Cut(new(5, 0, 18), new ArcMove(new(5, 0, 18), new(0, 0), true, 900)));

        Assert.Contains(half, p => p.DistanceTo(new(0, 5)) < 1e-9);
        Assert.DoesNotContain(half, p => p.DistanceTo(new(0, -5)) < 1e-9);
        Assert.All(
            new Point2[] { new(5, 0), new(0, 5), new(-5, 0), new(0, -5) },
            far => Assert.Contains(full, p => p.DistanceTo(far) < 1e-9)
        );
    }

    private static Operation Cut(Point3 from, Move move) =>
        new(
            "relief",
            OperationKind.Clear,
            DemoShop.Job(DemoShop.PlainJob()).TrimTool,
            18_000,
            900,
            300,
            1,
            1,
            "",
            [],
            false,
            [new RapidMove(from), move]
        );
}
