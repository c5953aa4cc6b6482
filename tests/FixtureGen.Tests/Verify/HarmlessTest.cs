using System.Globalization;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using FixtureGen.Verify;
using FixtureGen.Verify.Tests.Damage;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Tests.Verify;

/// <summary>Edits of demo programs that do no harm have no finding at all; FIXTUREGEN_CASES sets how many programs each kind is tried on.</summary>
[Trait("Speed", "Slow")]
public sealed class HarmlessTest
{
    [Fact]
    public void There_are_at_least_sixty_seven_kinds() => Assert.InRange(Harmless.Names.Count(), 67, 1000);

    [Fact]
    public void Harmless_edits_have_no_finding()
    {
        int each = LongRun.Cases(1);
        GoodProgram[] good =
        [
            .. DemoPrograms
                .Names()
                .Select(DemoPrograms.Of)
                .SelectMany(d => d.Texts.Select(t => new GoodProgram(HeldJobs.Nominal(d.Job), d.Design, t, d.Drawing))),
        ];
        List<string> told = [];
        SortedDictionary<string, int> tried = new(StringComparer.Ordinal);
        foreach ((int k, string name) in Harmless.Names.Index())
        {
            for (int i = 0; i < good.Length && tried.GetValueOrDefault(name) < each; i++)
            {
                GoodProgram program = good[((7 * k) + (5 * i)) % good.Length];
                if (Harmless.Make(name, program.Program.Text, program.Job.Control) is not { } text)
                {
                    continue;
                }
                tried[name] = tried.GetValueOrDefault(name) + 1;
                told.AddRange(Findings(program, text).Select(f => $"{name}: {program.Program.FileName} {f}"));
            }
        }
        string table = string.Create(
            CultureInfo.InvariantCulture,
            $"{tried.Values.Sum()} edits of {tried.Count} kinds, {told.Count} findings\n{string.Join('\n', told)}"
        );
        TestContext.Current.TestOutputHelper?.WriteLine(table);
        Assert.True(told.Count == 0, table);
        Assert.Empty(Harmless.Names.Except(tried.Keys));
    }

    private static IEnumerable<string> Findings(GoodProgram good, string text) =>
        Verifier
            .Judge(
                new VerifyRequest(
                    good.Job,
                    good.Design,
                    [good.Program with { Text = text }],
                    // coarser cells at the wall of a plug, beside which a groove begins, look like material in its way
                    good.Design.Removals.Any(r => r.Kind == FeatureKind.Plug)
                        ? Limits.House
                        : Limits.House with
                        {
                            Cell = 0.2,
                        }
                )
                {
                    Drawing = good.Drawing,
                }
            )
            .Findings.Select(f => FormattableString.Invariant($"{f.Line} {f.Severity} {f.Code}: {f.Message}"))
            .Take(3);
}
