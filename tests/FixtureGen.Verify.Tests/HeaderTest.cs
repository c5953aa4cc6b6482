using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>
/// The comments that the operator reads before he starts. Capitals, spaces and signs do not count, nor where a line is broken; the trim
/// opens with the label itself, a block's program with the fixture's name.
/// </summary>
public sealed class HeaderTest
{
    private static string Block { get; } = TestShop.Program(PocketTest.Rings);

    private static string Trim { get; } = TrimShop.Program(TrimShop.Once);

    [Theory]
    [InlineData("(PINS OUT)", "(Pins out!)")]
    [InlineData("(PINS OUT)\n(BOLTS OUT)", "(BOLTS AND PINS: BOLTS OUT, PINS OUT)")]
    [InlineData("TEST F001 R1)", "TEST)\n(F001 R1)")]
    [InlineData("(PROGRAM 1001 FOR", "(PROGRAM 01001 FOR")]
    [InlineData("(PROGRAM 1001 FOR", "(PROGRAM 7, PROGRAM 1001 FOR")]
    [InlineData("(PROGRAM 1001 FOR", "(PROGRAM)\n(1001)\n(2 SHEETS FOR")]
    public void A_block_may_say_it_in_its_own_manner(string good, string other)
    {
        (string text, _) = Slip.Make(Block, good, other);
        Slip.Nothing(TestShop.Judge(PocketTest.Job, PocketTest.Design, text));
    }

    [Theory]
    [InlineData("label-mismatch", "(F001 REV 1", "(F002 REV 1")]
    [InlineData("label-mismatch", "(F001 REV 1 BLOCK TOP)\n", "(BLOCK TOP OF F001)\n")]
    [InlineData("label-mismatch", "FIXTURE TEST F001 R1)", "FIXTURE TEST F001)")]
    [InlineData("number-line-missing", "(PROGRAM 1001 FOR", "(PROGRAM 10012 FOR")]
    [InlineData("number-line-missing", "(PROGRAM 1001 FOR", "(PROGRAM 11001 FOR")]
    [InlineData("number-line-missing", "(PROGRAM 1001 FOR", "(PROGRAM 100 FOR")]
    [InlineData("number-line-missing", "(PROGRAM 1001 FOR", "(PROGRAMME 1001 FOR")]
    [InlineData("operator-line-missing", "(PINS OUT)", "(PINS IN)")]
    [InlineData("operator-line-missing", "(BOLTS OUT)", "(BOLTS IN)")]
    [InlineData("operator-line-missing", "(BOLTS OUT)\nG21 G17 G40", "G21 G17 G40 (BOLTS OUT)")]
    public void A_block_that_does_not_say_it_is_refused(string code, string good, string bad)
    {
        (string text, int line) = Slip.Make(Block, good, bad);
        VerifyResult result = TestShop.Judge(PocketTest.Job, PocketTest.Design, text);
        Assert.Equal([code], result.Findings.Select(f => f.Code));
        Assert.False(result.Ok);
        Assert.All(result.Findings, f => Assert.InRange(f.Line ?? 0, 3, line + 4));
    }

