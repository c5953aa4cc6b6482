using System.Globalization;
using System.Text.RegularExpressions;
using CsCheck;
using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests.Holding;

/// <summary>Hand-written trims whose hold is a little above the limit, and edits that take it below.</summary>
public sealed partial class TrimHoldTest
{
    private static readonly HoldPlace Good = Judge(TrimShop.Once).Vacuum!;

    /// <summary>The house limit stands a little below the good program's own factor.</summary>
    private static Job Tight { get; } =
        TrimShop.Job with
        {
            Limits = TrimShop.Job.Limits with { VacuumFactor = 0.97 * Good.Factor },
            Tools =
            [
                .. TrimShop.Job.Tools,
                TestShop.EndMill(7, 3) with
                {
                    Name = "one flute",
                    Flutes = 1,
                    HelixAngleDeg = 45,
                    MaxRampDeg = 20,
                },
            ],
        };

    /// <summary>Twice round: half the shell, then the rest.</summary>
    private const string Twice = """
        G0 X50. Y28.5
        G0 Z20.
        G1 Z18.5 F300.
        G1 X35. F800.
        G2 X28.5 Y35. I0. J6.5
        G1 Y65.
        G2 X35. Y71.5 I6.5 J0.
        G1 X65.
        G2 X71.5 Y65. I0. J-6.5
        G1 Y35.
        G2 X65. Y28.5 I-6.5 J0.
        G1 X50.

        """;

    [Fact]
    public void A_trim_that_is_held_passes()
    {
        Slip.Nothing(TestShop.Judge(Tight, TrimShop.Design, TrimShop.Program(TrimShop.Once), Setup.Trim));
        Assert.InRange(Good.Factor, 2, 20);
    }

