using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>Floors of the carved block: what is left over the plate's face and between pockets from both sides, whatever the design says.</summary>
public sealed class FloorTest
{
    private static readonly Job Job = TestShop.Job(TestShop.EndMill(1, 6));

    [Theory]
    [InlineData(17, false)]
    [InlineData(3, false)]
    [InlineData(2.9, true)]
    [InlineData(0.5, true)]
    public void A_design_that_leaves_too_thin_a_floor_is_told(double floor, bool thin)
    {
        FixtureDesign design = TestShop.Design(Pocket(Setup.Top, 20, floor));
        string text = Text(floor);
        VerifyResult result = TestShop.Judge(Job, design, text);
        Assert.DoesNotContain(
            result.Findings.Select(f => f.Code),
            c => c.StartsWith("gouge", StringComparison.Ordinal)
        );
        Assert.Equal(thin, result.Findings.Any(f => f.Code == "floor-left"));
        if (thin)
        {
            Slip.Found(result, text, 0, "floor-left", FormattableString.Invariant($"G1 X40. Z{floor:0.0##}"));
            string amount = FormattableString.Invariant($"{floor:0.###} mm of floor are left at ");
            Assert.All(
                result.Findings.Where(f => f is { Code: "floor-left", Line: not null }),
                f => Assert.StartsWith(amount, f.Message, StringComparison.Ordinal)
            );
        }
    }

    /// <summary>A pocket down to Z 17 over a channel of the underside whose ceiling is Z 15: 2 mm between them.</summary>
    [Fact]
    [Trait("Speed", "Slow")]
    public void A_pocket_over_a_channel_from_below_keeps_a_floor_too()
    {
        FixtureDesign design = TestShop.Design(Pocket(Setup.Top, 20, 17), Pocket(Setup.Underside, 15, 0));
        string text = Text(17);
        Slip.Found(TestShop.Judge(Job, design, text), text, 0, "floor-left", "G1 X40. Z17.0");
        FixtureDesign lower = TestShop.Design(Pocket(Setup.Top, 20, 17), Pocket(Setup.Underside, 13.5, 0));
        Assert.DoesNotContain("floor-left", TestShop.Judge(Job, lower, text).Findings.Select(f => f.Code));
    }

    /// <summary>A floor of just the least thickness is nobody's fault: the motion that goes deeper there is told.</summary>
    [Fact]
    public void The_motion_that_thins_the_floor_is_told_not_the_one_before()
    {
        string text = Text(3).Replace("G1 X60. Y50.", "G1 X60. Y50. Z2.5", StringComparison.Ordinal);
        FixtureDesign design = TestShop.Design(Pocket(Setup.Top, 20, 3));
        int line = Array.IndexOf(text.Split('\n'), "G1 X60. Y50. Z2.5") + 1;
        VerifyResult result = TestShop.Judge(Job, design, text);
        Finding[] thin = [.. result.Findings.Where(f => f.Code == "floor-left" && f.Line is not null)];
        Assert.NotEmpty(thin);
        Assert.All(thin, f => Assert.True(f.Line >= line, f.Where));
    }

    private static Feature Pocket(Setup setup, double top, double floor) =>
        TestShop.Pocket("pocket", FeatureKind.Relief, setup, TestShop.Rounded(30, 40, 70, 60, 4), top, floor);

    private static string Text(double floor) =>
        TestShop.Program(
            PocketTest.Rings.Replace("Z17.", FormattableString.Invariant($"Z{floor:0.0##}"), StringComparison.Ordinal)
        );
}
