using FixtureGen.Holding.Magnets;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

public sealed class DiscTest
{
    private static readonly Job Job = DemoShop.Job(DemoShop.PlainJob());

    private static readonly MagnetSpec Spec = Job.Magnet with
    {
        Diameter = 10,
        DiameterTolerance = 0.2,
        Thickness = 3,
        BrMinT = 1.2,
        BrMaxT = 1.3,
        Plating = 0.02,
    };

    // 0.12 % per kelvin: 30 K are 3.6 %.
    [Theory]
    [InlineData(20, 1.2)]
    [InlineData(50, 1.2 * 0.964)]
    [InlineData(0, 1.2)]
    public void The_weakest_disc_is_small_and_warm(double celsius, double tesla)
    {
        Disc disc = Disc.Weakest(Spec, celsius);

        Assert.Equal((4.9, 3), (disc.Radius, disc.Thickness));
        Assert.Equal(tesla, disc.RemanenceT, 1e-12);
    }

    [Fact]
    public void The_strongest_disc_is_large_and_cold() => Assert.Equal(new Disc(5.1, 3, 1.3), Disc.Strongest(Spec));

    [Fact]
    public void The_gap_is_all_that_lies_between_a_pairs_faces()
    {
        Job job = Job with
        {
            Magnet = Spec with { JacketFloor = 0.8 },
            Shell = Job.Shell with { ThicknessMax = 3.3 },
            Rules = Job.Rules with { MagnetRecess = 0.3, MagnetGlue = 0.1 },
        };

        Assert.Equal(3.3 + 0.3 + 0.1 + 0.02 + 0.02 + 0.8, new PairOnBlock(job).Gap, 1e-12);
    }
}
