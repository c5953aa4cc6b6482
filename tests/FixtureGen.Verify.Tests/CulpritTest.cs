using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>
/// A pocket of floor 17 in which one motion goes 0.1 or 0.2 mm too deep: every cell that it spoils is laid to that motion, none to
/// another and none to nobody.
/// </summary>
public sealed class CulpritTest
{
    private static readonly Job Job = TestShop.Job(
        TestShop.EndMill(1, 6),
        TestShop.Ball(2, 6),
        TestShop.Cone(3, ToolKind.Engraver, 6, 60, 0.4),
        TestShop.EndMill(4, 6)
    );

    private static FixtureDesign Design { get; } =
        TestShop.Design(
            TestShop.Pocket("wide", FeatureKind.Relief, Setup.Top, TestShop.Rectangle(20, 20, 80, 80), 20, 17)
        );

    [Theory]
    [InlineData("level", "G1 Z17.\nG1 X60.\nG1 X50. Y55. Z17.2", "G1 Z16.9\nG1 X45.", "G1 Z16.9", "G1 X45.")]
    [InlineData("ramp down", "", "G1 X60. Z16.9", "G1 X60. Z16.9")]
    [InlineData("ramp down short", "", "G1 X41. Z16.8", "G1 X41. Z16.8")]
    [InlineData("ramp up", "G1 Z17.\nG1 X50.", "G1 Z16.9\nG1 X60. Z18.", "G1 Z16.9", "G1 X60. Z18.")]
    [InlineData("dip", "G1 Z17.\nG1 X45.", "G1 X50. Z16.9\nG1 X55. Z17.", "G1 X50. Z16.9", "G1 X55. Z17.")]
    [InlineData("plunge", "G1 Z17.\nG1 X50.", "G1 Z16.8", "G1 Z16.8")]
    [InlineData("arc", "G1 Z17.", "G1 Z16.9\nG3 X60. Y50. I10. J0.", "G1 Z16.9", "G3 X60. Y50. I10. J0.")]
    [InlineData("helix", "", "G3 X60. Y50. Z16.9 I10. J0.", "G3 X60. Y50. Z16.9 I10. J0.")]
    [InlineData("helix cw", "", "G2 X60. Y50. Z16.9 I10. J0.", "G2 X60. Y50. Z16.9 I10. J0.")]
    [InlineData("full helix", "", "G3 X40. Y50. Z16.8 I10. J0.", "G3 X40. Y50. Z16.8 I10. J0.")]
    [InlineData(
        "helix up",
        "G1 Z17.\nG1 X50.",
        "G1 Z16.8\nG2 X60. Y50. Z18. I5. J0.",
        "G1 Z16.8",
        "G2 X60. Y50. Z18. I5. J0."
    )]
    [InlineData("tight helix", "", "G3 X40. Y50. Z16.8 I1. J0.", "G3 X40. Y50. Z16.8 I1. J0.")]
    [InlineData("rapid", "G1 Z17.", "G0 X60. Z16.9", "G0 X60. Z16.9")]
    [Trait("Speed", "Slow")]
    public void What_is_too_deep_is_laid_to_the_motion_that_did_it(
        string _,
        string before,
        string deep,
        params string[] told
    )
    {
        foreach (int tool in (int[])[1, 2, 3])
        {
            string body = $"G0 X40. Y50.\nG0 Z21.\nG1 Z20.\n{(before.Length > 0 ? before + "\n" : "")}{deep}";
            string text = TestShop.Program(body + "\nG1 Z17.5\nG1 X40. Y45.\nG1 X60. Y55.", tool);
            string[] lines = text.Split('\n');
            VerifyResult result = TestShop.Judge(Job, Design, text);
            Finding[] gouges = [.. result.Findings.Where(f => f.Code == "gouge")];
            Assert.NotEmpty(gouges);
            Assert.All(gouges, f => Assert.NotNull(f.Line));
            Assert.All(gouges, f => Assert.Contains(lines[f.Line!.Value - 1], told));
            double amount = deep.Contains("16.8", StringComparison.Ordinal) ? 0.2 : 0.1;
            Assert.InRange(result.MaxGougeDepthMm, amount - 0.002, amount + 1e-4);
        }
    }

    /// <summary>A wall or a hole left a little narrow is measured sideways: by 0.08 mm it passes, by 0.15 mm it does not.</summary>
    [Theory]
    [InlineData(66.93, false)]
    [InlineData(66.85, true)]
    public void A_narrow_pocket_is_told_by_what_stands_beside_the_cut(double x, bool told)
    {
        FormattableString edge = $"G1 X{x:0.0##}\nG1 Y50.";
        string text = TestShop.Program(
            "G0 X36. Y46.\nG0 Z21.\nG1 Z17.\nG1 X64.\nG1 Y54.\nG1 X36.\nG1 Y46.\nG1 X40.\nG1 Y50.\nG1 X60.\n"
                + "G1 Y43.\nG1 X33.\nG1 Y57.\nG1 X36.\nG1 X60.\nG1 Y43.\n"
                + FormattableString.Invariant(edge)
                + FormattableString.Invariant($"\nG1 Y57.\nG1 X60.")
        );
        FixtureDesign design = TestShop.Design(
            TestShop.Pocket("p", FeatureKind.Relief, Setup.Top, TestShop.Rectangle(30, 40, 70, 60), 20, 17)
        );
        VerifyResult result = TestShop.Judge(Job, design, text);
        Finding[] left = [.. result.Findings.Where(f => f.Code == "left-over")];
        Assert.Equal(told, left.Length > 0);
        string[] passes = [.. FormattableString.Invariant(edge).Split('\n'), "G1 Y57."];
        Assert.All(left, f => Assert.Contains(text.Split('\n')[f.Line!.Value - 1], passes));
        Assert.InRange(result.MaxLeftoverMm, 66.995 - x - 0.1, 67 - x + 0.001);
    }

    [Theory]
    [InlineData(3.06, false)]
    [InlineData(3.25, true)]
    public void A_narrow_hole_is_told_by_what_stands_beside_the_plunge(double radius, bool told)
    {
        FixtureDesign design = TestShop.Design(
            TestShop.Pocket("hole", FeatureKind.Relief, Setup.Top, TestShop.Circle(50, 50, radius), 20, 17)
        );
        string text = TestShop.Program("G0 X50. Y50.\nG0 Z21.\nG1 Z17.", 4);
        VerifyResult result = TestShop.Judge(Job, design, text);
        Assert.Equal(told, result.Findings.Any(f => f.Code == "left-over"));
        Assert.InRange(result.MaxLeftoverMm, told ? 0.1 : 0, radius - 3);
    }

    /// <summary>A pass along a slope leaves steps of its own: what is left is told with how much stands.</summary>
    [Fact]
    public void A_floor_left_high_is_told_with_its_height()
    {
        (string text, int line) = Slip.Make(
            TestShop.Program(PocketTest.Rings),
            "G1 X40. Z17.\nG1 X60.\nG1 X60. Y50.",
            "G1 X40. Z17.\nG1 X60.\nG1 X60. Y50. Z17.3"
        );
        VerifyResult result = TestShop.Judge(PocketTest.Job, PocketTest.Design, text);
        Slip.Found(result, text, line, "left-over");
        Assert.Equal(0.3, result.MaxLeftoverMm, 4);
    }
}
