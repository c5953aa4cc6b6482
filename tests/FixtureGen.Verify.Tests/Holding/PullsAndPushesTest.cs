using FixtureGen.Model;
using FixtureGen.Verify.Holding;
using FixtureGen.Verify.Tests.Support;
using Xunit;

namespace FixtureGen.Verify.Tests.Holding;

/// <summary>Magnets, cords and vacuum as the judge has them for itself, against published and worked values.</summary>
public sealed class PullsAndPushesTest
{
    // Abramowitz and Stegun, table 9.1
    [Theory]
    [InlineData(0, 1, 0)]
    [InlineData(1, 0.7651976866, 0.4400505857)]
    [InlineData(2.4, 0.0025076833, 0.5201852682)]
    [InlineData(5, -0.1775967713, -0.3275791376)]
    [InlineData(10, -0.2459357645, 0.0434727462)]
    public void Bessel_functions(double x, double j0, double j1)
    {
        Assert.Equal(j0, Bessel.J0(x), 1e-7);
        Assert.Equal(j1, Bessel.J1(x), 1e-7);
    }

    // equal discs of Br 1.3 T: integration of surface charges, agreeing with the closed form to 1e-4 N
    [Theory]
    [InlineData(6.35, 6.35, 0.5, 40.8289)]
    [InlineData(6.35, 6.35, 1, 33.6565)]
    [InlineData(6.35, 6.35, 2, 24.2867)]
    [InlineData(6.35, 6.35, 3, 18.2179)]
    [InlineData(6.35, 6.35, 6, 8.6002)]
    [InlineData(6.35, 6.35, 10, 3.6819)]
    [InlineData(5, 5, 1, 18.9990)]
    [InlineData(5, 5, 4, 6.6250)]
    [InlineData(5, 3, 2, 7.8978)]
    [InlineData(3.175, 6.35, 2, 5.5027)]
    public void Coaxial_discs(double radius, double thickness, double gap, double force) =>
        Assert.Equal(force, new DiscPair(radius, thickness, 1.3).ForceN(gap, 0), 0.002 * force);

    // Robertson, Cazzolato and Zander, IEEE Trans. Magn. 47(8), 2011: 20 x 40 mm, centres 50 mm apart, Br 1.3 T
    [Fact]
    public void A_published_pair() => Assert.Equal(265.537, new DiscPair(20, 40, 1.3).ForceN(10, 0), 0.3);

    [Theory]
    [InlineData(0.5, 24.095)]
    [InlineData(1, 23.541)]
    [InlineData(2, 21.587)]
    [InlineData(3, 18.935)]
    [InlineData(6.35, 8.948)]
    public void Discs_pushed_aside(double aside, double force) =>
        Assert.Equal(force, new DiscPair(6.35, 6.35, 1.3).ForceN(2, aside), 0.003 * force);

    /// <summary>Far aside the charges on rings and the integral are one and the same force.</summary>
    [Theory]
    [InlineData(20)]
    [InlineData(30)]
    public void A_neighbour_by_two_ways(double aside)
    {
        DiscPair pair = new(6.35, 6.35, 1.3);
        double byIntegral = 0.85 * pair.ForceN(6, aside);
        Assert.True(byIntegral < 0);
        Assert.Equal(byIntegral, pair.NeighbourN(6, aside), 0.03 * Math.Abs(byIntegral));
    }

    // solid 1/8 in cord at a quarter: 30 to 70 Shore A in lbf/in (Lindley 1967, Gent 1958); 0.175127 N/mm each
    [Theory]
    [InlineData(30, 3.5)]
    [InlineData(40, 5.2)]
    [InlineData(50, 7.5)]
    [InlineData(60, 11.0)]
    [InlineData(70, 16.9)]
    public void Solid_cord(double shoreA, double pounds) =>
        Assert.Equal(
            pounds,
            new CordPush(CordKind.Solid, 3.175, 0.75 * 3.175, shoreA, 0).NPerMm(0) / 0.175127,
            0.01 * pounds + 0.05
        );

    // ASTM D1056 grade 2, 1/8 in at 25 %: 5 to 9 psi times the section
    [Fact]
    public void Sponge_cord_at_its_grade()
    {
        CordPush hard = new(CordKind.Sponge, 3.175, 0.75 * 3.175, 0, 62.05);
        Assert.Equal(1.125, hard.NPerMm(0) / 0.175127, 0.002);
        Assert.Equal(0, hard.NPerMm(0.8));
    }

    /// <summary>The ends of the range: 3.2 mm in 2.0 deep against 2.8 in 2.2.</summary>
    [Fact]
    public void Hardest_and_softest_cord()
    {
        Gasket cord = TestShop.Job().Gasket with { GrooveDepthTolerance = 0.1 };
        Assert.Equal(3.2 - 1.9, CordPush.Hardest(cord).Reach, 1e-9);
        Assert.Equal(2.8 - 2.1, CordPush.Softest(cord).Reach, 1e-9);
        double hard = 0.06 * 3.2 * 3 * (1.3 / 3.2) / (1 - (1.3 / 3.2));
        Assert.Equal(hard, CordPush.Hardest(cord).NPerMm(0), 1e-9);
    }

    // ISO 2533:1975: 0, 500, 1000, 1500, 2000, 3000 m
    [Theory]
    [InlineData(0, 101.325)]
    [InlineData(500, 95.4613)]
    [InlineData(1000, 89.8763)]
    [InlineData(1500, 84.5597)]
    [InlineData(2000, 79.5014)]
    [InlineData(3000, 70.1212)]
    public void The_atmosphere(double metres, double kPa) => Assert.Equal(kPa, VacuumAt.Atmosphere(metres), 0.001);

    [Fact]
    public void The_level_is_the_alarms_lower_end_or_what_there_is()
    {
        VacuumSupply supply = new(0, 85, 60, 100, 0) { AlarmToleranceKPa = 2 };
        Assert.Equal(58, VacuumAt.Least(supply));
        Assert.Equal(30, VacuumAt.Least(supply with { PumpRatedKPa = 30 }), 1e-9);
        double leaks = VacuumAt.Least(supply with { LeakHoleMm = 3 });
        Assert.InRange(leaks, 1, 57.9);
        Assert.True(VacuumAt.Least(supply with { LeakHoleMm = 4 }) < leaks);
    }

    /// <summary>2/3 where the feed-hold distance is the slip and the switch takes no time; all of it where it takes longer than the slip.</summary>
    [Fact]
    public void What_is_left_while_the_machine_stops()
    {
        Machine machine = TestShop.Plate.Machine with { FeedHoldDistance = 2 };
        Assert.Equal(2.0 / 3, new StoppingShare(machine, 2).Left(1000, 0.1), 1e-9);
        Assert.Equal(1, new StoppingShare(machine, 2).Left(1000, 0.02), 1e-9);
        Assert.Equal(1, new StoppingShare(machine with { VacuumReactionSeconds = 1 }, 2).Left(1000, 0.1), 1e-9);
    }
}