    /// <summary>A trim whose number became the top's is read as the top: told what that must open with, not the label it has.</summary>
    [Fact]
    public void A_label_that_is_there_is_not_told_to_be_missing()
    {
        (string text, _) = Slip.Make(Block, "(F001 REV 1 BLOCK TOP)\n", "(TEST F001 R1)\n");
        VerifyResult result = TestShop.Judge(PocketTest.Job, PocketTest.Design, text);
        Finding finding = Assert.Single(result.Findings, f => f.Code == "label-mismatch");
        Assert.EndsWith(
            "read as the block's top, it must open with 'F001', and the label 'TEST F001 R1' after it",
            finding.Message,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("label-mismatch", "(TEST F001 R1)", "(TEST F001 R2)")]
    [InlineData("label-mismatch", "(TEST F001 R1)", "(NOT TEST F001 R1)")]
    [InlineData("operator-line-missing", "(PINS IN, BOLTS IN)", "(PINS IN, BOLTS OUT)")]
    [InlineData("magnet-count", "(1 MAGNETS", "(11 MAGNETS")]
    [InlineData("magnet-count", "(1 MAGNETS ON THE SHELL)", "(1 MAGNETS LIE READY)")]
    public void A_trim_that_does_not_say_it_is_refused(string code, string good, string bad)
    {
        (string text, int line) = Slip.Make(Trim, good, bad);
        VerifyResult result = Judge(TrimShop.Design, text);
        Slip.Found(result, text, line, code);
        Assert.Equal([code], result.Findings.Select(f => f.Code));
    }

    /// <summary>Without magnets nobody need stop to look at them; with them a stop that no switch passes over must come before the first cut and say so.</summary>
    [Theory]
    [InlineData("(CHECK VACUUM AND MAGNETS)\nM0\n", "(CHECK VACUUM)\nM1\n", true)]
    [InlineData("(CHECK VACUUM AND MAGNETS)\nM0\n", "(CHECK VACUUM AND MAGNETS)\nM1\n", true)]
    [InlineData("(CHECK VACUUM AND MAGNETS)\nM0\n", "(MAGNETS)\nM0\n", false)]
    [InlineData("(CHECK VACUUM AND MAGNETS)\nM0\n", "(MAGNETS)\nG4 P1.\nM0\n", true)]
    public void The_stop_for_the_magnets_says_magnets(string good, string other, bool told)
    {
        (string text, _) = Slip.Make(Trim, good, other);
        Assert.Equal(told ? ["magnet-stop"] : [], Judge(TrimShop.Design, text).Findings.Select(f => f.Code));
        FixtureDesign none = TrimShop.Design with { Magnets = [] };
        string without = text.Replace("(1 MAGNETS", "(0 MAGNETS", StringComparison.Ordinal);
        Slip.Nothing(Judge(none, without));
    }

    /// <summary>The operator finds the label among the comments; what stands before it does no harm.</summary>
    [Theory]
    [InlineData("(TEST F001 R1)\n(PROGRAM 1001 TRIM)", "(PROGRAM 1001 TRIM)\n(TEST F001 R1)")]
    [InlineData("(TEST F001 R1)", "(EDITED BY HAND)\n(TEST F001 R1)")]
    [InlineData("O1001\n", "O1001 (CRADLE)\n")]
    public void A_comment_before_the_label_is_no_fault(string good, string other)
    {
        (string text, _) = Slip.Make(Trim, good, other);
        Slip.Nothing(Judge(TrimShop.Design, text));
    }

    [Fact]
    public void A_stop_after_the_cut_comes_too_late_for_the_magnets()
    {
        string text = Trim.Replace("(CHECK VACUUM AND MAGNETS)\nM0\n", "", StringComparison.Ordinal)
            .Replace("G0 Z40.\nM5 M9\n", "G0 Z40.\nM5 M9\n(MAGNETS)\nM0\n", StringComparison.Ordinal);
        Assert.Equal(["magnet-stop"], Judge(TrimShop.Design, text).Findings.Select(f => f.Code));
    }

    /// <summary>A lone file of no known number, and a design without a label, are not held to one.</summary>
    [Fact]
    public void What_the_job_does_not_say_is_not_asked_for()
    {
        string text = Block
            .Replace("PROGRAM 1001", "SHEET", StringComparison.Ordinal)
            .Replace("TEST F001 R1", "NOBODY", StringComparison.Ordinal);
        VerifyRequest request = new(
            PocketTest.Job,
            PocketTest.Design with
            {
                Label = "",
            },
            [new ProgramText(Setup.Top, 0, "test.top.nc", text)],
            Limits.House
        )
        {
            Drawing = null,
        };
        Slip.Nothing(Verifier.Judge(request));
    }

    private static VerifyResult Judge(FixtureDesign design, string text) =>
        TestShop.Judge(TrimShop.Job with { Skirt = SkirtHold.None }, design, text, Setup.Trim);

    /// <summary>60 kPa (17.7 inHg) is the job's alarm level; said on two lines it is read all the same.</summary>
    [Theory]
    [InlineData("(VACUUM AT LEAST 60 KPA)", false)]
    [InlineData("(VACUUM AT LEAST 65 KPA)", false)]
    [InlineData("(VACUUM 17.7 INHG)", false)]
    [InlineData("(VACUUM AT LEAST 50 KPA)", true)]
    [InlineData("(VACUUM 15 INHG)", true)]
    [InlineData("(VACUUM TO SEE 50)\n(KPA)", true)]
    [Trait("Speed", "Slow")]
    public void A_level_below_the_alarm_is_refused(string said, bool told)
    {
        string text = TrimShop
            .Program(TrimShop.Once)
            .Replace("(PINS IN", said + "\n(PINS IN", StringComparison.Ordinal);
        VerifyResult result = TestShop.Judge(TrimShop.Job, TrimShop.Design, text, Setup.Trim);
        Assert.Equal(told ? ["vacuum-level"] : [], result.Findings.Select(f => f.Code));
    }
}
