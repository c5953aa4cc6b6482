using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests.Published;

/// <summary>
/// Arcs in the other planes, peck cycles and the way home as NISTIR 6556 defines them: 3.5.3 (G18 turns from Z to X, G19 from Y to Z),
/// 3.5.16.3 (G83), 3.5.8 (G28, G30). G73 is the peck that the report's table of cycles leaves to controls that declare it.
/// </summary>
public sealed class PlanesAndCyclesTest
{
    private static readonly Control Control = TestShop.Control with
    {
        CannedCycles = true,
        PeckHighSpeed = true,
        SplitFullCircles = false,
        Numbers = DecimalHabit.Shortest,
    };

    private static int FirstLine => TestShop.Program("@").Split('\n').ToList().IndexOf("@") + 1;

    /// <summary>From Z 5 a quarter counter-clockwise about X 10 Z 10 passes on the side of the lesser X; Y climbs evenly.</summary>
    [Theory]
    [InlineData("G18 G3 X5 Z10 Y24 I0 K5", false)]
    [InlineData("G18 G3 X5 Z10 Y24 R5", false)]
    [InlineData("G18 G2 X5 Z10 Y24 I0 K5", true)]
    [InlineData("G18 G2 X5 Z10 Y24 R-5", true)]
    public void An_arc_of_G18_turns_from_Z_to_X(string arc, bool theLongWay)
    {
        Motion[] chords = Motions("G0 X10 Y20\nZ5\n" + arc, 2);
        Assert.Equal(new Point3(5, 24, 10), chords[^1].To);
        Assert.Equal(theLongWay ? 15 : 10, chords.Max(m => Math.Max(m.From.X, m.To.X)), 0.002);
        Assert.Equal(theLongWay ? 15 : 10, chords.Max(m => m.To.Z), 0.002);
        OnCircle(chords, p => new Point2(p.Z - 10, p.X - 10), p => (p.Y - 20) / 4, theLongWay ? -270 : 90, 180);
    }

    [Theory]
    [InlineData("G19 G3 Y20 Z15 X12 J0 K5", false)]
    [InlineData("G19 G2 Y20 Z15 X12 J0 K5", true)]
    public void An_arc_of_G19_turns_from_Y_to_Z(string arc, bool clockwise)
    {
        Motion[] chords = Motions("G0 X10 Y20\nZ5\n" + arc, 2);
        Assert.Equal(new Point3(12, 20, 15), chords[^1].To);
        Assert.Equal(clockwise ? 15 : 20, chords.Min(m => m.To.Y), 0.002);
        OnCircle(chords, p => new Point2(p.Y - 20, p.Z - 10), p => (p.X - 10) / 2, clockwise ? -180 : 180, -90);
    }

    /// <summary>Feed down by Q, rapid up to R, rapid down to just above the old depth, and so on.</summary>
    [Fact]
    public void A_peck_cycle_clears_the_hole_at_every_peck() =>
        Assert.Equal(
            [
                (MotionKind.Rapid, 30),
                (MotionKind.Rapid, 22),
                (MotionKind.Line, 19),
                (MotionKind.Rapid, 22),
                (MotionKind.Rapid, 19.254),
                (MotionKind.Line, 16),
                (MotionKind.Rapid, 22),
                (MotionKind.Rapid, 16.254),
                (MotionKind.Line, 15),
                (MotionKind.Rapid, 30),
            ],
            Heights("G0 X10 Y10\nZ30\nG98 G83 X20 Y20 R22 Z15 Q3", 2)
        );

    [Fact]
    public void Heights_and_pecks_of_a_cycle_are_in_the_unit_in_force() =>
        Assert.Equal(
            [
                (MotionKind.Rapid, 25.4),
                (MotionKind.Rapid, 22.86),
                (MotionKind.Line, 21.59),
                (MotionKind.Rapid, 22.86),
                (MotionKind.Rapid, 21.844),
                (MotionKind.Line, 20.32),
                (MotionKind.Rapid, 25.4),
            ],
            Heights("G20 G0 X1 Y1\nZ1\nG83 X1.5 Y1 R0.9 Z0.8 Q0.05", 2)
        );

