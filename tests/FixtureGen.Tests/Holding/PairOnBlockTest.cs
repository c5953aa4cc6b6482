using FixtureGen.Holding.Magnets;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

/// <summary>A pair as it sits on the block: its gap, and what a neighbour does to it.</summary>
public sealed class PairOnBlockTest
{
    private static readonly Job Shop = HeldDesigns.Job();
    private static readonly PairOnBlock Pair = new(Shop);
    private static readonly Disc Weakest = Disc.Weakest(Shop.Magnet, PairOnBlock.WorkTemperatureC);

    [Fact]
    public void The_gap_is_all_that_lies_between_the_discs()
    {
        Job job = Shop with
        {
            Shell = Shop.Shell with { ThicknessMax = 1.7 },
            Rules = Shop.Rules with { MagnetRecess = 0.3, MagnetGlue = 0.1 },
            Magnet = Shop.Magnet with { Plating = 0.02, JacketFloor = 0.5 },
        };
        Assert.Equal(1.7 + 0.3 + 0.1 + 0.04 + 0.5, new PairOnBlock(job).Gap, 12);
    }

    [Fact]
    public void The_slip_that_costs_a_twentieth_is_that_over_the_thinnest_shell()
    {
        double thinnest = Pair.Gap - Shop.Shell.ThicknessMax + Shop.Shell.ThicknessMin;
        double aligned = FinePair.OffsetN(Weakest, Weakest, thinnest, 0).Pull;
        Assert.Equal(0.95 * aligned, FinePair.OffsetN(Weakest, Weakest, thinnest, Pair.Slip).Pull, 2e-3 * aligned);
    }

    [Fact]
    public void A_pair_dragged_aside_keeps_what_the_integral_leaves_it_and_never_more_than_at_the_slip()
    {
        double aligned = FinePair.OffsetN(Weakest, Weakest, Pair.Gap, 0).Pull;
        Assert.Equal(0.95, Pair.KeptAt(0), 12);
        Assert.Equal(0.95, Pair.KeptAt(Pair.Slip), 12);
        double aside = 3 * Pair.Slip;
        Assert.Equal(FinePair.OffsetN(Weakest, Weakest, Pair.Gap, aside).Pull / aligned, Pair.KeptAt(aside), 5e-3);
        Assert.True(Pair.KeptAt(4 * Pair.Slip) < Pair.KeptAt(aside));
    }

    // The field of one disc integrated over the other's faces, finely; the table between answers for any distance.
    [Fact]
    public void A_neighbours_pull_is_that_of_a_disc_aside()
    {
        for (double apart = Pair.Spacing; apart < 100; apart *= 1.037)
        {
            double pull = MagnetPair.Derating * FinePair.OffsetN(Weakest, Weakest, Pair.Gap, apart).Pull;
            Assert.Equal(pull, Pair.NeighbourN(apart), 0.01 * Math.Abs(pull));
        }
    }

    // Two dipoles m = Br V / mu0 upright, x apart and z over each other: F = -3 mu0 m^2 z (3 - 5 z^2 / R^2) / (4 pi R^5) towards each
    // other (Jackson, Classical Electrodynamics, ch. 5). At twelve radii a disc is one to a few percent.
    [Fact]
    public void Far_off_a_neighbour_is_a_dipole()
    {
        const double vacuumPermeability = 4e-7 * Math.PI;
        foreach (double apart in new[] { 90.0, 120, 150 })
        {
            double volume = Math.PI * Weakest.Radius * Weakest.Radius * Weakest.Thickness * 1e-9;
            double moment = Weakest.RemanenceT * volume / vacuumPermeability;
            double z = (Pair.Gap + Weakest.Thickness) * 1e-3;
            double r = Math.Sqrt((apart * apart * 1e-6) + (z * z));
            double apartForce =
                3
                * vacuumPermeability
                * moment
                * moment
                * z
                * (3 - (5 * z * z / (r * r)))
                / (4 * Math.PI * Math.Pow(r, 5));
            Assert.Equal(-MagnetPair.Derating * apartForce, Pair.NeighbourN(apart), 0.02 * apartForce);
        }
        Assert.Equal(0, Pair.NeighbourN(160));
    }

    [Fact]
    public void Each_magnets_share_is_its_own_pull_and_what_every_neighbour_adds()
    {
        Point2[] at = [new(0, 0), new(35, 0), new(0, 50)];
        double own = Pair.PullN(0);
        double a = Pair.NeighbourN(35);
        double b = Pair.NeighbourN(50);
        double c = Pair.NeighbourN(Math.Sqrt((35 * 35) + (50 * 50)));
        double[] shares = Pair.SharesN(at);
        Assert.Equal([own + a + b, own + a + c, own + b + c], shares, Near);
        Assert.Equal([own], Pair.SharesN([new(3, 4)]));
    }

    private static bool Near(double a, double b) => Math.Abs(a - b) < 1e-12;

    // Steps of half a millimetre: one step nearer one of the conditions does not hold.
    [Fact]
    public void Neighbours_stand_as_near_as_drag_and_loss_allow()
    {
        double least = Shop.Magnet.JacketDiameter + 2;
        Assert.True(Pair.Spacing >= least);
        Assert.True(Allowed(Pair, Weakest, Pair.Spacing));
        Assert.True(Pair.Spacing == least || !Allowed(Pair, Weakest, Pair.Spacing - 0.5));
    }

    // The tallest and widest disc a shop file may name needs more than 80 mm under a thick shell, and the table goes on from there.
    [Theory]
    [InlineData(60, 60, 10)]
    [InlineData(60, 20, 10)]
    [InlineData(1, 0.5, 10)]
    [InlineData(1, 60, 0)]
    public void Pairs_at_the_ends_of_their_ranges_keep_the_rule_too(double diameter, double thickness, double floor)
    {
        MagnetSpec spec = Shop.Magnet with
        {
            Diameter = diameter,
            Thickness = thickness,
            JacketDiameter = diameter + 2,
            JacketFloor = floor,
        };
        PairOnBlock pair = new(Shop with { Magnet = spec, Shell = Shop.Shell with { ThicknessMax = 12 } });
        Disc disc = Disc.Weakest(spec, PairOnBlock.WorkTemperatureC);
        Assert.True(Allowed(pair, disc, pair.Spacing));
        foreach (double more in new[] { 1.0, 1.1, 1.4, 1.9 })
        {
            double pull = MagnetPair.Derating * FinePair.OffsetN(disc, disc, pair.Gap, more * pair.Spacing).Pull;
            Assert.Equal(pull, pair.NeighbourN(more * pair.Spacing), 1e-3 * pair.PullN(0));
        }
    }

    private static bool Allowed(PairOnBlock pair, Disc disc, double apart)
    {
        double own = pair.PullN(0);
        double jackets = Math.Abs(FinePair.OffsetN(disc, disc, -disc.Thickness, apart).Sideways);
        (double pull, double side) = FinePair.OffsetN(disc, disc, pair.Gap, apart);
        return jackets <= 0.2 * own && Math.Abs(side) <= 0.2 * own && -MagnetPair.Derating * pull <= 0.1 * own;
    }
}
