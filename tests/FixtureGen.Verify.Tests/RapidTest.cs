using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>
/// Rapids wherever they hide: in drilling cycles (NISTIR 6556 3.5.16: to the R height at rapid, back to it or to the old height), with
/// an engraver over a shell, and on the way of a control that runs its axes one by one.
/// </summary>
public sealed class RapidTest
{
    private const string Code = "rapid-through-stock";

    private static readonly Job Drills = TestShop.Job(
        TestShop.EndMill(1, 6),
        TestShop.Cone(2, ToolKind.Drill, 6, 118, 0)
    );

    private static bool Told(string body, int tool = 2) =>
        TestShop.Judge(Drills, TestShop.Design(), TestShop.Program(body, tool)).Findings.Any(f => f.Code == Code);

    /// <summary>The raw block's top is Z 20.</summary>
    [Theory]
    [InlineData("G0 X30. Y30.\nG98 G81 X30. Y30. Z10. R21.\nX50.\nG80", false)]
    [InlineData("G0 X30. Y30.\nG98 G81 X30. Y30. Z1. R2.\nX50.\nG80", true)]
    [InlineData("G0 X30. Y30.\nG98 G81 X30. Y30. Z10. R18.\nG80", true)]
    [InlineData("G0 X30. Y30.\nG98 G81 X30. Y30. Z10. R20.2\nG80", true)]
    [InlineData("G0 X30. Y30.\nG99 G81 X30. Y30. Z10. R21.\nX50.\nG80", false)]
    [InlineData("G0 X30. Y30.\nG1 Z10.\nG99 G81 X30. Y30. Z8. R12.\nX50.\nG80", true)]
    [InlineData("G0 X30. Y30.\nG98 G83 X30. Y30. Z5. R21. Q3.\nX50.\nG80", false)]
    [InlineData("G0 X30. Y30.\nG98 G83 X30. Y30. Z5. R15. Q3.\nG80", true)]
    [InlineData("G0 X30. Y30.\nG98 G82 X30. Y30. Z10. R19. P0.5\nG80", true)]
    public void A_drilling_cycle_rapids_above_material_only(string body, bool told) => Assert.Equal(told, Told(body));

    /// <summary>Pecks by hand: back down to a quarter of a millimetre above the last depth, or too near, or deeper.</summary>
    [Theory]
    [InlineData("14.25", false)]
    [InlineData("14.5", false)]
    [InlineData("14.05", true)]
    [InlineData("12.", true)]
    public void A_peck_by_hand_may_come_back_near_its_floor(string back, bool told) =>
        Assert.Equal(told, Told($"G0 X30. Y30.\nG0 Z21.\nG1 Z14.\nG0 Z21.\nG0 Z{back}\nG1 Z8.\nG0 Z40."));

    /// <summary>A pocket's corner stands in the way of a control that moves X first; a straight slanted way passes it by.</summary>
    [Theory]
    [InlineData("G0 X55. Y55.", true)]
    [InlineData("G0 X55.\nG0 Y55.", false)]
    public void A_slanted_rapid_is_judged_axis_by_axis_too(string way, bool told)
    {
        string slot =
            "G0 X20. Y20.\nG0 Z21.\nG1 Z20.\nG1 X55. Z18.5\nG1 Y55.\nG1 Y20.\nG1 X20.\nG1 X55. Y55.\nG1 X20. Y20.\nG0 Z18.6\n";
        // down the two legs and along the diagonal all is cut to Z 18.5; the other leg stands
        string text = slot.Replace("G0 Z18.6", "G0 Z19.2", StringComparison.Ordinal) + way + "\n";
        Assert.Equal(told, Told(text, 1));
    }

    [Theory]
    [InlineData("G1 Z18.7 F150.", false)]
    [InlineData("G0 Z18.7", true)]
    public void An_engraver_comes_down_on_a_shell_at_feed(string down, bool told)
    {
        string marks =
            $"T4 M6\nS10000 M3 M8\nG0 G43 H4 Z40.\nG0 X36. Y62.\nG0 Z20.\n{down}\nG1 X42. F600.\nG1 Y66.\nG0 Z40.\nM5 M9\nT9 M6";
        Assert.Equal(told, Engraved(marks));
    }

    [Fact]
    public void An_engraving_stroke_at_rapid_is_told()
    {
        string marks =
            "T4 M6\nS10000 M3 M8\nG0 G43 H4 Z40.\nG0 X36. Y62.\nG0 Z20.\nG1 Z18.7 F150.\nG0 X42.\nG1 Y66. F600.\nG0 Z40.\nM5 M9\nT9 M6";
        Assert.True(Engraved(marks));
    }

    private static bool Engraved(string marks)
    {
        string text = TrimShop.Program(TrimShop.Once).Replace("T9 M6", marks, StringComparison.Ordinal);
        VerifyResult result = TestShop.Judge(TrimShop.Job, TrimShop.Design, text, Setup.Trim);
        return result.Findings.Any(f => f.Code == Code);
    }
}
