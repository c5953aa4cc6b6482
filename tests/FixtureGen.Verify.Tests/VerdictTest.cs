using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>One hand-broken program for each verdict on a block, refused or warned about at the line where it was broken.</summary>
public sealed class VerdictTest
{
    private static readonly Tool Mill = TestShop.EndMill(1, 6);

    /// <summary>The pocket's mill; one with a thick shank right above short flutes; one that hardly sticks out; one with stub flutes; a drill.</summary>
    private static Job Job { get; } =
        TestShop.Job(
            Mill,
            Mill with
            {
                Number = 2,
                FluteLength = 2,
                ShankDiameter = 8,
            },
            Mill with
            {
                Number = 3,
                StickOut = 2.5,
            },
            Mill with
            {
                Number = 4,
                FluteLength = 1,
            },
            TestShop.Cone(5, ToolKind.Drill, 6, 118, 0)
        ) with
        {
            Plate = TestShop.Plate with
            {
                Stops = [new EdgeStop(new Point2(50, 0), new Point2(0, 1)) { Diameter = 6, Height = 25 }],
            },
        };

    private static string Good { get; } = TestShop.Program(PocketTest.Rings);

    [Fact]
    public void Unbroken_program_has_no_finding() =>
        Assert.Empty(TestShop.Judge(Job, PocketTest.Design, Good).Findings.Select(f => f.Code + " " + f.Message));

    [Theory]
    [InlineData("gouge", "G1 X40. Z17.", "G1 X40. Z16.9")]
    [InlineData("gouge-side", "G1 X64.", "G1 X64.5 Y42.9")]
    [InlineData("left-over", "G1 X64.", "G1 X36.")]
    [InlineData("rapid-through-stock", "G1 X60. Y50.", "G0 X60. Y50.")]
    [InlineData("plunge", "G1 X60. Z18.5", "G1 Z18.5")]
    [InlineData("ramp-steep", "G1 X60. Z18.5", "G1 X50. Z18.5")]
    [InlineData("below-plate-face", "G1 X40. Z17.", "G1 X40. Z-1.")]
    [InlineData("outside-travel", "G0 Z21.", "G0 Z2100.")]
    [InlineData("outside-blank", "G1 X64.", "G1 X120.")]
    [InlineData("floor-left", "G1 X40. Z17.", "G1 X40. Z2.5")]
    [InlineData("collision", "G0 Z40.\nM5", "G0 Z21.\nX50. Y-3.\nG0 Z40.\nM5")]
    [InlineData("shank-hits-block", "T1 M6\nS8000 M3 M8\nG0 G43 H1", "T2 M6\nS8000 M3 M8\nG0 G43 H2", "G1 X36. Y43.")]
    [InlineData("holder-hits-block", "T1 M6\nS8000 M3 M8\nG0 G43 H1", "T3 M6\nS8000 M3 M8\nG0 G43 H3", "G1 X40. Z17.")]
    [InlineData("flutes-too-short", "T1 M6\nS8000 M3 M8\nG0 G43 H1", "T4 M6\nS8000 M3 M8\nG0 G43 H4", "G1 X60. Z18.5")]
    [InlineData("drill-sideways", "T1 M6\nS8000 M3 M8\nG0 G43 H1", "T5 M6\nS8000 M3 M8\nG0 G43 H5", "G1 X60. Z18.5")]
    [InlineData("spindle-off", "S8000 M3 M8", "S8000 M8", "G1 Z20.")]
    [InlineData("spindle-direction", "S8000 M3 M8", "S8000 M4 M8")]
    [InlineData("spindle-direction", "M5 M9", "M4 M9")]
    [InlineData("spindle-speed", "S8000 M3", "S800 M3", "G1 Z20.")]
    [InlineData("feeds-up", "G0 Z40.\nM5", "G1 Z40.\nM5")]
    [InlineData("cuts-air", "G1 X36. Y43.", "G1 Z17.2\nG1 X60. Y54.\nG1 Z17.\nG1 X36. Y43.")]
    [InlineData("cuts-air", "G1 X36. Y43.", "G1 Z20.6\nG1 X60. Y54.\nG1 Z17.\nG1 X36. Y43.")]
    [InlineData("air-runs", "M5 M9", "M5", "G53 G0 Z0.")]
    [InlineData("air-off", "M3 M8", "M3")]
    [InlineData("after-end", "M30\n%\n", "M30\n%\nG0 X0.\n")]
    [InlineData("outside-blank", "G0 X40. Y45.\nG0 Z21.", "G0 X40. Y45.\nG0 Z21.\nX-20.\nX40.")]
    [InlineData("units-changed", "G0 X40. Y45.\n", "G0 X40. Y45.\nG20\n")]
    [InlineData("tool-comment", "T1 M6", "(ROUGH - T2 MILL)\nT1 M6")]
    [InlineData("done-twice", "T1 M6", "T1 M6\nT1 M6")]
    [InlineData("moves-nothing", "G1 Y44.\n", "G1 Y44.\nG1 Y44.\n")]
    [InlineData("spindle-runs", "M5 M9", "M9", "M30")]
    [InlineData("feed-missing", "F800\n", "\n", "G1 Z20.")]
    [InlineData("feed-limit", "F800", "F8000", "G1 Z20.")]
    [InlineData("chip-load", "F800", "F200", "G1 X60. Z18.5")]
    [InlineData("chip-load", "F800", "F3600", "G1 Z20.")]
    [InlineData("units-missing", "G21 G17", "G17", "G0 G43")]
    [InlineData("plane-missing", "G17 G40", "G40", "G0 G43")]
    [InlineData("distance-missing", "G80 G90", "G80", "G0 G43")]
    [InlineData("work-offset-missing", "G94 G54", "G94", "G0 G43")]
    [InlineData("length-offset", "G0 G43 H1 Z40.", "G0 Z40.")]
    [InlineData("length-offset", "G43 H1", "G43 H2")]
    [InlineData("work-offset", "G54", "G55")]
    [InlineData("arc-mismatch", "G1 X66.", "G1 X66.1")]
    [InlineData("retract-before-home", "G0 Z40.\nM5", "M5")]
    [InlineData("retract-missing", "G1 X60. Y50.", "G1 X60. Y50.\nM5 M9\nM1\nS8000 M3 M8")]
    [InlineData("retract-missing", "G1 X60. Y50.", "G1 X60. Y50.\nM5 M9\nM0\nS8000 M3 M8")]
    [InlineData("spindle-runs", "G1 Z20.", "G0 Z40.\nM9\nM0\nM8\nG0 Z21.\nG1 Z20.")]
    [InlineData("spindle-runs", "G1 Z20.", "G0 Z40.\nM9\nM1\nM8\nG0 Z21.\nG1 Z20.")]
    [InlineData("home-missing", "G53 G0 Z0.\nM65", "M65")]
    [InlineData("vacuum-not-proven", "M66\n", "", "G1 Z20.")]
    [InlineData("vacuum-not-proven", "M64\nM66\n", "", "G1 Z20.")]
    [InlineData("vacuum-off-early", "M5 M9\nG53 G0 Z0.\nM65", "M65\nM5 M9\nG53 G0 Z0.")]
    [InlineData("vacuum-off-early", "G53 G0 Z0.\nM65", "M65\nG53 G0 Z0.")]
    [InlineData("vacuum-left-on", "M65\n", "")]
    [InlineData("program-number", "O1001", "O1002")]
    [InlineData("number-line-missing", "(PROGRAM 1001 FOR", "(PROGRAM 1007 FOR")]
    [InlineData("label-mismatch", "TEST F001 R1)", "TEST F001 R2)")]
    [InlineData("operator-line-missing", "(PINS OUT)\n", "")]
    [InlineData("end-missing", "M30\n", "")]
    [InlineData("percent-missing", "M30\n%\n", "M30\n")]
    [InlineData("arrives-low", "G0 X40. Y45.\nG0 Z21.", "G0 Z21.\nG0 X40. Y45.")]
    [InlineData("incremental-left-on", "G53 G0 Z0.\nM65", "G53 G0 Z0.\nG91\nM65")]
    [InlineData("machine-move", "G53 G0 Z0.", "G53 G0 Z0.\nG53 G0 X-30. Y0.")]
    [InlineData("tool-unknown", "T1 M6", "T7 M6")]
    [InlineData("decimal-point", "G1 X60.\n", "G1 X60\n")]
    [InlineData("comment-open", "TEST F001 R1)", "TEST F001 R1")]
    public void Broken_program_is_told_where_it_is_broken(string code, string good, string bad, string? told = null)
    {
        (string text, int line) = Slip.Make(Good, good, bad);
        Slip.Found(TestShop.Judge(Job, PocketTest.Design, text), text, line, code, told);
    }