    [Fact]
    public void A_fast_peck_only_breaks_the_chip_and_ends_at_R_under_G99() =>
        Assert.Equal(
            [
                (MotionKind.Rapid, 30),
                (MotionKind.Rapid, 22),
                (MotionKind.Line, 19),
                (MotionKind.Rapid, 19.254),
                (MotionKind.Line, 16),
                (MotionKind.Rapid, 22),
            ],
            Heights("G0 X10 Y10\nZ30\nG99 G73 X20 Y20 R22 Z16 Q3", 2)
        );

    /// <summary>A cycle's words hold for the next hole; another cycle must say its own.</summary>
    [Fact]
    public void Words_of_a_cycle_hold_until_it_ends()
    {
        Assert.Equal(
            [(20.0, 15.0), (30.0, 15.0)],
            Motions("G0 X10 Y10\nZ30\nG81 X20 Y20 R22 Z15\nX30", 0)
                .Where(m => m.Kind == MotionKind.Line)
                .Select(m => (m.To.X, m.To.Z))
        );
        Assert.Contains("cycle-r-missing", Codes("G81 X20 Y20 R22 Z15\nG80\nG81 X30"));
    }

    [Fact]
    public void G28_without_axes_goes_up_before_it_goes_home()
    {
        Point3[] ends = [.. Motions("G0 X10 Y10\nZ30\nG28", 2).Select(m => m.To)];
        Assert.Equal([new Point3(10, 10, 120), new Point3(-50, 150, 120)], ends);
    }

    [Theory]
    [InlineData("G28 X20 Y25", 20, 25, 30, -50, 150, 30)]
    [InlineData("G28 Z35", 10, 10, 35, 10, 10, 120)]
    [InlineData("G30 Y25", 10, 25, 30, 10, 150, 30)]
    public void G28_goes_home_through_the_point_that_it_names(
        string line,
        double x,
        double y,
        double z,
        double homeX,
        double homeY,
        double homeZ
    )
    {
        Motion[] motions = Motions("G0 X10 Y10\nZ30\n" + line, 2);
        // an axis that the line does not name stays where the point is
        Point3 through = new(x, y, z);
        Point3 home = new(
            line.Contains('X', StringComparison.Ordinal) ? homeX : x,
            line.Contains('Y', StringComparison.Ordinal) ? homeY : y,
            line.Contains('Z', StringComparison.Ordinal) ? homeZ : z
        );
        Assert.Equal([through, home], motions.Select(m => m.To));
        Assert.All(motions, m => Assert.Equal(MotionKind.Rapid, m.Kind));
    }

    [Fact]
    public void G28_where_the_tool_stands_is_one_motion() =>
        Assert.Equal(new Point3(10, 10, 120), Motions("G0 X10 Y10\nZ30\nG91 G28 Z0\nG90", 2).Single().To);

    /// <summary>The whole way home is travel in the machine's own positions: the end of a good program, nothing to be told.</summary>
    [Fact]
    public void A_program_may_end_with_G28_alone()
    {
        Job job = PocketTest.Job with { Control = TestShop.Control with { Home = ["G28"] } };
        string text = TestShop.Program(PocketTest.Rings).Replace("G53 G0 Z0.", "G28", StringComparison.Ordinal);
        Slip.Nothing(TestShop.Judge(job, PocketTest.Design, text));
    }

    [Theory]
    [InlineData("X40", "axis words without a motion mode")]
    [InlineData("G38.2 X40", "G38.2 is not judged")]
    public void Where_no_motion_is_in_force_the_message_says_which(string line, string message)
    {
        string text = TestShop.Program("").Replace("G0 G43", line + "\nG0 G43", StringComparison.Ordinal);
        Assert.Equal(
            message,
            TestShop.Judge(Job, TestShop.Design(), text).Findings.First(f => f.Code == "motion-mode").Message
        );
    }

