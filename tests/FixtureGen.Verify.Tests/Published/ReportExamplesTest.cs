using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests.Published;

/// <summary>
/// Examples and error rules of NISTIR 6556, The NIST RS274/NGC Interpreter Version 3 (Kramer, Proctor, Messina, 2000), with the
/// positions that the report gives. Section numbers stand beside each.
/// </summary>
public sealed class ReportExamplesTest
{
    private static readonly Job Job = TestShop.Job(TestShop.EndMill(1, 6)) with
    {
        Control = TestShop.Control with
        {
            CannedCycles = true,
            SplitFullCircles = false,
            Numbers = DecimalHabit.Shortest,
        },
    };

    private static Motion[] Motions(string body, int skip)
    {
        VerifyResult result = TestShop.Judge(Job, TestShop.Design(), TestShop.Program(body));
        Motion[] all = [.. result.Programs[0].Motions];
        int first = Array.FindIndex(all, m => m.Line >= FirstLine);
        return [.. all.Skip(first + skip).Where(m => m.Line < FirstLine + body.Split('\n').Length)];
    }

    private static int FirstLine => TestShop.Program("@").Split('\n').ToList().IndexOf("@") + 1;

    private static string[] Codes(string body) =>
        [
            .. TestShop
                .Judge(Job, TestShop.Design(), TestShop.Program(body))
                .Findings.Where(f => f.Line is { } l && l >= FirstLine)
                .Select(f => f.Code),
        ];

    private static (MotionKind, double, double, double)[] Ends(Motion[] motions) =>
        [.. motions.Select(m => (m.Kind, Math.Round(m.To.X, 6), Math.Round(m.To.Y, 6), Math.Round(m.To.Z, 6)))];

    // 3.5.16 (G81; the number from memory), first example.
    [Fact]
    public void Drilling_absolute_with_old_height()
    {
        Motion[] motions = Motions("G0 X1 Y2 Z3\nG90 G81 G98 X4 Y5 Z1.5 R2.8", 1);
        Assert.Equal(
            [
                (MotionKind.Rapid, 4, 5, 3),
                (MotionKind.Rapid, 4, 5, 2.8),
                (MotionKind.Line, 4, 5, 1.5),
                (MotionKind.Rapid, 4, 5, 3),
            ],
            Ends(motions)
        );
    }

    // 3.5.16 (G81; the number from memory), second example: incremental, three holes.
    [Fact]
    public void Drilling_incremental_three_times()
    {
        Motion[] motions = Motions("G0 X1 Y2 Z3\nG91 G81 G98 X4 Y5 Z-0.6 R1.8 L3", 1);
        (MotionKind, double, double, double)[] wanted =
        [
            (MotionKind.Rapid, 1, 2, 4.8),
            .. new[] { (5.0, 7.0), (9.0, 12.0), (13.0, 17.0) }.SelectMany(h =>
                new (MotionKind, double, double, double)[]
                {
                    (MotionKind.Rapid, h.Item1, h.Item2, 4.8),
                    (MotionKind.Line, h.Item1, h.Item2, 4.2),
                    (MotionKind.Rapid, h.Item1, h.Item2, 4.8),
                }
            ),
        ];
        Assert.Equal(wanted, Ends(motions));
    }

    // 3.5.3.2: from X7 Y7, centre at 10, 11, radius 5.
    [Fact]
    public void Centre_arc_with_helix()
    {
        Motion arc = Motions("G0 X7 Y7\nG17 G2 X10 Y16 I3 J4 Z9", 1).Single();
        Assert.Equal(MotionKind.ArcCw, arc.Kind);
        Assert.Equal(new Point2(10, 11), arc.Centre);
        Assert.Equal(5, arc.From.Xy.DistanceTo(arc.Centre), 9);
        Assert.Equal(new Point3(10, 16, 9), arc.To);
    }

    // 3.5.3.1: "G17 G2 X10 Y15 R20 Z5": a clockwise arc or helix of radius 20 ending at 10, 15, 5.
    [Fact]
    public void Radius_arc_with_helix()
    {
        Motion arc = Motions("G0 X0 Y15\nG17 G2 X10 Y15 R20 Z5", 1).Single();
        Assert.Equal(20, arc.From.Xy.DistanceTo(arc.Centre), 9);
        Assert.Equal(20, arc.To.Xy.DistanceTo(arc.Centre), 9);
        Assert.True(arc.Centre.Y < 15, "clockwise, at most half a turn: the centre lies on the right");
    }

    // 3.3: "g0x +0. 12 34y 7" is equivalent to "g0 x+0.1234 y7".
    [Fact]
    public void Spaces_and_case_do_not_count()
    {
        Motion move = Motions("g0x +0. 12 34y 7", 0).Single();
        Assert.Equal(0.1234, move.To.X, 9);
        Assert.Equal(7, move.To.Y, 9);
    }

    // 3.5.3.2: .002 mm between the radii at start and end is an error.
    [Theory]
    [InlineData("X1.0015", false)]
    [InlineData("X1.0035", true)]
    public void Arc_radii_agree_within_two_thousandths(string end, bool refused) =>
        Assert.Equal(refused, Codes($"G0 X0 Y0\nG2 {end} Y0 I.5 J0").Contains("arc-mismatch"));

