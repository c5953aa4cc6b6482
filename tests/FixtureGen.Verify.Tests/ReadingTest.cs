using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>The words that a control file declares, and the frame it wants round a program.</summary>
public sealed class ReadingTest
{
    private static string Good { get; } = TestShop.Program(PocketTest.Rings);

    [Theory]
    [InlineData("program-number-form", "O1001", "O")]
    [InlineData("program-number-form", "O1001", "O101")]
    [InlineData("program-number-form", "O1001", "O1001 G21")]
    [InlineData("program-number-form", "O1001", "O99999999999")]
    [InlineData("program-number-missing", "O1001\n", "")]
    [InlineData("program-number-place", "O1001\n", "O1001\nO1001\n")]
    [InlineData("cycle-undeclared", "G1 Z20.", "G81 Z20. R21.")]
    [InlineData("arc-sweep", "G3 X34. Y43. I1. J0.", "G2 X34. Y43. I1. J0.")]
    [InlineData("safe-start", "G80 ", "", "G0 G43")]
    [InlineData("after-end", "M30\n", "M30\nM5\n")]
    public void A_slip_in_the_frame_is_told(string code, string good, string bad, string? told = null)
    {
        (string text, int line) = Slip.Make(Good, good, bad);
        Job job = PocketTest.Job with
        {
            Control = TestShop.Control with { CannedCycles = false, MaxArcSweepDeg = 100 },
        };
        Slip.Found(TestShop.Judge(job, PocketTest.Design, text), text, line, code, told);
    }

    [Fact]
    public void A_word_of_the_safe_start_may_stand_in_the_first_motions_own_line()
    {
        string text = Good.Replace("G40 ", "", StringComparison.Ordinal)
            .Replace("G0 G43", "G40 G0 G43", StringComparison.Ordinal);
        Slip.Nothing(Judge(text, TestShop.Control));
    }

    [Theory]
    [InlineData(359.99, false)]
    [InlineData(90, false)]
    [InlineData(89, true)]
    public void Arcs_up_to_the_controls_greatest_sweep_pass(double most, bool told)
    {
        VerifyResult result = Judge(Good, TestShop.Control with { MaxArcSweepDeg = most });
        Assert.Equal(told, result.Findings.Any(f => f.Code == "arc-sweep"));
        Assert.Equal(told, !result.Ok);
    }

    [Fact]
    public void A_control_without_percent_lines_wants_none()
    {
        Control control = TestShop.Control with { PercentLines = false };
        Assert.Equal(["percent-unwanted"], Judge(Good, control).Findings.Select(f => f.Code));
        Slip.Nothing(Judge(Good.Replace("%\n", "", StringComparison.Ordinal), control));
    }

    [Theory]
    [InlineData("%\nO1001", "O1001")]
    [InlineData("M30\n%\n", "M30\n")]
    public void One_percent_line_that_is_missing_is_told_once(string good, string bad)
    {
        (string text, _) = Slip.Make(Good, good, bad);
        Assert.Equal(["percent-missing"], Judge(text, TestShop.Control).Findings.Select(f => f.Code));
    }

    [Fact]
    public void A_control_without_program_numbers_wants_none()
    {
        string text = Good.Replace("O1001\n", "", StringComparison.Ordinal);
        Slip.Nothing(Judge(text, TestShop.Control with { ProgramNumberWord = "" }));
    }

    [Fact]
    public void A_short_line_length_is_the_controls_own()
    {
        int longest = Good.Split('\n').Max(l => l.Length);
        Slip.Nothing(Judge(Good, TestShop.Control with { LineLength = longest }));
        Control shorter = TestShop.Control with { LineLength = longest - 1 };
        Assert.Equal(["line-too-long"], Judge(Good, shorter).Findings.Select(f => f.Code));
    }

    [Fact]
    public void Parentheses_are_no_comment_for_a_control_that_writes_semicolons()
    {
        Control control = TestShop.Control with { Comment = CommentForm.Semicolon };
        (string text, int line) = Slip.Make(Good, "(PINS OUT)", "(PINS OUT)");
        Slip.Found(Judge(text, control), text, line, "unknown-letter");
    }