    [Theory]
    [InlineData("G0 X10\nG53 Z5", "machine-move")]
    [InlineData("G80\nG53 Z0", "machine-move")]
    [InlineData("G53 G0 Z-20", "machine-move")]
    [InlineData("G53 G0 Z0\nG53 G0 Y-20", "machine-move")]
    [InlineData("G0 Z40\nG53 Y0", "machine-move")]
    [InlineData("G91\nG53 G0 Z0\nG90", "machine-move")]
    [InlineData("G18\nG81 X20 Y20 R22 Z15\nG17", "cycle-plane")]
    [InlineData("M3 M8 M64 M66 M48", "too-many-m")]
    [InlineData("G28 G1 X20", "axis-words-twice")]
    [InlineData("G80 R5", "orphan-word")]
    [InlineData("G1 X40\nI5", "orphan-word")]
    [InlineData("G1 X40\nJ5", "orphan-word")]
    [InlineData("G1 X40\nK5", "orphan-word")]
    [InlineData("G1 X40\nR5", "orphan-word")]
    [InlineData("G1 X40\nQ5", "orphan-word")]
    [InlineData("G1 X40 J5", "orphan-word")]
    [InlineData("G1 X40 K5", "orphan-word")]
    [InlineData("G1 X40 R5", "orphan-word")]
    [InlineData("G1 X40 P5", "orphan-word")]
    [InlineData("G81 X20 Y20 R22 Z15 Q3", "orphan-word")]
    [InlineData("G81 X20 Y20 R22 Z15 P3", "orphan-word")]
    [InlineData("G0 X10 Y10\nG2 X20 Y10 R10 L2", "orphan-word")]
    [InlineData("G4 P130", "dwell-long")]
    [InlineData("O1001", "program-number-place")]
    [InlineData("G18 G2 X50 Z10 I5 J5", "orphan-word")]
    [InlineData("G0 Z22\nG17 G2 Z20 I5", "arc-ends-missing")]
    public void What_the_report_refuses_here_too(string lines, string code) => Assert.Contains(code, Codes(lines));

    [Theory]
    [InlineData("M3 M8 M64 M66")]
    [InlineData("G0 X40 Y40\nG2 X40 Y40 I5 J0")]
    [InlineData("G0 X40 Y40\nG3 X40 Y40 I-5 J0 Z39")]
    [InlineData("G4 P119")]
    [InlineData("G53 G0 Z0")]
    [InlineData("G53 G0 Z0\nG53 G0 X0 Y0")]
    [InlineData("G81 X20 Y20 R22 Z21 L1")]
    public void What_it_allows_is_read_without_a_reading_error(string lines) =>
        Assert.DoesNotContain(
            Codes(lines),
            c =>
                c.StartsWith("machine", StringComparison.Ordinal)
                || c.StartsWith("cycle", StringComparison.Ordinal)
                || c
                    is "too-many-m"
                        or "dwell-long"
                        or "orphan-word"
                        or "axes-missing"
                        or "arc-sweep"
                        or "modal-conflict"
        );

    private static Job Job => TestShop.Job(TestShop.EndMill(1, 6)) with { Control = Control };

    private static VerifyResult Judge(string body) => TestShop.Judge(Job, TestShop.Design(), TestShop.Program(body));

    private static Motion[] Motions(string body, int skip)
    {
        int past = FirstLine + body.Split('\n').Length;
        return [.. Judge(body).Programs[0].Motions.Where(m => m.Line >= FirstLine && m.Line < past).Skip(skip)];
    }

    private static (MotionKind, double)[] Heights(string body, int skip) =>
        [.. Motions(body, skip).Select(m => (m.Kind, Math.Round(m.To.Z, 6)))];

    private static string[] Codes(string body)
    {
        int past = FirstLine + body.Split('\n').Length;
        return [.. Judge(body).Findings.Where(f => f.Line is { } l && l >= FirstLine && l < past).Select(f => f.Code)];
    }

    /// <summary>Every end lies on the circle of radius 5, as far round from the start angle as along the axis, and no chord leaves it by 2 um.</summary>
    private static void OnCircle(
        Motion[] chords,
        Func<Point3, Point2> flat,
        Func<Point3, double> share,
        double sweepDeg,
        double fromDeg
    )
    {
        foreach (Motion chord in chords)
        {
            Point2 p = flat(chord.To);
            double angle = (fromDeg + (sweepDeg * share(chord.To))) * Math.PI / 180;
            Assert.Equal(5 * Math.Cos(angle), p.X, 6);
            Assert.Equal(5 * Math.Sin(angle), p.Y, 6);
            Assert.InRange(((p + flat(chord.From)) * 0.5).Length, 5 - 0.002, 5);
        }
    }
}
