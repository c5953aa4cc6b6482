using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>A mark of two strokes, engraved 0.3 mm deep into the shell's face at Z 19 before the trim.</summary>
public sealed class MarkTest
{
    private const string Strokes = """
        G0 X36. Y62.
        G0 Z20.
        G1 Z18.7 F150.
        G1 X42. F600.
        G1 Y66.
        """;

    private static FixtureDesign Design { get; } =
        TrimShop.Design with
        {
            Part = TrimShop.Design.Part with
            {
                Engravings =
                [
                    new EngraveMark(
                        [
                            new OpenPath([
                                Segment.Line(new Point2(36, 62), new Point2(42, 62)),
                                Segment.Line(new Point2(42, 62), new Point2(42, 66)),
                            ]),
                        ],
                        "",
                        new Point2(36, 62),
                        4,
                        0
                    ),
                ],
            },
        };

    /// <summary>A twentieth of the feed melts a plastic as it does in the trim; no grid holds the shell's own material.</summary>
    [Fact]
    public void A_mark_at_a_twentieth_of_its_feed_rubs()
    {
        (string text, _) = Slip.Make(Program(), "G1 X42. F600.", "G1 X42. F30.");
        Assert.Contains(Judge(text).Findings, f => f.Code == "chip-load" && f.Severity == Severity.Error);
    }

    [Theory]
    [InlineData("G1 Z18.7", "G1 Z18.7")]
    [InlineData("G1 Z18.7", "G1 Z18.685")]
    [InlineData("G0 X36. Y62.", "G0 X36. Y62.015")]
    public void Marks_on_their_strokes_pass(string good, string other)
    {
        (string text, _) = Slip.Make(Program(), good, other);
        Slip.Nothing(Judge(text));
    }

    [Theory]
    [InlineData("mark-astray", "G1 Z18.7", "G1 Z18.67")]
    [InlineData("mark-astray", "G1 X42. F600.", "G1 X42. Y62.03 F600.")]
    [InlineData("mark-astray", "G1 X42. F600.", "G3 X42. Y62. I3. J3. F600.")]
    [InlineData("mark-missing", "G1 Y66.\n", "")]
    [InlineData("mark-missing", "G1 Y66.\n", "G1 Y65.\n")]
    [InlineData(
        "mark-missing",
        "G1 X42. F600.\n",
        "G1 X38. F600.\nG0 Z40.\nG0 X40.\nG0 Z20.\nG1 Z18.7 F150.\nG1 X42. F600.\n"
    )]
    public void A_mark_that_is_not_the_drawn_one_is_told(string code, string good, string bad)
    {
        (string text, int line) = Slip.Make(Program(), good, bad);
        VerifyResult result = Judge(text);
        Slip.Found(result, text, line, code);
        Assert.All(result.Findings, f => Assert.StartsWith("mark-", f.Code, StringComparison.Ordinal));
    }

    /// <summary>The engraver called in the trim cutter's place: no distance from marks that are not there.</summary>
    [Fact]
    public void An_engraver_where_nothing_is_marked_is_told_as_such()
    {
        VerifyResult result = Verifier.JudgeOne(
            TrimShop.Job,
            TrimShop.Design,
            "x.nc",
            Program(),
            Setup.Trim,
            [],
            Limits.House,
            null
        );
        Finding[] astray = [.. result.Findings.Where(f => f.Code == "mark-astray")];
        Assert.NotEmpty(astray);
        Assert.All(astray, f => Assert.EndsWith("the drawing has no marks", f.Message, StringComparison.Ordinal));
    }

    [Fact]
    public void Marks_left_out_altogether_are_told_once_a_stroke()
    {
        VerifyResult result = Judge(TrimShop.Program(TrimShop.Once));
        Assert.Equal(["mark-missing", "mark-missing"], result.Findings.Select(f => f.Code));
    }

    private static string Program()
    {
        string marks = "T4 M6\nS10000 M3 M8\nG0 G43 H4 Z40.\n" + Strokes + "\nG0 Z40.\nM5 M9\nT9 M6";
        return TrimShop.Program(TrimShop.Once).Replace("T9 M6", marks, StringComparison.Ordinal);
    }

    private static VerifyResult Judge(string text) =>
        TestShop.Judge(TrimShop.Job with { Skirt = SkirtHold.None }, Design, text, Setup.Trim);
}
