using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>One hand-broken program for each verdict on a trim.</summary>
public sealed class TrimVerdictTest
{
    [Fact]
    public void Unbroken_trims_have_no_finding()
    {
        Assert.Empty(Told(TrimShop.Design with { }, TrimShop.Program(TrimShop.Once), SkirtHold.None));
        Assert.Empty(Told(TrimShop.Tabbed, TrimShop.Program(TrimShop.OverTheTab), SkirtHold.Tabs));
    }

    [Theory]
    [InlineData("trim-hits-block", "G1 X35. Z17.5", "G1 X35. Z16.5")]
    [InlineData("trim-hits-block", "G1 X35. Z17.5", "G1 X35. Z17.")]
    [InlineData("trim-too-deep", "G1 X35. Z17.5", "G1 X35. Z17.4")]
    [InlineData("gouge-side", "G1 X65.", "G1 X65. Y71.")]
    [InlineData("left-over", "G1 Y35.", "G0 Z40.\nG0 Y35.\nG0 Z20.\nG1 Z17.5")]
    [InlineData("collision", "G0 X50. Y28.5", "G0 Z20.\nG0 X50. Y90.\nG0 Y28.5")]
    [InlineData("collision", "G0 X50. Y28.5", "G0 X5. Y10.\nG0 Z20.\nG0 X15.\nG0 Z40.\nG0 X50. Y28.5")]
    [InlineData("chip-load", "F800.", "F200.", "G1 X35.")]
    [InlineData("ramp-steep", "G1 X35. Z17.5", "G1 X48. Z17.5")]
    [InlineData("trim-tool", "T9 M6\nS10000 M3 M8\nG0 G43 H9", "T1 M6\nS10000 M3 M8\nG0 G43 H1", "G1 X35. Z17.5")]
    [InlineData("magnet-count", "(1 MAGNETS", "(2 MAGNETS")]
    [InlineData("magnet-count", "(1 MAGNETS ON THE SHELL)\n", "")]
    [InlineData("magnet-stop", "(CHECK VACUUM AND MAGNETS)\nM0\n", "")]
    [InlineData("operator-line-missing", "(PINS IN, BOLTS IN)", "(PINS OUT, BOLTS IN)")]
    [InlineData("label-mismatch", "(TEST F001 R1)", "(TEST F001 R2)")]
    [InlineData("vacuum-not-proven", "M64\nM66\n", "", "G1 Z18.5")]
    public void Broken_trim_is_told_where_it_is_broken(string code, string good, string bad, string? told = null)
    {
        (string text, int line) = Slip.Make(TrimShop.Program(TrimShop.Once), good, bad);
        Slip.Found(Judge(TrimShop.Design, text, SkirtHold.None), text, line, code, told);
    }

    [Theory]
    [InlineData("tab-thin", "G1 Y45. Z18.5", "G1 Y45. Z18.2")]
    [InlineData("tab-cut", "G1 Y45. Z18.5\nG1 Y55.", "G1 Y55. Z17.5", "G0 Z40.")]
    [InlineData("tab-thick", "G1 Y45. Z18.5", "G1 Y45. Z18.8")]
    [InlineData("left-over", "G1 Y60. Z17.5\n", "G1 Y60.\n")]
    public void Broken_bridge_is_told_where_it_is_broken(string code, string good, string bad, string? told = null)
    {
        (string text, int line) = Slip.Make(TrimShop.Program(TrimShop.OverTheTab), good, bad);
        Slip.Found(Judge(TrimShop.Tabbed, text, SkirtHold.Tabs), text, line, code, told);
    }

    /// <summary>Scrap of a cutout that the design wants cut round in one piece falls loose while the outline is still to be cut.</summary>
    [Fact]
    public void Loose_scrap_is_told_at_the_line_that_frees_it()
    {
        string text = TrimShop.Program(Ring + TrimShop.Once);
        Slip.Found(Judge(WithHole([]), text, SkirtHold.None), text, 0, "scrap-loose", "G3 X54.5 Y50. I4.5");
    }

    /// <summary>A stop to take the scrap out must come before the next cut begins; the cut that freed it may run out.</summary>
    [Theory]
    [InlineData("M5 M9\nM0 (TAKE THE SLUG OUT)\nS10000 M3 M8\n", "", false)]
    [InlineData("M5 M9\nM1 (TAKE THE SLUG OUT)\nS10000 M3 M8\n", "", true)]
    [InlineData("", "G0 Z40.\nM5 M9\nM0 (TAKE THE SLUG OUT)\nS10000 M3 M8\n", true)]
    public void A_stop_to_take_scrap_out_comes_before_the_next_cut(string before, string after, bool told)
    {
        string ring = Ring.Replace(
            "I-4.5 J0.\nG3 X54.5 Y50. I4.5 J0.\nG0 Z20.",
            "I-4.5 J0.\nG3 X54.5 Y50. I4.5 J0.\nG1 X54.4\nG0 Z20.",
            StringComparison.Ordinal
        );
        string text = TrimShop.Program(ring + before + TrimShop.Once + "\n" + after);
        VerifyResult result = Judge(WithHole([]), text, SkirtHold.None);
        Assert.Equal(told, result.Findings.Any(f => f.Code == "scrap-loose"));
    }

    /// <summary>A stop on the freeing cut's own line comes after the motion (NISTIR 6556 table 8), one on the next cut's line too late.</summary>
    [Theory]
    [InlineData("G3 X54.5 Y50. I4.5 J0.\nG0 Z20.", "G3 X54.5 Y50. I4.5 J0. M0\nS10000 M3\nG0 Z20.", false)]
    [InlineData("G1 Z18.5 F300.", "G1 Z18.5 F300. M0\nS10000 M3", true)]
    public void A_stop_on_the_line_of_a_motion_comes_after_it(string cut, string stopped, bool told)
    {
        (string text, _) = Slip.Make(TrimShop.Program(Ring + TrimShop.Once), cut, stopped);
        VerifyResult result = Judge(WithHole([]), text, SkirtHold.None);
        Assert.Equal(told, result.Findings.Any(f => f.Code == "scrap-loose"));
    }