    /// <summary>A control without work offsets has nothing to say before a motion.</summary>
    [Fact]
    public void A_control_without_work_offsets_misses_none()
    {
        Job job = Job with { Control = TestShop.Control with { WorkOffset = "" } };
        string text = Good.Replace("G94 G54", "G94", StringComparison.Ordinal);
        Assert.Empty(TestShop.Judge(job, PocketTest.Design, text).Findings.Select(f => f.Code + " " + f.Message));
    }

    /// <summary>
    /// Feeding past the block's side at tip Z 10: a shank of 12 mm begins at Z 15, a holder of 30 mm at Z 18, the block's top is at Z 20.
    /// Each is kept off by its own radius and no more.
    /// </summary>
    [Theory]
    [InlineData(5, 60, -6.5, false, false)]
    [InlineData(5, 60, -5.5, true, false)]
    [InlineData(10.5, 60, -5.5, false, false)]
    [InlineData(25, 8, -15.5, false, false)]
    [InlineData(25, 8, -14.5, false, true)]
    [InlineData(25, 10.5, -14.5, false, false)]
    public void Shank_and_holder_are_kept_off_the_block_by_their_radius(
        double flutes,
        double stickOut,
        double x,
        bool shank,
        bool holder
    )
    {
        Tool tool = Mill with { FluteLength = flutes, ShankDiameter = 12, StickOut = stickOut, HolderDiameter = 30 };
        string body = FormattableString.Invariant($"G0 X{x:0.0} Y40.\nG0 Z21.\nG0 Z10.\nG1 Y60.");
        VerifyResult result = TestShop.Judge(TestShop.Job(tool), TestShop.Design(), TestShop.Program(body));
        Assert.Equal(shank, result.Findings.Any(f => f.Code == "shank-hits-block"));
        Assert.Equal(holder, result.Findings.Any(f => f.Code == "holder-hits-block"));
    }
}
