using System.Text.RegularExpressions;
using FixtureGen.Model;
using FixtureGen.Solve;
using FixtureGen.Tests.Support;
using FixtureGen.Verify;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Tests.Verify;

/// <summary>The judge on a shell that magnets alone hold: what is good passes, and every damage of this way to hold is refused.</summary>
public sealed partial class ByMagnetsVerdictTest
{
    private const string Name = "tip-guard";

    private static DemoProgram Demo => DemoPrograms.Of(Name);

    private static string Text => Demo.Texts.First(t => t.Setup == Setup.Trim).Text;

    private static string Held => "(SHELL HELD BY MAGNETS ALONE)";

    [Fact]
    public void The_trim_says_nothing_of_a_vacuum_and_works_none()
    {
        Control control = Demo.Job.Control;
        Assert.DoesNotContain("VACUUM", Text, StringComparison.OrdinalIgnoreCase);
        foreach (
            string word in new[] { control.VacuumOn, control.VacuumWait, control.VacuumOff }.Where(w => w.Length > 0)
        )
        {
            Assert.DoesNotMatch($@"\b{Regex.Escape(word)}\b", Text);
        }
        Assert.Contains(Held, Text, StringComparison.Ordinal);
        Assert.DoesNotContain(Judged(Text, Demo.Design).Findings, f => f.Severity == Severity.Error);
    }

    /// <summary>The judge's own hold from the program's words: never the more favourable, and lower only where it sees entries and ramps.</summary>
    [Fact]
    public void Judge_and_generator_find_the_same_hold()
    {
        double generator = HoldJudgement.Evaluate(Demo.Design, Demo.Job).Value!.MagnetsOnly.Factor;
        ProgramHold hold = Judged(Text, Demo.Design).Programs[0].Hold;
        Assert.Null(hold.Vacuum);
        Assert.InRange(hold.Magnets!.Factor, 0.8 * generator, 1.03 * generator);
    }

    public static TheoryData<string, string, string> Damaged =>
        new()
        {
            { "vacuum word", Held, "vacuum-unwanted" },
            { "(STOP IF THE SHELL STIRS)", "(STOP IF THE VACUUM FALLS)", "operator-line-false" },
            { "(STOP IF THE SHELL STIRS)", "(WAIT FOR 68 KPA)", "operator-line-false" },
            { "(SHELL HELD BY MAGNETS ALONE)", "", "operator-line-missing" },
            { "MAGNETS 3 N UP", "MAGNETS 4 N UP", "label-mismatch" },
            { "(3 MAGNETS ON", "(2 MAGNETS ON", "magnet-count" },
            { "(DO NOT START WITH ONE MISSING)", "(NO MAGNETS NEEDED)", "operator-line-false" },
        };

    [Theory]
    [MemberData(nameof(Damaged))]
    public void A_damaged_program_is_refused(string from, string to, string code)
    {
        string on = Demo.Job.Control.VacuumOn;
        Assert.NotEmpty(on);
        string text =
            from == "vacuum word"
                ? Text.Replace(to, $"{to}\n{on}", StringComparison.Ordinal)
                : Text.Replace(from, to, StringComparison.Ordinal);
        Assert.NotEqual(Text, text);
        Assert.Contains(Judged(text, Demo.Design).Findings, f => f.Code == code && f.Severity == Severity.Error);
    }

    /// <summary>Who denies a vacuum says what is so.</summary>
    [Fact]
    public void A_denied_vacuum_is_true()
    {
        string text = Text.Replace(Held, Held + "\n(NO VACUUM ON THIS FIXTURE)", StringComparison.Ordinal);
        Assert.DoesNotContain(Judged(text, Demo.Design).Findings, f => f.Severity == Severity.Error);
    }

    [Fact]
    public void Twice_the_feed_is_refused()
    {
        string fast = FeedWord()
            .Replace(
                Text,
                m =>
                    FormattableString.Invariant(
                        $"F{2 * double.Parse(m.Groups[1].ValueSpan, System.Globalization.CultureInfo.InvariantCulture):0.###}"
                    )
            );
        Finding low = Assert.Single(Judged(fast, Demo.Design).Findings, f => f.Code == "hold-below-limit");
        Assert.Equal(Severity.Error, low.Severity);
        Assert.Contains("on magnets alone", low.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_missing_pocket_a_magnet_beside_the_shell_and_a_seal_are_refused()
    {
        FixtureDesign good = Demo.Design;
        FixtureDesign without = good with
        {
            Features =
            [
                .. good.Features.Where(f =>
                    f.Name != good.Features.First(k => k.Kind == FeatureKind.MagnetPocket).Name
                ),
            ],
        };
        Assert.Contains(Judged(Text, without).Findings, f => f.Code == "feature-missing");
        MagnetPlace beside = good.Magnets[0] with { At = good.Magnets[0].At + new Point2(0, 60) };
        FixtureDesign away = good with { Magnets = good.Magnets.SetItem(0, beside) };
        Assert.Contains(Judged(Text, away).Findings, f => f.Code == "magnets-off-job");
        DemoProgram other = DemoPrograms.Of("label-clip");
        FixtureDesign sealing = good with { Zones = other.Design.Zones, Cords = other.Design.Cords };
        Assert.Contains(Judged(Text, sealing).Findings, f => f.Code == "design-off-job");
    }

    /// <summary>A trim of a shell that vacuum holds is not taken for one of this kind.</summary>
    [Fact]
    public void A_job_on_vacuum_refuses_the_program_without_its_words()
    {
        VerifyResult verdict = Verifier.Judge(
            new VerifyRequest(Demo.Job with { HoldBy = HoldBy.Vacuum }, Demo.Design, [Trim(Text)], Limits.House)
            {
                Drawing = Demo.Drawing,
            }
        );
        Assert.Contains(verdict.Findings, f => f.Code == "vacuum-not-proven");
    }

    private static ProgramText Trim(string text) => Demo.Texts.First(t => t.Setup == Setup.Trim) with { Text = text };

    private static VerifyResult Judged(string text, FixtureDesign design) =>
        Verifier.Judge(new VerifyRequest(Demo.Job, design, [Trim(text)], Limits.House) { Drawing = Demo.Drawing });

    [GeneratedRegex(@"\bF(\d+\.?\d*)")]
    private static partial Regex FeedWord();
}
