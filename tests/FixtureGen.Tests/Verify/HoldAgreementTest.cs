using System.Globalization;
using System.Text.RegularExpressions;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using FixtureGen.Verify;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Tests.Verify;

/// <summary>
/// The judge's hold of the demo trims, from the programs' own words, beside the generator's from the design: two computations that
/// share no code. And what hand edits do to it.
/// </summary>
public sealed partial class HoldAgreementTest
{
    public static TheoryData<string> Demos => [.. DemoPrograms.OnVacuum()];

    /// <summary>
    /// On vacuum alone they agree within 3 %. Both know friction's range; the ends of alarm level, groove depth and hardness are taken
    /// out, so that the two answer one question. The judge alone counts the plunge before a cut; where that is the worst it may be lower.
    /// </summary>
    [Theory]
    [MemberData(nameof(Demos))]
    [Trait("Speed", "Slow")]
    public void Both_find_the_same_hold_on_vacuum(string name)
    {
        DemoProgram demo = DemoPrograms.Of(name);
        Job job = demo.Job with
        {
            Vacuum = demo.Job.Vacuum with { AlarmToleranceKPa = 0 },
            Gasket = demo.Job.Gasket with { GrooveDepthTolerance = 0, HardnessTolerance = 0 },
        };
        double generator = HeldDesigns.Hold(demo.Design, job).VacuumOnly.Factor;
        ProgramVerdict verdict = Trim(demo, job, Text(demo)).Programs[0];
        HoldPlace worst = verdict.Hold.Vacuum!;
        bool plunges = verdict.Motions.Any(m => m.Line == worst.Line && m.From.Xy == m.To.Xy && m.To.Z < m.From.Z);
        TestContext.Current.TestOutputHelper?.WriteLine(
            string.Create(
                CultureInfo.InvariantCulture,
                $"generator {generator:0.000} judge {worst.Factor:0.000} plunge {plunges}"
            )
        );
        double least = plunges ? 0.9 : 0.97;
        Assert.InRange(worst.Factor, least * generator, 1.03 * generator);
    }

    /// <summary>With every range at its worse end the judge is never the more favourable of the two.</summary>
    [Theory]
    [MemberData(nameof(Demos))]
    [Trait("Speed", "Slow")]
    public void The_judge_never_flatters(string name)
    {
        DemoProgram demo = DemoPrograms.Of(name);
        HoldingResult generator = HeldDesigns.Hold(demo.Design, demo.Job);
        ProgramHold judge = Trim(demo, demo.Job, Text(demo)).Programs[0].Hold;
        Assert.True(judge.Vacuum!.Factor <= 1.03 * generator.VacuumOnly.Factor);
    }

    /// <summary>Friction known exactly, at which the demo jobs are held above the house limit on vacuum; magnets are not asked about.</summary>
    private static Job Exact(Job job) =>
        job with
        {
            ShellFriction = (job.ShellFriction ?? job.BlockMaterial.ShellFriction).Nominal,
            Limits = job.Limits with { MagnetFactor = 0 },
        };

