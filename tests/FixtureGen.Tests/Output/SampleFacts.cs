using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Output.Papers;
using FixtureGen.Output.Reports;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Tests.Output;

/// <summary>Facts of a made-up fixture with two setups and a trim, for the papers.</summary>
internal static class SampleFacts
{
    public static PaperFacts Create(string paper = "A4")
    {
        Job job = SampleJob.Create(paper);
        FixtureDesign design = SampleDesign.Create(job);
        BlockGrid block = new(new Box2(0, 0, 10, 10), 1, 0, 19.2);
        ImmutableArray<ProgramPlan> plans =
        [
            Plan(job, Setup.Underside, 1170),
            Plan(job, Setup.Top, 1171),
            Plan(job, Setup.Trim, 1172),
        ];
        return new PaperFacts
        {
            Job = job,
            Design = design,
            Holding = SampleHolding.Create(design),
            Direction = new CutDirection(
                HelixDirection.Up,
                Stated: true,
                [
                    new DirectionTrial(HelixDirection.Up, "trim 1/8", true, 3.42, 2.63, 1.31, true),
                    new DirectionTrial(HelixDirection.Down, "", false, -3.42, 2.91, 1.47, true),
                ],
                "Upcut, as the job says: pulls the shell up with 3.4 N; vacuum holds 2.63."
            ),
            Verdict = new VerifyResult(true, 0.1, 0.004, 0.011, 0.062, [.. plans.Select(p => Verdict(job, p))], block),
            BlockHolds =
            [
                new BlockHold("Clear relief", 3.42, HoldMode.Slide, false, 55.1),
                new BlockHold("Bore the port", 8.17, HoldMode.Slide, true, 31),
            ],
            Plans = plans,
            Programs = [.. plans.Select(p => new ProgramText(p.Setup, p.ProgramNumber, File(job, p.Setup), ""))],
            Drawn = design.Part,
        };
    }

    private static string File(Job job, Setup setup) => $"{job.Name}.{Figures.Setup(setup)}.nc";

    private static ProgramVerdict Verdict(Job job, ProgramPlan plan) =>
        new()
        {
            Setup = plan.Setup,
            FileName = File(job, plan.Setup),
            ProgramNumber = plan.ProgramNumber,
            Findings = [],
            Lines = 812,
            Arcs = 144,
            Minutes = plan.Setup == Setup.Top ? 12.37 : 3.21,
            CutMm = 20311.4,
            RapidMm = 3211.8,
            RemovedMm3 = 99000,
            AirCutShare = 0.12,
            Tools =
            [
                .. plan
                    .Steps.Select(s => s.Operation)
                    .OfType<Operation>()
                    .Select(o => o.Tool)
                    .DistinctBy(t => t.Number)
                    .Select(t => new ToolTime(t.Number, t.Name, 1.4)),
            ],
            Motions = [],
        };

    private static ProgramPlan Plan(Job job, Setup setup, int number)
    {
        ImmutableArray<ProgramStep> steps = setup switch
        {
            Setup.Underside => [Step(job, "Channel to the port", 2, 0.8)],
            Setup.Top =>
            [
                Step(job, "Skim to the fixture height", 0, 2.4),
                Step(job, "Clear relief", 0, 3.1),
                Step(job, "Gasket grooves", 1, 1.9),
                Step(job, "Engrave the label", 3, 0.7),
                new(
                    ProgramStepKind.Stop,
                    null,
                    "VACUUM STAYS ON. PINS OUT. FIT 4 BOLTS 1/4-20 X 1 (B1 B2 B3 B4) TO 5.6 NM. THEN START"
                ),
                Step(job, "Bore the port", 2, 0.4, breaks: true),
            ],
            _ =>
            [
                new(ProgramStepKind.VacuumOn, null, ""),
                new(ProgramStepKind.VacuumWait, null, "60 KPA"),
                Step(job, "cutout 1", 4, 0.3),
                Step(job, "outline", 4, 0.9),
                new(ProgramStepKind.VacuumOff, null, ""),
            ],
        };
        string[] header =
        [
            "PRUNER SHEATH F-017-2 O1172 4 MAGNETS N UP",
            $"PROGRAM {Figures.Whole(number)}",
            "PINS OUT",
            "BOLTS OUT",
            "DRY RUN IN THE AIR FIRST. DOORS SHUT. EYE PROTECTION",
        ];
        return new ProgramPlan(setup, number, [.. header], 60, steps);
    }

    private static ProgramStep Step(Job job, string name, int tool, double minutes, bool breaks = false)
    {
        Tool t = job.Tools[tool];
        ImmutableArray<Move> moves =
        [
            new RapidMove(new Point3(0, 0, 25)),
            new LineMove(new Point3(minutes * 1800, 0, 18), 1800),
        ];
        return new ProgramStep(
            ProgramStepKind.Operation,
            new Operation
            {
                Name = name,
                Kind = OperationKind.Clear,
                Tool = t,
                SpindleRpm = 14200,
                FeedMmPerMin = 1800,
                StepDown = 2.5,
                StepOver = 1.4,
                LimitedBy = "feed by chip load 0.110 mm a tooth",
                Features = [],
                BreaksPlateSeal = breaks,
                Moves = moves,
            },
            ""
        );
    }
}
