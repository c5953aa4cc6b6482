using FixtureGen.Model;
using FixtureGen.Tests.Support;
using FixtureGen.Verify;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Tests.Verify;

/// <summary>The judge finds nothing at all in any undamaged demo program, and a finer grid does not change its mind.</summary>
[Trait("Speed", "Slow")]
public sealed class DemoVerdictTest
{
    public static TheoryData<string> Demos => [.. DemoPrograms.Names()];

    [Theory]
    [MemberData(nameof(Demos))]
    public void Undamaged_programs_have_no_finding(string name)
    {
        DemoProgram demo = DemoPrograms.Of(name);
        VerifyResult result = Verifier.Judge(
            new VerifyRequest(HeldJobs.Nominal(demo.Job), demo.Design, demo.Texts, Limits.House)
            {
                Drawing = demo.Drawing,
            }
        );
        Assert.Empty(result.Findings.Select(f => $"{f.Where} {f.Code} {f.Message}"));
        Assert.True(result.Ok);
    }

    [Fact]
    public void Refined_grid_keeps_the_verdict()
    {
        DemoProgram demo = DemoPrograms.Of("dibber-sheath");
        foreach (double cell in (double[])[0.2, 0.13, 0.07])
        {
            Limits limits = Limits.House with { Cell = cell };
            VerifyResult verdict = Verifier.Judge(
                new VerifyRequest(HeldJobs.Nominal(demo.Job), demo.Design, demo.Texts, limits)
                {
                    Drawing = demo.Drawing,
                }
            );
            Assert.True(verdict.Ok, string.Join('\n', verdict.Findings.Where(f => f.Severity == Severity.Error)));
        }
    }

    [Fact]
    public void Each_program_alone_is_known_by_its_own_text()
    {
        DemoProgram demo = DemoPrograms.Of("tape-cradle");
        foreach (ProgramText text in demo.Texts)
        {
            VerifyResult result = Verifier.JudgeOne(
                HeldJobs.Nominal(demo.Job),
                demo.Design,
                "edited.nc",
                text.Text,
                null,
                demo.Texts,
                Limits.House,
                demo.Drawing
            );
            Assert.Equal(text.Setup, result.Programs[0].Setup);
            Assert.True(result.Ok);
        }
    }
}