    // one mm of shell 1.1 mm thick at the most, 0.04 mm a tooth, 60 N/mm2 x 1.5: 3.96 N tangentially, 4.43 N in all
    [Fact]
    public void The_force_is_worked_out_from_feed_speed_and_depth()
    {
        string message = Told(TrimShop.Once, TrimShop.Job with { Limits = new HouseLimits(1.001 * Good.Factor, 0, 2) })[
            0
        ].Message;
        Assert.Contains("under 4.0 N (F 800 mm/min, 1.1 mm deep)", message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("F800.", "F1600.", "F1600.", 0.5)]
    [InlineData("S10000 M3", "S5000 M3", "G1 X35. Z17.5", 0.5)]
    [InlineData("G1 Y35.\n", "G1 Y35. F1200.\n", "G1 Y35. F1200.", 0.667)]
    public void A_heavier_cut_is_refused_at_its_first_line(string good, string bad, string told, double share)
    {
        (string text, _) = Slip.Make(TrimShop.Program(TrimShop.Once), good, bad);
        VerifyResult result = TestShop.Judge(Tight, TrimShop.Design, text, Setup.Trim);
        Finding finding = Assert.Single(result.Findings, f => f.Code == "hold-below-limit");
        Assert.Equal(Severity.Error, finding.Severity);
        Assert.Contains(told, text.Split('\n')[finding.Line!.Value - 1], StringComparison.Ordinal);
        Assert.InRange(result.Programs[0].Hold.Vacuum!.Factor, (share * Good.Factor) - 0.01, Good.Factor * 1.01);
        Assert.NotNull(finding.At);
    }

    [Fact]
    public void Half_the_speed_and_twice_the_feed_halve_the_factor()
    {
        double fast = Judge(TrimShop.Once.Replace("F800.", "F1600.", StringComparison.Ordinal)).Vacuum!.Factor;
        Assert.Equal(Good.Factor / 2, fast, 0.01);
    }

    [Fact]
    public void A_pass_that_is_skipped_doubles_the_load()
    {
        string both = Twice + Twice.Replace("Z18.5 F300.", "Z17.5 F300.", StringComparison.Ordinal);
        string second = Twice.Replace("Z18.5 F300.", "Z17.5 F300.", StringComparison.Ordinal);
        double held = Judge(both).Vacuum!.Factor;
        double skipped = Judge(second).Vacuum!.Factor;
        // 0.6 mm of the thickest shell in the first pass, 1.1 mm without it
        Assert.Equal(0.6 / 1.1, skipped / held, 0.02);
    }

    [Fact]
    public void A_cutter_with_one_flute_and_a_steep_helix_is_held_less_than_half()
    {
        string text = TrimShop.Program(TrimShop.Once).Replace("T9 M6", "T7 M6", StringComparison.Ordinal);
        text = text.Replace("H9", "H7", StringComparison.Ordinal);
        VerifyResult result = TestShop.Judge(Tight, TrimShop.Design, text, Setup.Trim);
        Assert.Contains(result.Findings, f => f.Code == "hold-below-limit");
        Assert.True(result.Programs[0].Hold.Vacuum!.Factor < 0.5 * Good.Factor);
    }

    /// <summary>A second round over what is cut, and a slower one, change nothing for the worse.</summary>
    [Fact]
    public void A_spring_pass_and_a_lower_feed_are_no_alarm()
    {
        string again = TrimShop.Once.Replace("G1 Z18.5 F300.", "G1 Z17.5 F300.", StringComparison.Ordinal);
        Assert.Equal(Good.Factor, Judge(TrimShop.Once + "G0 Z20.\n" + again).Vacuum!.Factor, 0.001);
        Assert.True(
            Judge(TrimShop.Once.Replace("F800.", "F600.", StringComparison.Ordinal)).Vacuum!.Factor > Good.Factor
        );
    }

    /// <summary>The feed that the remedy names holds, and one a fortieth above it does not.</summary>
    [Fact]
    public void The_remedys_feed_is_true()
    {
        string fast = TrimShop.Once.Replace("F800.", "F1500.", StringComparison.Ordinal);
        string remedy = Told(fast, Tight)[0].Remedy;
        double feed = double.Parse(FeedWord().Match(remedy).Groups[1].Value, CultureInfo.InvariantCulture);
        Assert.InRange(feed, 800, 1500);
        string Line(double f) => FormattableString.Invariant($"G1 X35. Z17.5 F{f:0.#}\nG2 X28.5 Y35. I0. J6.5 F800.");
        string Body(double f) =>
            fast.Replace("G1 X35. Z17.5 F1500.\nG2 X28.5 Y35. I0. J6.5", Line(f), StringComparison.Ordinal);
        Assert.Empty(Told(Body(feed), Tight));
        Assert.NotEmpty(Told(Body(feed * 1.025), Tight));
    }

    [Fact]
    public void Below_a_limit_is_a_warning_where_the_job_gives_its_reason_but_below_1_never()
    {
        Job reason = Tight with { AcceptLowHold = "sample parts only" };
        string fast = TrimShop.Once.Replace("F800.", "F1000.", StringComparison.Ordinal);
        Assert.Equal(Severity.Warning, Told(fast, reason)[0].Severity);
        Assert.Equal(Severity.Error, Told(fast, Tight)[0].Severity);
        Job slippery = reason with { ShellFriction = 0.02 };
        Assert.Equal(Severity.Error, Told(fast, slippery)[0].Severity);
    }

    /// <summary>Every range is taken at its worse end: friction, alarm level, cord.</summary>
    [Fact]
    public void Ranges_count_at_their_worse_end()
    {
        Job rubbed = TrimShop.Job with { ShellFriction = new Interval(0.45, 0.9, 1.2) };
        Assert.Equal(Good.Factor / 2, Judge(TrimShop.Once, rubbed).Vacuum!.Factor, 0.15 * Good.Factor);
        Job tolerant = TrimShop.Job with { Vacuum = TrimShop.Job.Vacuum with { AlarmToleranceKPa = 10 } };
        Assert.True(Judge(TrimShop.Once, tolerant).Vacuum!.Factor < 0.9 * Good.Factor);
        Job shallow = TrimShop.Job with { Gasket = TrimShop.Job.Gasket with { GrooveDepthTolerance = 0.3 } };
        Assert.True(Judge(TrimShop.Once, shallow).Vacuum!.Factor < Good.Factor);
    }

    /// <summary>A hole cut into the zone lets the air in: from that line on nothing holds.</summary>
    [Fact]
    public void A_cut_into_the_zone_takes_its_hold()
    {
        const string Hole = "G0 X50. Y50.\nG0 Z20.\nG1 Z17.8 F300.\nG1 X52. F800.\nG0 Z20.\n";
        HoldPlace worst = Judge(Hole + TrimShop.Once).Vacuum!;
        Assert.Equal(0, worst.Factor);
        Finding finding = Told(Hole + TrimShop.Once, Tight)[0];
        Assert.Contains(
            "G1 Z17.8",
            TrimShop.Program(Hole + TrimShop.Once).Split('\n')[finding.Line!.Value - 1],
            StringComparison.Ordinal
        );
    }

    /// <summary>More discs, more hold; a pin in the scrap and its bridge hold what the magnet does not.</summary>
    [Fact]
    public void Magnets_and_stops_hold_with_the_seal_lost()
    {
        double one = Judge(TrimShop.Once).Magnets!.Factor;
        FixtureDesign two = TrimShop.Design with
        {
            Magnets = [new(new Point2(42, 50), false, false), new(new Point2(58, 50), false, false)],
        };
        double more = Factor(TrimShop.Job, two);
        Assert.True(more > 1.3 * one, FormattableString.Invariant($"{one} {more}"));
        Job pinned = TrimShop.Job with
        {
            Locator = LocatorKind.Pins,
            LocatorPins = [new Point2(15, 50), new Point2(85, 50)],
            ShellMaterial = TrimShop.Job.ShellMaterial with { Sheet = new SheetStrength(30, 2000, 0.35, 0.003) },
        };
        Assert.Equal(one, Factor(pinned, TrimShop.Design), 1e-6);
        Assert.True(Factor(pinned, TrimShop.Tabbed) > one);
    }

    [Fact]
    public void Without_magnets_nothing_holds_once_the_seal_is_lost()
    {
        Job job = TrimShop.Job with { Limits = new HouseLimits(2, 1, 2) };
        FixtureDesign bare = TrimShop.Design with { Magnets = [] };
        VerifyResult result = TestShop.Judge(job, bare, TrimShop.Program(TrimShop.Once), Setup.Trim);
        Assert.Contains(
            result.Findings,
            f => f.Code == "hold-below-limit" && f.Message.Contains("magnets", StringComparison.Ordinal)
        );
    }

    /// <summary>The same cut in steps of a twentieth of a millimetre is the same load.</summary>
    [Fact]
    public void A_cut_in_countless_steps_is_held_alike()
    {
        System.Text.StringBuilder steps = new();
        for (double x = 49.95; x > 35; x -= 0.05)
        {
            steps.Append(CultureInfo.InvariantCulture, $"G1 X{x:0.###} Z17.5\n");
        }
        string ramp = "G1 X35. Z17.5 F800.\n";
        string plain = TrimShop.Once.Replace(ramp, "G1 X49. Z17.5 F800.\nG1 X35.\n", StringComparison.Ordinal);
        string fine = TrimShop.Once.Replace(ramp, "F800.\n" + steps + "G1 X35.\n", StringComparison.Ordinal);
        Assert.Equal(Judge(plain).Vacuum!.Factor, Judge(fine).Vacuum!.Factor, 0.02 * Good.Factor);
    }

    /// <summary>Raising one line's feed never raises the factor.</summary>
    [Fact]
    [Trait("Speed", "Slow")]
    public void A_faster_line_is_never_held_better()
    {
        string[] lines = TrimShop.Once.Split('\n');
        Gen.Select(Gen.Int[3, lines.Length - 1], Gen.Double[1, 4])
            .Sample(
                (line, times) =>
                {
                    string[] edited = [.. lines];
                    edited[line] =
                        Faster().Replace(edited[line], "").TrimEnd()
                        + FormattableString.Invariant($" F{800 * times:0.}.");
                    if (line + 1 < edited.Length && !edited[line + 1].Contains('F', StringComparison.Ordinal))
                    {
                        edited[line + 1] += " F800.";
                    }
                    return Judge(string.Join('\n', edited)).Vacuum!.Factor <= Good.Factor + 1e-6;
                },
                iter: 40,
                threads: 1
            );
    }

    /// <summary>In a single pass a deeper line is never held better: its floor in the relief is air, so the depth is the shell's own.</summary>
    [Fact]
    public void A_thicker_shell_is_never_held_better()
    {
        double last = double.MaxValue;
        foreach (double most in (double[])[1.0, 1.1, 1.3, 1.6])
        {
            Job job = TrimShop.Job with { Shell = TrimShop.Job.Shell with { ThicknessMax = most } };
            double factor = Judge(TrimShop.Once, job).Vacuum!.Factor;
            Assert.True(factor < last);
            last = factor;
        }
    }

    private static ProgramHold Judge(string body) => Judge(body, TrimShop.Job);

    private static ProgramHold Judge(string body, Job job) =>
        TestShop.Judge(job, TrimShop.Design, TrimShop.Program(body), Setup.Trim).Programs[0].Hold;

    private static double Factor(Job job, FixtureDesign design) =>
        TestShop.Judge(job, design, TrimShop.Program(TrimShop.Once), Setup.Trim).Programs[0].Hold.Magnets!.Factor;

    private static Finding[] Told(string body, Job job) =>
        [
            .. TestShop
                .Judge(job, TrimShop.Design, TrimShop.Program(body), Setup.Trim)
                .Findings.Where(f => f.Code == "hold-below-limit"),
        ];

    [GeneratedRegex(@"F (\d+) mm/min")]
    private static partial Regex FeedWord();

    [GeneratedRegex(@"F\d+\.")]
    private static partial Regex Faster();
}
