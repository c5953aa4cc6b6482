using System.Collections.Immutable;
using FixtureGen.Holding.Block;
using FixtureGen.Model;
using FixtureGen.Programs;
using FixtureGen.Tests.Support;
using FixtureGen.Toolpaths;
using FixtureGen.Verify;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Tests.Toolpaths;

/// <summary>The demo outlines designed, planned, written and judged.</summary>
[Trait("Speed", "Slow")]
public sealed class OutlineProgramsTest(ITestOutputHelper output)
{
    /// <summary>cm3 a minute that a 3/8 in end mill clears at least in a block held by vacuum.</summary>
    private const double CubicPerMinute = 30;

    [Theory]
    [MemberData(nameof(DemoDesigns.Names), MemberType = typeof(DemoDesigns))]
    public void Judge_finds_nothing_wrong_with_the_programs(string name)
    {
        (Job job, FixtureDesign design) = DemoDesigns.Of(name);
        ImmutableArray<ProgramPlan> plans = DemoDesigns.Taken(
            OperationPlanner.Plan(design, job, new BlockHolding(design, job), Tolerances.House)
        );
        ImmutableArray<ProgramText> texts =
        [
            .. plans.Select(p => DemoDesigns.Taken(ProgramWriter.Write(p, job.Control, job))),
        ];

        VerifyResult verdict = Verifier.Judge(
            new VerifyRequest(HeldJobs.Nominal(job), design, texts, Limits.House) { Drawing = null }
        );

        foreach (ProgramVerdict p in verdict.Programs)
        {
            output.WriteLine(
                FormattableString.Invariant(
                    $"{name} {p.Setup} {p.Minutes:0.00} min, cut {p.CutMm:0}, rapid {p.RapidMm:0}, lines {p.Lines}, arcs {p.Arcs}, air {p.AirCutShare:0.00}, tools {string.Join(' ', p.Tools.Select(t => FormattableString.Invariant($"{t.Name}={t.Minutes:0.00}")))}"
                )
            );
        }
        Assert.True(
            verdict.Ok,
            string.Join(
                '\n',
                verdict
                    .Findings.Where(f => f.Severity != Severity.Note)
                    .GroupBy(f => f.Code)
                    .SelectMany(g => g.Take(4))
                    .Select(f => FormattableString.Invariant($"{f.Where} {f.Line} {f.Code}: {f.Message}"))
            )
                + FormattableString.Invariant(
                    $"\ngouge {verdict.MaxGougeDepthMm} {verdict.MaxGougeSideMm} left {verdict.MaxLeftoverMm}"
                )
        );
        double top = verdict.Programs.Single(p => p.Setup == Setup.Top).Minutes;
        // round a plug the whole block goes down to its face: ten times what any other block gives
        double deep = design.SkimmedZ - design.FixtureHeight;
        double cubic = deep * design.Placement.Blank.Width * design.Placement.Blank.Height / 1000;
        Assert.True(
            design.Placement.Blank.Width > 220 || !job.BlockMaterial.IsPlastic || top <= 15 + (cubic / CubicPerMinute)
        );
    }
}
