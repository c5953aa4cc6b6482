using FixtureGen.Cutting;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

public sealed class PassesTest
{
    private static readonly Job Job = DemoShop.Job(DemoShop.PlainJob());

    [Theory]
    [InlineData(6, 2, 3)]
    [InlineData(6.1, 2, 4)]
    [InlineData(5.9, 2, 3)]
    [InlineData(1, 2, 1)]
    [InlineData(0, 2, 1)]
    public void As_few_equal_passes_as_the_step_down_allows(double depth, double stepDown, int passes) =>
        Assert.Equal(passes, Passes.Count(depth, stepDown));

    [Fact]
    public void Passes_are_equal_and_the_last_is_exactly_the_floor() =>
        Assert.Equal([3.0, 1.0, -1.0], Passes.Down(5, -1, 2.5));

    [Fact]
    public void The_last_pass_through_the_shell_goes_on_into_the_relief() =>
        Assert.Equal([1.0, 2.0, 3.5], TrimFeeds.Depths(3, 0.5, 1.2));

    [Fact]
    public void A_trim_pass_takes_an_equal_share_of_the_thickest_shell()
    {
        Job thick = Job with { Shell = Job.Shell with { ThicknessMax = 3.3 } };
        CutData data = TrimFeeds.For(thick, thick.TrimTool) with { StepDown = 1.2 };

        Assert.Equal(1.1, TrimFeeds.PassDepth(thick, data), 1e-12);
    }
}
