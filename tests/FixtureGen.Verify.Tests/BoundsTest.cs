using System.Globalization;
using System.Text;
using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>What could fill the memory or never end is refused, or judged within a bound of memory; what never ended would not pass.</summary>
public sealed class BoundsTest
{
    private static readonly Job Job = TestShop.Job(
        TestShop.EndMill(1, 6),
        TestShop.Ball(2, 6),
        TestShop.Cone(3, ToolKind.Engraver, 6, 60, 0.4)
    );

    private static VerifyResult Bounded(string text)
    {
        long allocated = GC.GetAllocatedBytesForCurrentThread();
        VerifyResult result = TestShop.Judge(Job, PocketTest.Design, text);
        double megabytes = (GC.GetAllocatedBytesForCurrentThread() - allocated) / 1e6;
        Assert.True(megabytes < 4000, FormattableString.Invariant($"{megabytes:0} MB"));
        return result;
    }

    [Theory]
    [InlineData("G1 X1E9 Y50. Z10.")]
    [InlineData("G0 X40. Y45.\nG1 Z19.\nG1 X99999999999. Y99999999999.")]
    [InlineData("G0 X40. Y45.\nG1 Z19.\nG1 X40. Y-99999999999999999999999999999999999999999.")]
    [InlineData("G0 X40. Y45.\nG1 Z19.\nG3 X40. Y45. Z18. I1000000000. J0.")]
    [InlineData("G0 X40. Y45.\nG1 Z19.\nG2 X40. Y45. Z18. I-1000000000000000. J0.")]
    [InlineData("G0 X40. Y45.\nG1 Z-99999999999.")]
    [InlineData("G0 X40. Y45.\nG1 Z19.\nG3 X40.001 Y45. I0.0005 J0.")]
    [InlineData("G0 X40. Y45.\nG1 Z19.\nG3 X40. Y45. I0.0000001 J0.")]
    public void Absurd_words_are_refused_quickly(string body)
    {
        foreach (int tool in (int[])[1, 2, 3])
        {
            Assert.False(Bounded(TestShop.Program(body, tool)).Ok);
        }
    }

    [Theory]
    [InlineData("G0 X40. Y45.\nG99 G81 X40. Y45. Z30. R40. L999999999")]
    [InlineData("G0 X40. Y45.\nG99 G83 X40. Y45. Z18. R21. Q0.000001")]
    [InlineData("G0 X40. Y45.\nG18\nG3 X40. Z40. I1000000000. K0.")]
    [Trait("Speed", "Slow")]
    public void A_line_of_countless_motions_is_cut_short(string body)
    {
        string text = TestShop.Program(body);
        Assert.Equal(body.Split('\n')[^1], text.Split('\n')[LineOf(Bounded(text), "program-too-long") - 1]);
    }

    [Fact]
    public void A_number_beyond_all_lines_is_refused()
    {
        string text = TestShop.Program("G0 X40. Y45.\nG1 X" + new string('9', 400) + ".");
        Assert.Equal("G1 X999", text.Split('\n')[LineOf(Bounded(text), "line-too-long") - 1][..7]);
    }

    [Theory]
    [InlineData("(T99999999999 MILL)")]
    [InlineData("(T00000000000000000002 MILL)")]
    public void A_comment_of_a_tool_beyond_all_tables_is_told(string comment)
    {
        string text = TestShop
            .Program(PocketTest.Rings)
            .Replace("T1 M6", comment + "\nT1 M6", StringComparison.Ordinal);
        Assert.Equal(comment, text.Split('\n')[LineOf(Bounded(text), "tool-comment") - 1]);
    }

    private static int LineOf(VerifyResult result, string code) =>
        result.Findings.First(f => f.Code == code).Line!.Value;

    [Fact]
    public void Very_many_lines_are_refused_unread()
    {
        VerifyResult result = Bounded(
            TestShop.Program(string.Concat(Enumerable.Repeat("G1 X41.\nG1 X40.\n", 500_000)))
        );
        Assert.False(result.Ok);
        Finding finding = Assert.Single(result.Findings);
        Assert.Equal("program-too-long", finding.Code);
        Assert.Equal("the program has 1000021 lines, 100000 is the most", finding.Message);
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void Twenty_thousand_long_moves_are_judged_in_bounds()
    {
        StringBuilder body = new("G0 X1. Y1.\nG1 Z19.\n");
        for (int i = 0; i < 20_000; i++)
        {
            body.Append(i % 2 == 0 ? "G1 X99. Y99.\n" : "G1 X1. Y1.\n");
        }
        VerifyResult result = Bounded(TestShop.Program(body.ToString()));
        Assert.Contains(result.Findings, f => f.Code == "gouge");
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void Crowds_of_tiny_arcs_are_judged_in_bounds()
    {
        StringBuilder body = new("G0 X40. Y50.\nG1 Z20.\nG1 X60. Z18.\n");
        for (int i = 0; i < 20_000; i++)
        {
            string word = i % 2 == 0 ? "G3 X60.02 Y50. I0.01 J0.\n" : "G3 X60. Y50. I-0.01 J0.\n";
            body.Append(CultureInfo.InvariantCulture, $"{word}");
        }
        Assert.False(Bounded(TestShop.Program(body.ToString())).Ok);
    }

    [Theory]
    [InlineData(3000, 3000)]
    [InlineData(1e9, 1e9)]
    [InlineData(1e300, 1e300)]
    [InlineData(double.PositiveInfinity, 10)]
    public void A_huge_blank_is_refused(double width, double height)
    {
        FixtureDesign design = PocketTest.Design with
        {
            Placement = PocketTest.Design.Placement with { BlankBox = new Box2(0, 0, width, height) },
        };
        VerifyResult result = TestShop.Judge(Job, design, TestShop.Program(PocketTest.Rings));
        Assert.False(result.Ok);
        Assert.Equal("block-too-large", Assert.Single(result.Findings).Code);
    }
}
