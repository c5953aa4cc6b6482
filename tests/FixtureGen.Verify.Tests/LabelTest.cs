using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>One stroke of a label, 20 mm long and 0.3 mm deep, engraved into the block with a 60 degree point of 0.4 mm.</summary>
public sealed class LabelTest
{
    private const string Top = """
        G0 X20. Y50.
        G0 Z21.
        G1 Z19.7 F60.
        G1 X40. F400.
        """;

    private static readonly Job Job = TestShop.Job(TestShop.Cone(1, ToolKind.Engraver, 6, 60, 0.4));

    [Theory]
    [InlineData("G1 Z19.7", "G1 Z19.7")]
    [InlineData("G1 Z19.7", "G1 Z19.75")]
    public void An_engraved_label_passes(string good, string other)
    {
        (string text, _) = Slip.Make(TestShop.Program(Top), good, other);
        Slip.Nothing(TestShop.Judge(Job, OnTop(), text));
    }

    [Theory]
    [InlineData("left-over", "G1 X40. F400.", "G1 X39. F400.")]
    [InlineData("left-over", "G1 X40. F400.", "G1 X28. F400.\nG0 Z21.\nG0 X30.\nG1 Z19.7 F60.\nG1 X40. F400.")]
    [InlineData("left-over", "G1 Z19.7", "G1 Z19.85")]
    [InlineData("gouge", "G1 Z19.7", "G1 Z19.65")]
    public void A_label_too_short_too_shallow_or_too_deep_is_told(string code, string good, string bad)
    {
        (string text, int line) = Slip.Make(TestShop.Program(Top), good, bad);
        VerifyResult result = TestShop.Judge(Job, OnTop(), text);
        Slip.Found(result, text, line, code);
        Assert.Equal(code == "left-over", result.MaxLeftoverMm > Limits.House.Leftover);
        Assert.False(result.Ok);
    }

    [Fact]
    public void A_program_for_the_other_side_need_not_engrave_the_label()
    {
        string text = UndersideTest.Program("");
        VerifyResult result = TestShop.Judge(Job, OnTop(), text, Setup.Underside);
        Assert.DoesNotContain("left-over", result.Findings.Select(f => f.Code));
    }

    /// <summary>The block lies upside down: X 20..40 of the plate is X 80..60, the face that was below is the raw top.</summary>
    [Fact]
    public void A_mark_on_the_underside_is_looked_for_where_the_turned_block_has_it()
    {
        FixtureDesign design = Design(Setup.Underside, 0.3, 0) with { Flip = new Flip(50) };
        string good = Top.Replace("X20.", "X80.", StringComparison.Ordinal)
            .Replace("X40.", "X60.", StringComparison.Ordinal);
        Slip.Nothing(TestShop.Judge(Job, design, UndersideTest.Program(good), Setup.Underside));
        (string text, int line) = Slip.Make(UndersideTest.Program(good), "G1 X60. F400.", "G1 X62. F400.");
        Slip.Found(TestShop.Judge(Job, design, text, Setup.Underside), text, line, "left-over");
    }

    private static FixtureDesign OnTop() => Design(Setup.Top, 20, 19.7);

    private static FixtureDesign Design(Setup setup, double top, double floor) =>
        TestShop.Design(
            new EngravingFeature
            {
                Name = "label",
                Kind = FeatureKind.Label,
                Setup = setup,
                Text = "I",
                Strokes = [new OpenPath([Segment.Line(new Point2(20, 50), new Point2(40, 50))])],
                Width = 0.8,
                TopZ = top,
                Depth = 0.3,
                Removals =
                [
                    new Removal(
                        setup,
                        FeatureKind.Label,
                        "label",
                        [Region.From(TestShop.Rounded(19.6, 49.6, 40.4, 50.4, 0.39))],
                        top,
                        floor
                    ),
                ],
            }
        ) with
        {
            FixtureHeight = 20,
        };
}
