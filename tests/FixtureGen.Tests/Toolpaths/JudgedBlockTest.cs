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

/// <summary>Designed blocks whose written programs the judge reads back and carves.</summary>
[Trait("Speed", "Slow")]
public sealed class JudgedBlockTest(ITestOutputHelper output)
{
    private static readonly Job Job = DemoShop.Job(DemoShop.PlainJob(more: "[locator]\nby = \"hand\"\n")) with
    {
        // at the chart's own feed the smaller shapes are not held twice over
        TrimFeedMmPerMin = 1200,
    };

    public static TheoryData<string> Shapes() => [.. PartShapes.All.Keys];

    [Theory]
    [MemberData(nameof(Shapes))]
    public void Judge_finds_nothing_wrong_with_the_programs(string shape)
    {
        FixtureDesign design = DesignedBlock.Of(PartShapes.All[shape], Job);
        Stage<ImmutableArray<ProgramPlan>> plans = OperationPlanner.Plan(
            design,
            Job,
            new BlockHolding(design, Job),
            Tolerances.House
        );
        Assert.True(plans.Ok, string.Join('\n', plans.Findings));
        ImmutableArray<ProgramText> texts =
        [
            .. plans.Value.Select(p => ProgramWriter.Write(p, Job.Control, Job)).Select(s => Written(s)),
        ];

        VerifyResult verdict = Verifier.Judge(
            new VerifyRequest(HeldJobs.Nominal(Job), design, texts, Limits.House) { Drawing = null }
        );

        foreach (ProgramVerdict p in verdict.Programs)
        {
            output.WriteLine(
                FormattableString.Invariant(
                    $"{shape} {p.Setup} {p.Minutes:0.00} min cut {p.CutMm:0} rapid {p.RapidMm:0} lines {p.Lines} arcs {p.Arcs} air {p.AirCutShare:0.00}"
                )
            );
        }
        foreach (Operation o in plans.Value.SelectMany(p => p.Steps).Select(s => s.Operation).OfType<Operation>())
        {
            output.WriteLine(
                FormattableString.Invariant(
                    $"  {o.Name} {o.Tool.Name} {o.Moves.Length} moves, F {o.FeedMmPerMin} S {o.SpindleRpm} down {o.StepDown:0.00} over {o.StepOver:0.00} {o.LimitedBy}"
                )
            );
        }
        Assert.True(
            verdict.Ok,
            string.Join('\n', verdict.Findings.Where(f => f.Severity != Severity.Note).Take(40))
                + FormattableString.Invariant(
                    $"\ngouge {verdict.MaxGougeDepthMm} {verdict.MaxGougeSideMm} left {verdict.MaxLeftoverMm}"
                )
        );
        Assert.InRange(verdict.Programs.Single(p => p.Setup == Setup.Top).Minutes, 1, 15);
    }

    /// <summary>A plate whose pin bushings have no room below them: the pin holes are bored blind from below, in a setup of their own.</summary>
    [Fact]
    public void Blind_pin_holes_are_bored_from_below_and_the_judge_agrees_in_both_setups()
    {
        Plate plate = Job.Plate with
        {
            Openings =
            [
                .. Job.Plate.Openings.Select(o =>
                    o.Kind is OpeningKind.PinRound or OpeningKind.PinSlot
                        ? o with
                        {
                            ReliefDiameter = 0,
                            ReliefDepth = 0,
                        }
                        : o
                ),
            ],
        };
        Job job = Job with { Plate = plate };
        FixtureDesign design = DesignedBlock.Of(PartShapes.All["plain"], job);
        Assert.NotNull(design.Flip);

        ImmutableArray<ProgramPlan> plans = DemoDesigns.Taken(
            OperationPlanner.Plan(design, job, new BlockHolding(design, job), Tolerances.House)
        );
        Assert.Equal([Setup.Underside, Setup.Top, Setup.Trim], plans.Select(p => p.Setup));
        VerifyResult verdict = Verifier.Judge(
            new VerifyRequest(
                HeldJobs.Nominal(job),
                design,
                [.. plans.Select(p => Written(ProgramWriter.Write(p, job.Control, job)))],
                Limits.House
            )
            {
                Drawing = null,
            }
        );

        Assert.True(
            verdict.Ok,
            string.Join(
                '\n',
                verdict
                    .Findings.Where(f => f.Severity != Severity.Note)
                    .Take(20)
                    .Select(f => $"{f.Where} {f.Code} {f.Message}")
            )
        );
        Assert.Contains("pin hole", plans[0].Steps.SelectMany(s => s.Operation?.Features ?? []));
    }

    private static ProgramText Written(Stage<ProgramText> stage)
    {
        Assert.True(stage.Ok, string.Join('\n', stage.Findings));
        return stage.Value!;
    }
}
