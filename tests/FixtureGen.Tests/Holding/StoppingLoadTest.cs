using FixtureGen.Holding.Magnets;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

public sealed class StoppingLoadTest
{
    // The mean over the slip of a load that is full for the reaction distance r and sqrt(1 - (s - r)/d) after it, by the
    // midpoint rule, apart from the closed form. A steady deceleration from v covers v^2 / 2a: schoolbook kinematics.
    [Theory]
    [InlineData(0, 5, 1.3)]
    [InlineData(0, 2, 1.3)]
    [InlineData(0, 1.3, 1.3)]
    [InlineData(0, 0.8, 1.3)]
    [InlineData(0.4, 2, 1.3)]
    [InlineData(0.4, 0.5, 1.3)]
    [InlineData(1.2, 0, 1.3)]
    [InlineData(1.3, 2, 1.3)]
    [InlineData(3, 2, 1.3)]
    public void Mean_of_the_falling_load_over_the_slip(double reaction, double distance, double slip)
    {
        const int Steps = 200_000;
        double sum = 0;
        for (int i = 0; i < Steps; i++)
        {
            double s = slip * (i + 0.5) / Steps;
            sum += s <= reaction ? 1 : Math.Sqrt(Math.Max(0, 1 - ((s - reaction) / distance)));
        }
        Assert.Equal(sum / Steps, StoppingLoad.Share(reaction, distance, slip, 1), 1e-5);
    }

    [Fact]
    public void A_longer_stop_never_needs_less()
    {
        double last = 0;
        for (double d = 0; d < 20; d += 0.25)
        {
            double share = StoppingLoad.Share(0, d, 1.3, 0.2);
            Assert.InRange(share, last, 1);
            last = share;
        }
    }

    [Fact]
    public void A_slower_reaction_never_needs_less_and_counts_more_than_a_longer_stop()
    {
        double last = 0;
        for (double r = 0; r < 2; r += 0.05)
        {
            double share = StoppingLoad.Share(r, 0.5, 1.3, 0.2);
            Assert.InRange(share, last, 1);
            Assert.InRange(StoppingLoad.Share(0, 0.5 + r, 1.3, 0.2), 0, share);
            last = share;
        }
        Assert.Equal(1, last);
    }

    [Fact]
    public void Rubbing_is_the_floor() => Assert.Equal(0.254, StoppingLoad.Share(0, 0, 1.3, 0.1), 9);

    [Fact]
    public void Slip_costs_a_twentieth_of_the_pull()
    {
        Disc disc = new(6.35, 6.35, 1.3);
        double slip = StoppingLoad.AllowedSlip(disc, 2);
        double kept = FinePair.OffsetN(disc, disc, 2, slip).Pull / MagnetPair.CoaxialN(disc, disc, 2);
        Assert.Equal(0.95, kept, 0.003);
    }
}