    /// <summary>
    /// The case that was found: a trim whose feed was doubled by hand passed, though the same feed in the job gives half the factor. It
    /// is refused at the first line whose load is too much, and the feed that is named there is half of what holds.
    /// </summary>
    [Theory]
    [MemberData(nameof(Demos))]
    [Trait("Speed", "Slow")]
    public void Feed_doubled_by_hand_halves_the_factor_and_is_refused_below_the_limit(string name)
    {
        DemoProgram demo = DemoPrograms.Of(name);
        Job job = Exact(demo.Job);
        double held = Trim(demo, job, Text(demo)).Programs[0].Hold.Vacuum!.Factor;
        Job tight = job with { Limits = job.Limits with { VacuumFactor = 0.9 * held } };
        Assert.DoesNotContain(Trim(demo, tight, Text(demo)).Findings, f => f.Code == "hold-below-limit");
        string fast = FeedWord().Replace(Text(demo), m => Times(m, 2));
        VerifyResult result = Trim(demo, tight, fast);
        Finding finding = Assert.Single(result.Findings, f => f.Code == "hold-below-limit");
        Assert.Equal(Severity.Error, finding.Severity);
        // where the machine cannot reach a doubled feed in a tight arc the load is less than doubled
        Assert.InRange(result.Programs[0].Hold.Vacuum!.Factor, 0.49 * held, 0.75 * held);
        Assert.NotNull(finding.Line);
        Assert.NotNull(finding.At);
        Assert.Contains("On this line", finding.Remedy, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("pruner-sheath")]
    [InlineData("prism-pouch")]
    [Trait("Speed", "Slow")]
    public void Spindle_halved_shows_and_a_lower_feed_is_no_alarm(string name)
    {
        DemoProgram demo = DemoPrograms.Of(name);
        Job job = Exact(demo.Job);
        double held = Trim(demo, job, Text(demo)).Programs[0].Hold.Vacuum!.Factor;
        string slowSpindle = SpindleWord().Replace(Text(demo), m => "S" + Half(m));
        Assert.Equal(held / 2, Trim(demo, job, slowSpindle).Programs[0].Hold.Vacuum!.Factor, 0.01 * held);
        string slowFeed = FeedWord().Replace(Text(demo), m => Times(m, 0.8));
        Assert.True(Trim(demo, job, slowFeed).Programs[0].Hold.Vacuum!.Factor > 1.1 * held);
    }

    /// <summary>A pass left out leaves twice the depth to the next.</summary>
    [Fact]
    [Trait("Speed", "Slow")]
    public void A_pass_left_out_shows()
    {
        DemoProgram demo = DemoPrograms.Of("pruner-sheath");
        Job job = Exact(demo.Job);
        string[] lines = Text(demo).Split('\n');
        int[] plunges =
        [
            .. lines.Index().Where(l => l.Item.StartsWith("G1 Z", StringComparison.Ordinal)).Select(l => l.Index),
        ];
        Assert.True(plunges.Length >= 3);
        int from = plunges[0];
        int to = Array.FindIndex(lines, from, l => l.StartsWith("G0 Z", StringComparison.Ordinal));
        // the feed was stated in the pass that is left out
        string feed = lines[from..to].Last(l => l.Contains('F', StringComparison.Ordinal)).Split('F')[1].Trim();
        string[] rest = [.. lines[to..]];
        int next = Array.FindIndex(rest, l => l.StartsWith("G1", StringComparison.Ordinal));
        rest[next] = rest[next].TrimEnd() + " F" + feed;
        string skipped = string.Join('\n', lines[..from].Concat(rest));
        double held = Trim(demo, job, Text(demo)).Programs[0].Hold.Vacuum!.Factor;
        Assert.InRange(Trim(demo, job, skipped).Programs[0].Hold.Vacuum!.Factor, 0.45 * held, 0.6 * held);
    }

    /// <summary>A cutter of the same size that pulls up in place of one that does not.</summary>
    [Fact]
    public void An_upcut_in_place_of_the_planned_cutter_shows()
    {
        DemoProgram demo = DemoPrograms.Of("pruner-sheath");
        Job job = Exact(demo.Job);
        Job up = job with { TrimTool = job.TrimTool with { Helix = HelixDirection.Up, HelixAngleDeg = 45 } };
        Job down = job with { TrimTool = job.TrimTool with { Helix = HelixDirection.Down, HelixAngleDeg = 30 } };
        Job Racked(Job j) => j with { Tools = [.. j.Tools.Where(t => t.Number != j.TrimTool.Number)] };
        double pulls = Trim(demo, Racked(up), Text(demo)).Programs[0].Hold.Vacuum!.Factor;
        double presses = Trim(demo, Racked(down), Text(demo)).Programs[0].Hold.Vacuum!.Factor;
        Assert.True(pulls < 0.97 * presses, FormattableString.Invariant($"{pulls} {presses}"));
    }

    /// <summary>A header that counts more magnets than the fixture has is refused: the hold is that of the fixture's own.</summary>
    [Fact]
    [Trait("Speed", "Slow")]
    public void Magnets_that_are_not_there_are_refused()
    {
        DemoProgram demo = DemoPrograms.Of("pruner-sheath");
        string more = Text(demo).Replace("(6 MAGNETS ON", "(8 MAGNETS ON", StringComparison.Ordinal);
        Assert.NotEqual(more, Text(demo));
        VerifyResult result = Trim(demo, demo.Job, more);
        Assert.Contains(result.Findings, f => f.Code == "magnet-count");
        Assert.Equal(Trim(demo, demo.Job, Text(demo)).Programs[0].Hold.Magnets, result.Programs[0].Hold.Magnets);
    }

    private static string Times(Match word, double k) =>
        FormattableString.Invariant(
            $"F{double.Parse(word.Groups[1].ValueSpan, CultureInfo.InvariantCulture) * k:0.###}"
        );

    private static string Half(Match word) =>
        FormattableString.Invariant($"{double.Parse(word.Groups[1].ValueSpan, CultureInfo.InvariantCulture) / 2:0}");

    [GeneratedRegex(@"\bF(\d+\.?\d*)")]
    private static partial Regex FeedWord();

    [GeneratedRegex(@"\bS(\d+)")]
    private static partial Regex SpindleWord();

    private static string Text(DemoProgram demo) => demo.Texts.First(t => t.Setup == Setup.Trim).Text;

    private static VerifyResult Trim(DemoProgram demo, Job job, string text)
    {
        ProgramText trim = demo.Texts.First(t => t.Setup == Setup.Trim) with { Text = text };
        return Verifier.Judge(new VerifyRequest(job, demo.Design, [trim], Limits.House) { Drawing = demo.Drawing });
    }
}
