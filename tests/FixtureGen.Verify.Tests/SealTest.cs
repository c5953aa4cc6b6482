using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>The plate's seal runs X 20..80, Y 20..80: what opens the block inside it lets go the vacuum that holds it.</summary>
public sealed class SealTest
{
    private static readonly Job Job = TestShop.Job(TestShop.Cone(1, ToolKind.Drill, 6, 118, 0));

    [Theory]
    [InlineData("", 50, 50, 2.5, true)]
    [InlineData("M5 M9\n(PUT THE BOLTS IN)\nM0\nS8000 M3 M8\n", 50, 50, 2.5, false)]
    [InlineData("M5 M9\n(CLEAN THE PLATE)\nM0\nS8000 M3 M8\n", 50, 50, 2.5, true)]
    [InlineData("M5 M9\n(PUT THE BOLTS IN)\nM1\nS8000 M3 M8\n", 50, 50, 2.5, true)]
    [InlineData("", 50, 50, 0.1, false)]
    [InlineData("", 10, 10, 2.5, false)]
    [InlineData("", 16.9, 50, 5, false)]
    [InlineData("", 17.1, 50, 5, true)]
    [InlineData("", 83.1, 50, 5, false)]
    [InlineData("", 82.9, 50, 5, true)]
    public void Only_bolts_hold_a_block_that_is_opened_inside_the_seal(
        string stop,
        double x,
        double y,
        double below,
        bool told
    )
    {
        double z = below == 0.1 ? below : -below;
        string drill = FormattableString.Invariant($"G0 X{x:0.0##} Y{y:0.0##}\nG0 Z21.\nG1 Z{z:0.0##}");
        string text = TestShop.Program(stop + drill);
        VerifyResult result = TestShop.Judge(Job, TestShop.Design(), text);
        Assert.Equal(told, result.Findings.Any(f => f.Code == "bolts-not-fitted"));
        if (told)
        {
            Slip.Found(result, text, 0, "bolts-not-fitted", FormattableString.Invariant($"G1 Z{z:0.0##}"));
        }
    }

    /// <summary>Only the first hole that opens the seal is told: what comes after it is no news.</summary>
    [Fact]
    public void The_first_hole_is_told_once()
    {
        string text = TestShop.Program("G0 X40. Y50.\nG0 Z21.\nG1 Z-3.\nG0 Z21.\nG0 X60.\nG1 Z-3.");
        Assert.Single(TestShop.Judge(Job, TestShop.Design(), text).Findings, f => f.Code == "bolts-not-fitted");
    }

    /// <summary>A channel from below opens where a pocket from above meets it, though the pocket's floor is far from the plate.</summary>
    [Theory]
    [InlineData(8, 7.5, true)]
    [InlineData(8, 10, false)]
    public void A_channel_below_is_opened_from_above(double ceiling, double z, bool told)
    {
        FixtureDesign design = TestShop.Design(
            TestShop.Pocket(
                "channel",
                FeatureKind.Channel,
                Setup.Underside,
                TestShop.Rectangle(40, 40, 60, 60),
                ceiling,
                0
            )
        );
        string text = TestShop.Program(FormattableString.Invariant($"G0 X50. Y50.\nG0 Z21.\nG1 Z{z:0.0##}"));
        VerifyResult result = TestShop.Judge(Job, design, text);
        Assert.Equal(told, result.Findings.Any(f => f.Code == "bolts-not-fitted"));
    }
}
