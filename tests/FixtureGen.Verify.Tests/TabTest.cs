using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>Two bridges in the trim, 0.5 mm thick, in the left and the far side: up to each within 5 mm, down again over 10 mm.</summary>
public sealed class TabTest
{
    private static FixtureDesign Design { get; } =
        TrimShop.Tabbed with
        {
            TrimCuts =
            [
                TrimShop.Tabbed.TrimCuts[0] with
                {
                    Tabs = [TrimShop.Tabbed.TrimCuts[0].Tabs[0], new Tab(65.4, 4)],
                },
            ],
        };

    private static string Good { get; } =
        TrimShop.Program(
            TrimShop
                .Once.Replace(
                    "G1 Y65.",
                    "G1 Y40.\nG1 Y45. Z18.5\nG1 Y54.\nG1 Y64. Z17.5\nG1 Y65.",
                    StringComparison.Ordinal
                )
                .Replace("G1 X65.", "G1 X40.\nG1 X45. Z18.5\nG1 X54.\nG1 X64. Z17.5\nG1 X65.", StringComparison.Ordinal)
        );

    [Fact]
    public void Two_bridges_approached_and_left_alike_pass() => Slip.Nothing(Judge(Good));

    [Theory]
    [InlineData("tab-ramp", "G1 X45. Z18.5", "G1 X42. Z18.5")]
    [InlineData("tab-ramp", "G1 X40.\n", "G1 X43.\n")]
    [InlineData("tab-ramp", "G1 X64. Z17.5", "G1 X60. Z17.5")]
    [InlineData("tab-ramp", "G1 X64. Z17.5", "G1 X64. Z17.8\nG1 Z17.5")]
    [InlineData("lone-level", "G1 X45. Z18.5", "G1 X45. Z18.58")]
    [InlineData("lone-level", "G1 X64. Z17.5\nG1 X65.\nG2 X71.5 Y65. ", "G1 X65.\nG2 X71.5 Y65. Z17.5 ")]
    [InlineData("tab-thin", "G1 X54.\n", "G1 X51. Z18.\nG1 X54. Z18.5\n")]
    [InlineData("tab-thick", "G1 X45. Z18.5\nG1 X54.\nG1 X64. Z17.5", "G1 X45. Z18.8\nG1 X54.\nG1 X64. Z17.5")]
    public void An_odd_bridge_is_told_where_it_is(string code, string good, string bad)
    {
        (string text, int line) = Slip.Make(Good, good, bad);
        Slip.Found(Judge(text), text, line, code);
    }

    /// <summary>Along the floor the trim may stop and start as it likes; a level of its own amid a cut is none of its.</summary>
    [Fact]
    public void A_stretch_at_a_height_that_is_nobodys_is_told()
    {
        (string text, int line) = Slip.Make(
            Good,
            "G1 Y40.\nG1 Y45. Z18.5\nG1 Y54.\nG1 Y64. Z17.5\n",
            "G1 Y36. Z17.6\nG1 Y40.\nG1 Y45. Z18.5\nG1 Y54.\nG1 Y64. Z17.5\n"
        );
        Slip.Found(Judge(text), text, line, "lone-level");
    }

    private static VerifyResult Judge(string text) => TestShop.Judge(TrimShop.Job, Design, text, Setup.Trim);
}
