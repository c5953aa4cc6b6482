using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>A rounded pocket of 40 x 20 mm, 3 mm deep, cut with a 6 mm end mill: good, and spoiled in the common ways.</summary>
public sealed class PocketTest
{
    internal const string Rings = """
        G0 X40. Y45.
        G0 Z21.
        G1 Z20.
        G1 X60. Z18.5
        G1 X40. Z17.
        G1 X60.
        G1 X60. Y50.
        G1 X40.
        G1 Y55.
        G1 X60.
        G1 Y45.
        G1 X36. Y43.
        G1 X64.
        G1 Y57.
        G1 X36.
        G1 Y43.
        G1 X33. Y44.
        G3 X34. Y43. I1. J0.
        G1 X66.
        G3 X67. Y44. I0. J1.
        G1 Y56.
        G3 X66. Y57. I-1. J0.
        G1 X34.
        G3 X33. Y56. I0. J-1.
        G1 Y44.
        """;

    internal static Job Job { get; } = TestShop.Job(TestShop.EndMill(1, 6));

    internal static FixtureDesign Design { get; } =
        TestShop.Design(
            TestShop.Pocket("pocket", FeatureKind.Relief, Setup.Top, TestShop.Rounded(30, 40, 70, 60, 4), 20, 17)
        );

    [Fact]
    public void Good_pocket_has_no_finding()
    {
        VerifyResult result = TestShop.Judge(Job, Design, TestShop.Program(Rings));
        Assert.Empty(result.Findings.Select(f => $"{f.Where} {f.Code} {f.Message}"));
        Assert.True(result.Ok);
        Assert.True(result.MaxGougeSideMm < 1e-5);
    }

    /// <summary>The last ring the other way round: the sides, which it alone cuts, are then on its left.</summary>
    [Fact]
    public void A_wall_cut_against_the_climb_is_warned_of()
    {
        const string Around = """
            G1 X33. Y44.
            G1 Y56.
            G2 X34. Y57. I1. J0.
            G1 X66.
            G2 X67. Y56. I0. J-1.
            G1 Y44.
            G2 X66. Y43. I-1. J0.
            G1 X34.
            G2 X33. Y44. I0. J1.
            """;
        string turned = Rings[..Rings.IndexOf("G1 X33. Y44.", StringComparison.Ordinal)] + Around;
        Finding only = Assert.Single(TestShop.Judge(Job, Design, TestShop.Program(turned)).Findings);
        Assert.Equal(("wall-conventional", Severity.Warning), (only.Code, only.Severity));
    }

    [Fact]
    public void Removed_volume_is_the_pockets_own()
    {
        VerifyResult result = TestShop.Judge(Job, Design, TestShop.Program(Rings));
        double exact = ((40 * 20) - ((4 - Math.PI) * 16)) * 3;
        double bound = 3 * 0.1 * ((2 * (32 + 12)) + (2 * Math.PI * 4)) / 2;
        Assert.InRange(result.Programs[0].RemovedMm3, exact - bound, exact + bound);
    }

    [Theory]
    [InlineData("G1 X66.", "G1 X66.1", "arc-mismatch")]
    [InlineData("G1 X40. Z17.", "G1 X40. Z16.9", "gouge")]
    [InlineData("G3 X34. Y43. I1. J0.", "G2 X34. Y43. I1. J0.", "left-over")]
    [InlineData("G1 X64.", "G1 X64.5 Y42.9", "gouge-side")]
    [InlineData("G0 Z21.", "G0 Z19.", "rapid-through-stock")]
    [InlineData("G0 Z21.", "G0 Z2100.", "outside-travel")]
    [InlineData("G1 X40. Z17.", "G1 X40. Z17.2", "left-over")]
    [InlineData("G21 G17 G40", "G17 G40", "units-missing")]
    [InlineData("G43 H1", "G43 H2", "length-offset")]
    [InlineData("M66\n", "", "vacuum-not-proven")]
    [InlineData("S8000 M3", "S8000 M4", "spindle-direction")]
    [InlineData("S8000 M3", "S8000", "spindle-off")]
    [InlineData("G54", "G55", "work-offset")]
    [InlineData("TEST F001 R1)", "TEST F001 R2)", "label-mismatch")]
    [InlineData("TEST F001 R1)", "TEST F001 R1", "comment-open")]
    [InlineData("O1001", "O1002", "program-number")]
    [InlineData("M30", "", "end-missing")]
    [InlineData("G53 G0 Z0.\nM65", "M65", "home-missing")]
    [InlineData("G1 X60.\n", "G1 X60\n", "decimal-point")]
    [InlineData("F800", "F8000", "feed-limit")]
    [InlineData("F800", "", "feed-missing")]
    [InlineData("T1 M6", "T2 M6", "tool-unknown")]
    public void Spoiled_pocket_is_refused(string good, string bad, string code)
    {
        string text = TestShop.Program(Rings);
        int at = text.IndexOf(good, StringComparison.Ordinal);
        Assert.True(at >= 0);
        VerifyResult result = TestShop.Judge(Job, Design, text[..at] + bad + text[(at + good.Length)..]);
        Assert.Contains(code, result.Findings.Select(f => f.Code));
        Assert.False(result.Ok);
    }
}