    /// <summary>Milliseconds or seconds, by the control's own letter: what waits over two minutes was meant otherwise.</summary>
    [Theory]
    [InlineData(DwellUnit.Seconds, "P", "G4 P119.", false)]
    [InlineData(DwellUnit.Seconds, "P", "G4 P121.", true)]
    [InlineData(DwellUnit.Milliseconds, "P", "G4 P119000.", false)]
    [InlineData(DwellUnit.Milliseconds, "P", "G4 P121000.", true)]
    [InlineData(DwellUnit.Seconds, "X", "G4 X119.", false)]
    [InlineData(DwellUnit.Seconds, "X", "G4 X121.", true)]
    public void A_dwell_is_read_in_the_controls_unit(DwellUnit unit, string word, string dwell, bool told)
    {
        (string text, int line) = Slip.Make(Good, "G0 X40. Y45.\n", "G0 X40. Y45.\n" + dwell + "\n");
        VerifyResult result = Judge(text, TestShop.Control with { Dwell = unit, DwellWord = word });
        Assert.Equal(told ? ["dwell-long"] : [], result.Findings.Select(f => f.Code));
        Assert.All(result.Findings, f => Assert.Equal(line + 1, f.Line));
    }

    /// <summary>Words in small letters mean the same, in a control file as in a program.</summary>
    [Fact]
    public void A_control_may_write_its_words_small()
    {
        Control control = TestShop.Control with { VacuumOn = "m64", VacuumOff = "m65", VacuumWait = "m66" };
        Slip.Nothing(Judge(Good, control));
    }

    /// <summary>Without vacuum words the operator switches it on and reads the gauge: a stop whose comment says so proves it.</summary>
    [Theory]
    [InlineData("(VACUUM ON, READ 60 KPA)\nM0", false)]
    [InlineData("M0 (Vacuum on, 60 kPa)", false)]
    [InlineData("(CLEAN THE PLATE)\nM0", true)]
    [InlineData("(NO VACUUM NEEDED)\nM0", true)]
    [InlineData("(60 KPA)\n(VACUUM OFF)\nM0", true)]
    [InlineData("(VACUUM ON, READ 60 KPA)\nM0\n(VACUUM OFF)\nM0", true)]
    [InlineData("(VACUUM ON)\nM1", true)]
    [InlineData("(VACUUM ON)\nG4 P1.\nM0", true)]
    public void Vacuum_by_hand_is_proven_by_a_stop_that_says_so(string stop, bool told)
    {
        string text = Good.Replace("M64\nM66", stop, StringComparison.Ordinal)
            .Replace("M65\n", "", StringComparison.Ordinal);
        VerifyResult result = Judge(text, TestShop.Control with { VacuumOn = "", VacuumOff = "", VacuumWait = "" });
        Assert.Equal(told, result.Findings.Any(f => f.Code == "vacuum-not-proven"));
        Assert.Equal(!told, result.Ok);
    }

    /// <summary>Twelve findings of one code are told in full, the rest is counted behind all others.</summary>
    [Theory]
    [InlineData(12, 12, "")]
    [InlineData(13, 13, "and 1 more of the same")]
    [InlineData(20, 13, "and 8 more of the same")]
    public void Many_findings_of_one_code_are_counted(int slips, int told, string rest)
    {
        string unknown = string.Concat(Enumerable.Repeat("M47\n", slips));
        string text = Good.Replace("M64\n", "M64\n" + unknown, StringComparison.Ordinal)
            .Replace("M65\n", "", StringComparison.Ordinal);
        Finding[] findings = [.. Judge(text, TestShop.Control).Findings];
        Finding[] all = [.. findings.Where(f => f.Code == "unknown-m")];
        Assert.Equal(told, all.Length);
        Assert.Single(findings, f => f.Code == "vacuum-left-on");
        if (rest.Length > 0)
        {
            Assert.Equal((rest, Severity.Error), (findings[^1].Message, findings[^1].Severity));
        }
    }

    private static VerifyResult Judge(string text, Control control) =>
        TestShop.Judge(PocketTest.Job with { Control = control }, PocketTest.Design, text);
}
