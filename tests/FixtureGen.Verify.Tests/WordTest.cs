using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>Words that do nothing where they stand, words that only the control's own lines may say, and what is no plain text.</summary>
public sealed class WordTest
{
    private static VerifyResult Judge(string body) =>
        TestShop.Judge(PocketTest.Job, PocketTest.Design, TestShop.Program(body + "\n" + PocketTest.Rings));

    [Theory]
    [InlineData("orphan-word", "P2.")]
    [InlineData("orphan-word", "L3")]
    [InlineData("orphan-word", "Q0.5")]
    [InlineData("orphan-word", "I1.")]
    [InlineData("orphan-word", "R1.")]
    [InlineData("orphan-word", "G0 X40. P1.")]
    [InlineData("orphan-word", "G0 X40. R1.")]
    [InlineData("orphan-word", "G0 X40. I1.")]
    [InlineData("orphan-word", "G0 X40. L2")]
    [InlineData("orphan-word", "G28 Z60. R1.")]
    [InlineData("orphan-word", "G53 G0 Z0. P1.")]
    [InlineData("orphan-word", "H1")]
    [InlineData("orphan-word", "D1")]
    [InlineData("path-mode", "G64")]
    [InlineData("path-mode", "G61")]
    [InlineData("path-mode", "G61.1")]
    [InlineData("unknown-m", "M7")]
    [InlineData("unknown-m", "M49")]
    [InlineData("unknown-m", "M60")]
    [InlineData("unknown-m", "M98 P1000")]
    [InlineData("not-plain-text", "(GR\u00d6SSE 3)")]
    [InlineData("not-plain-text", "G0 X40.\u0013")]
    [InlineData("not-plain-text", "(A\u0000B)")]
    [InlineData("not-plain-text", "(A\u007fB)")]
    [InlineData("not-plain-text", "(A\rB)")]
    [InlineData(
        "line-too-long",
        "G0 X000000000000000000000000000000000000000000000000000000000000000000000000000000000000000000000000000000000000000000000000000040."
    )]
    public void A_word_without_a_use_is_refused(string code, string line)
    {
        VerifyResult result = Judge(line);
        Assert.Contains(code, result.Findings.Select(f => f.Code));
        Assert.False(result.Ok);
    }

    [Theory]
    [InlineData("G4 P0.5")]
    [InlineData("G80")]
    [InlineData("N10 G0 X40.")]
    public void Words_with_a_use_pass(string line) => Slip.Nothing(Judge(line));

    /// <summary>What the control's own safe start says is its own: the mode, and the very tolerance.</summary>
    [Theory]
    [InlineData("G64 P0.05", false)]
    [InlineData("G64 P0.5", true)]
    [InlineData("G64", false)]
    [InlineData("G61", true)]
    public void A_path_mode_of_the_controls_own_passes(string line, bool told)
    {
        string text = TestShop.Program(PocketTest.Rings).Replace("M64\n", line + "\nM64\n", StringComparison.Ordinal);
        string start = "G21 G17 G40 G49 G80 G90 G94 {work}";
        VerifyResult result = TestShop.Judge(
            PocketTest.Job with
            {
                Control = TestShop.Control with { SafeStart = [start, "G64 P0.05"] },
            },
            PocketTest.Design,
            line == "G64 P0.05" ? text : text.Replace("M64\n", "G64 P0.05\nM64\n", StringComparison.Ordinal)
        );
        Assert.Equal(told, !result.Ok);
    }

    /// <summary>However much a text says, a finding repeats little of it.</summary>
    [Theory]
    [InlineData("X")]
    [InlineData("(")]
    [InlineData("G1 X1.")]
    [InlineData("N")]
    [InlineData("#")]
    [InlineData("G")]
    [InlineData("M")]
    [InlineData("/")]
    [InlineData("F-")]
    public void A_finding_repeats_no_more_than_two_hundred_characters(string begin)
    {
        foreach (int length in (int[])[200, 5000])
        {
            string said = begin + string.Concat(Enumerable.Repeat("81", length / 2));
            string text = TestShop.Program(said) + said + "\n";
            foreach (var finding in TestShop.Judge(PocketTest.Job, PocketTest.Design, text).Findings)
            {
                Assert.False(
                    finding.Message.Contains(said[..Math.Min(said.Length, 199)], StringComparison.Ordinal),
                    finding.Code
                );
                Assert.InRange(finding.Message.Length, 1, 400);
            }
        }
    }
}