    [Fact]
    public void How_far_the_cutter_meets_the_block_is_said()
    {
        (string text, _) = Slip.Make(TrimShop.Program(TrimShop.Once), "G1 X35. Z17.5", "G1 X35. Z16.5");
        Finding[] told =
        [
            .. Judge(TrimShop.Design, text, SkirtHold.None).Findings.Where(f => f.Code == "trim-hits-block"),
        ];
        Assert.Equal("the cutter at Z 16.5 meets the block at Z 17", told[0].Message);
    }

    /// <summary>With the outline cut first the part is loose before its slug is: each is told at the line that parts it.</summary>
    [Fact]
    public void A_slug_in_a_part_that_is_loose_already_is_parted_by_its_own_cut()
    {
        string text = TrimShop.Program(TrimShop.Once + "\nG0 Z40.\n" + Ring);
        string[] lines = text.Split('\n');
        VerifyResult result = Judge(WithHole([]), text, SkirtHold.None);
        // The last cut of all may free it: nothing is cut after, though a feed may follow over the shell.
        Assert.DoesNotContain("scrap-loose", result.Findings.Select(f => f.Code));
        string over = TrimShop.Program(TrimShop.Once + "\nG0 Z40.\n" + Ring + "G1 Z22.\nG1 X60.");
        Assert.DoesNotContain("scrap-loose", Judge(WithHole([]), over, SkirtHold.None).Findings.Select(f => f.Code));
        LooseScrap[] loose = [.. result.Programs[0].Loose];
        Assert.Equal(
            [Array.LastIndexOf(lines, "G1 X35.") + 1, Array.IndexOf(lines, "G3 X54.5 Y50. I4.5 J0.") + 1],
            loose.Select(l => l.Line)
        );
        Assert.Equal(Math.PI * 9, loose[1].AreaMm2, 2 * Math.PI * 3 * 0.4);
    }

    /// <summary>Each trim cut may have a cutter of its own; one that none was planned for is told.</summary>
    [Theory]
    [InlineData(9, false)]
    [InlineData(1, true)]
    public void A_cutter_that_one_of_the_cuts_was_planned_for_passes(int planned, bool told)
    {
        FixtureDesign design = WithHole([]);
        TrimCut cutout = design.TrimCuts[0];
        Tool other = TrimShop.Job.TrimTool with { Number = 7 };
        Tool outline = design.TrimCuts[1].Tool with { Number = planned };
        FixtureDesign mixed = design with
        {
            TrimCuts = [cutout with { Tool = other }, design.TrimCuts[1] with { Tool = outline }],
        };
        VerifyResult result = Judge(mixed, TrimShop.Program(Ring + TrimShop.Once), SkirtHold.None);
        Assert.Equal(told, result.Findings.Any(f => f.Code == "trim-tool"));
    }

    /// <summary>Bridges of a cutout do not hold the part: only the outline's own are missed when the part comes free.</summary>
    [Fact]
    public void A_part_cut_free_is_no_lost_bridge_where_only_a_cutout_has_bridges()
    {
        string text = TrimShop.Program(Ring + TrimShop.Once);
        VerifyResult result = Judge(WithHole([new Tab(5, 4)]), text, SkirtHold.Tabs);
        Assert.DoesNotContain("tab-cut", result.Findings.Select(f => f.Code));
        Assert.NotEmpty(result.Programs[0].Loose);
    }

    /// <summary>Round a hole of 6 mm radius at X 50 Y 50, leaving a slug of 3 mm radius.</summary>
    private const string Ring = """
        G0 X54.5 Y50.
        G0 Z20.
        G1 Z19. F300.
        G3 X45.5 Y50. Z18.5 I-4.5 J0. F800.
        G3 X54.5 Y50. Z18. I4.5 J0.
        G3 X45.5 Y50. I-4.5 J0.
        G3 X54.5 Y50. I4.5 J0.
        G0 Z20.

        """;

    private static FixtureDesign WithHole(ImmutableArray<Tab> tabs)
    {
        Contour hole = TestShop.Circle(50, 50, 6);
        TrimCut outline = TrimShop.Design.TrimCuts[0];
        Region ring = new(
            hole,
            [new Contour([.. TestShop.Circle(50, 50, 3).Segments.Reverse().Select(s => s.Reversed)])]
        );
        TrimCut cutout = outline with
        {
            Name = "cutout",
            Kind = TrimKind.Cutout,
            Edge = hole,
            Path = TestShop.Circle(50, 50, 4.5),
            Tabs = tabs,
            Hold = SlugHold.MilledAway,
            Sweep = [ring],
            FloorZ = 18,
        };
        return TrimShop.Design with
        {
            Part = TrimShop.Design.Part with
            {
                Cutouts = [new Contour([.. hole.Segments.Reverse().Select(s => s.Reversed)])],
            },
            TrimCuts = [cutout, outline],
            Magnets = [],
        };
    }

    private static VerifyResult Judge(FixtureDesign design, string text, SkirtHold skirt) =>
        TestShop.Judge(TrimShop.Job with { Skirt = skirt }, design, text, Setup.Trim);

    private static string[] Told(FixtureDesign design, string text, SkirtHold skirt) =>
        [.. Judge(design, text, skirt).Findings.Select(f => $"{f.Where} {f.Code} {f.Message}")];
}