    // 3.5.3.2: .0002 inch where inches are in force.
    [Theory]
    [InlineData("X1.00019", false)]
    [InlineData("X1.00021", true)]
    public void Arc_radii_agree_within_two_ten_thousandths_of_an_inch(string end, bool refused) =>
        Assert.Equal(refused, Codes($"G20\nG0 X0 Y0\nG2 {end} Y0 I.5 J0").Contains("arc-mismatch"));

    // 3.5.17: G91 adds to where the tool stands, axis by axis; G90 takes the words as they are.
    [Fact]
    public void Incremental_words_add_to_where_the_tool_stands()
    {
        Motion[] motions = Motions("G0 X10 Y20 Z30\nG91\nG1 X5 Z-1\nG3 X0 Y4 I0 J2\nG90\nX1", 1);
        Assert.Equal([new Point3(15, 20, 29), new Point3(15, 24, 29)], motions.Take(2).Select(m => m.To));
        Assert.Equal(new Point2(15, 22), motions[1].Centre);
        Assert.Contains("arc-form", Codes("G0 X10 Y20\nG3 X10 Y24 I0 J2\nX1"));
    }

    /// <summary>The kernel's published error list: the words, the orphans, the negatives, the arcs, the cycles.</summary>
    [Theory]
    [InlineData("G1 X1 X2", "word-repeated")]
    [InlineData("G0 G1 X1", "modal-conflict")]
    [InlineData("M3 M5", "modal-conflict")]
    [InlineData("G12 X1", "unknown-g")]
    [InlineData("M47", "unknown-m")]
    [InlineData("G0 X1 U2", "unknown-letter")]
    [InlineData("G0 X1 ; HOME", "unknown-letter")]
    [InlineData("G0 X", "number-form")]
    [InlineData("G0 X1..2", "unknown-letter")]
    [InlineData("G1 X1 F-3", "negative-word")]
    [InlineData("S-3", "negative-word")]
    [InlineData("T-1", "negative-word")]
    [InlineData("G4 P-1", "negative-word")]
    [InlineData("G43 H-1", "negative-word")]
    [InlineData("G41 D-1", "negative-word")]
    [InlineData("G81 X1 R5 Z1 L-1", "negative-word")]
    [InlineData("G1 X1 I2", "orphan-word")]
    [InlineData("G1 X1 H3", "orphan-word")]
    [InlineData("G1 X1 D3", "orphan-word")]
    [InlineData("G1 X1 Q3", "orphan-word")]
    [InlineData("G0 X1 L3", "orphan-word")]
    [InlineData("G43", "length-offset-number")]
    [InlineData("G2 I1 J1", "arc-ends-missing")]
    [InlineData("G2 X3", "arc-form")]
    [InlineData("G2 X3 I1 R1", "arc-form")]
    [InlineData("G2 X3 K1", "orphan-word")]
    [InlineData("G2 X30 R1", "arc-radius")]
    [InlineData("G2 X40 Y40 R5", "arc-form")]
    [InlineData("G81 X1 Z1", "cycle-r-missing")]
    [InlineData("G81 X1 R5", "cycle-z-missing")]
    [InlineData("G81 X1 R1 Z5", "cycle-r-low")]
    [InlineData("G83 X1 R5 Z1", "cycle-q")]
    [InlineData("G82 X1 R5 Z1", "cycle-p")]
    [InlineData("G81 X1 R5 Z1 L0", "cycle-l")]
    [InlineData("G80 X1", "motion-mode")]
    [InlineData("G1", "axes-missing")]
    [InlineData("G4", "dwell-missing")]
    [InlineData("G41 D1", "orphan-word")]
    [InlineData("G41", "cutter-comp")]
    [InlineData("G92 X0", "offset-changed")]
    [InlineData("G10 L2 P1 X1", "offset-changed")]
    [InlineData("G93", "inverse-time")]
    [InlineData("N123456 G0 X1", "line-number")]
    [InlineData("(one (two) )", "comment-nested")]
    [InlineData("G0 X[1+2]", "number-form")]
    [InlineData("#1=5", "parameter-used")]
    [InlineData("G0 A5", "rotary-word")]
    [InlineData("G0 B5", "rotary-word")]
    [InlineData("G0 C5", "rotary-word")]
    [InlineData("G38.2 X5", "motion-mode")]
    [InlineData("/G0 X1", "block-delete")]
    [InlineData("T1.5", "integer-wanted")]
    [InlineData("G53 G0 X0", "machine-move")]
    public void Published_errors_are_refused(string line, string code) =>
        Assert.Contains(code, Codes("G0 X40 Y40\n" + line));

    // 3.5.12: of the axis words of G53 at least one must be used (the text from memory, not in the list above).
    [Fact]
    public void A_machine_move_names_an_axis() => Assert.Contains("axes-missing", Codes("G0 X40 Y40\nG53 G0"));

    [Theory]
    [InlineData("G12 G13 X1", "unknown-g")]
    [InlineData("M47 M50", "unknown-m")]
    public void Two_unknown_codes_are_no_conflict(string line, string code) => Assert.Equal([code, code], Codes(line));

    [Fact]
    public void A_line_of_more_than_256_characters_is_refused() =>
        Assert.Contains("line-too-long", Codes("G0 X40 (" + new string('A', 260) + ")"));
}
