using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>A pocket and two bolt holes with three tools, on a machine that changes tools at home.</summary>
public sealed class ToolChangeTest
{
    private const string Change = "G0 Z40.\nM5 M9\nG53 G0 Z0.\nT{0} M6\nS8000 M3 M8\nG0 G43 H{0} Z40.\n";

    private static Job Job { get; } =
        TestShop.Job(
            TestShop.EndMill(1, 6),
            TestShop.Cone(2, ToolKind.Drill, 6, 118, 0),
            TestShop.Cone(3, ToolKind.Drill, 5.8, 118, 0)
        ) with
        {
            Plate = TestShop.Plate with
            {
                Openings = [.. TestShop.Plate.Openings, TestShop.Plate.Openings[0] with { At = new Point2(90, 10) }],
            },
            Control = TestShop.Control with { ToolChange = ["G53 G0 Z0.", .. TestShop.Control.ToolChange] },
        };

    private static FixtureDesign Design { get; } =
        TestShop.Design(
            PocketTest.Design.Features[0],
            TestShop.Pocket("bolt 1", FeatureKind.BoltHole, Setup.Top, TestShop.Circle(10, 10, 3), 20, 0),
            TestShop.Pocket("bolt 2", FeatureKind.BoltHole, Setup.Top, TestShop.Circle(90, 10, 2.9), 20, 0)
        );

    private static string Good { get; } =
        TestShop
            .Program(PocketTest.Rings + "\n" + Hole(2, "G0 X10. Y10.") + "\n" + Hole(3, "G0 X90. Y10."))
            .Replace("T1 M6", "G53 G0 Z0.\nT1 M6", StringComparison.Ordinal);

    [Fact]
    public void Three_tools_changed_at_home_pass() => Slip.Nothing(TestShop.Judge(Job, Design, Good));

    [Theory]
    [InlineData("change-not-home", "G53 G0 Z0.\nT3", "T3")]
    [InlineData("change-not-home", "G53 G0 Z0.\nT3", "G91 G28 X0.\nG90\nT3")]
    [InlineData("axes-missing", "G53 G0 Z0.\nT3", "G53 G0\nT3")]
    [InlineData("retract-before-change", "G0 Z40.\nM5 M9\nG53 G0 Z0.\nT3", "G0 Z29.\nM5 M9\nG53 G0 Z0.\nT3")]
    [InlineData("retract-missing", "G0 Z40.\nM5 M9\nG53 G0 Z0.\nT3", "G0 Z20.3\nM5 M9\nG53 G0 Z0.\nT3")]
    [InlineData("spindle-runs", "M5 M9\nG53 G0 Z0.\nT3", "M9\nG53 G0 Z0.\nT3")]
    [InlineData("air-runs", "M5 M9\nG53 G0 Z0.\nT3", "M5\nG53 G0 Z0.\nT3")]
    [InlineData("height-not-set", "G0 X10. Y10.", "M5 M9\nM0\nS8000 M3 M8\nG0 X10. Y10.")]
    [InlineData("arrives-low", "G0 G43 H3 Z40.\nG0 X90. Y10.\nG0 Z21.", "G0 G43 H3 Z40.\nG0 Z21.\nG0 X90. Y10.")]
    [InlineData("length-offset", "G43 H3", "G43 H2")]
    [InlineData("tool-missing", "T1 M6", "M6")]
    [InlineData("done-twice", "T3 M6", "T3 M6\nT3 M6")]
    [InlineData("tool-comment", "T3 M6", "(T2 DRILL)\nT3 M6")]
    [InlineData("tool-comment", "T2 M6", "(T3 DRILL)\nT2 M6")]
    public void A_change_that_is_not_clean_is_told(string code, string good, string bad)
    {
        (string text, int line) = Slip.Make(Good, good, bad);
        Slip.Found(TestShop.Judge(Job, Design, text), text, line, code);
    }

    [Theory]
    [InlineData("G0 G43 H3 Z40.", "G0 Z40.", "tool 3 moves with length offset H2")]
    [InlineData("G0 G43 H3 Z40.", "G0 G49 Z40.", "tool 3 moves with no length offset")]
    [InlineData("G43 H3", "G43 H1", "tool 3 moves with length offset H1")]
    public void The_length_offset_in_force_is_said(string good, string bad, string message)
    {
        (string text, int line) = Slip.Make(Good, good, bad);
        Finding[] told = [.. TestShop.Judge(Job, Design, text).Findings.Where(f => f.Code == "length-offset")];
        Assert.Equal(line, told[0].Line);
        Assert.All(told, f => Assert.Equal(message, f.Message));
    }

    /// <summary>What is missing is told where the spindle was started, once a line that cuts without it; a control without air has none.</summary>
    [Fact]
    public void Air_that_was_not_switched_on_is_told_at_the_spindles_start()
    {
        (string text, int line) = Slip.Make(Good, "T3 M6\nS8000 M3 M8", "T3 M6\nS8000 M3");
        Finding told = Assert.Single(TestShop.Judge(Job, Design, text).Findings);
        Assert.Equal(("air-off", line + 1), (told.Code, told.Line));
        Job none = Job with { Control = Job.Control with { AirOn = "", AirOff = "" } };
        string without = Good.Replace(" M8", "", StringComparison.Ordinal).Replace(" M9", "", StringComparison.Ordinal);
        Slip.Nothing(TestShop.Judge(none, Design, without));
    }

    [Theory]
    [InlineData("tool-comment", "T3 M6", "(T3 DRILL)\nT3 M6")]
    [InlineData("height-not-set", "G0 X10. Y10.", "M5 M9\nM0\nS8000 M3 M8\nG0 Z45.\nG0 X10. Y10.")]
    public void Harmless_words_at_a_change_pass(string code, string good, string other)
    {
        (string text, _) = Slip.Make(Good, good, other);
        Assert.DoesNotContain(code, TestShop.Judge(Job, Design, text).Findings.Select(f => f.Code));
    }

    private static string Hole(int tool, string place) =>
        Change.Replace("{0}", FormattableString.Invariant($"{tool}"), StringComparison.Ordinal)
        + place
        + "\nG0 Z21.\nG1 Z-5.5 F900";
}
