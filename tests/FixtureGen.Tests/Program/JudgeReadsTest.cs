using System.Collections.Immutable;
using CsCheck;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Programs;
using FixtureGen.Tests.Support;
using FixtureGen.Verify;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Tests.Program;

/// <summary>The judge's own reader takes every word that the writer writes, for every control, and ends where the plan ends.</summary>
[Trait("Speed", "Slow")]
public sealed class JudgeReadsTest
{
    // What a random plan does wrong: it knows no block, no travel, no tool limits and no operator.
    private static readonly string[] AboutTheCut =
    [
        "below-plate-face",
        "block-hold-below-limit",
        "bolts-not-fitted",
        "chip-load",
        "collision",
        "corner",
        "drill-sideways",
        "engagement",
        "feed-limit",
        "floor-left",
        "flutes-too-short",
        "gouge",
        "gouge-side",
        "number-line-missing",
        "operator-line-missing",
        "outside-blank",
        "outside-travel",
        "plunge",
        "ramp-steep",
        "rapid-overshoots",
        "rapid-through-stock",
        "retract-missing",
        "spindle-power",
        "step-down",
        "stops-in-work",
        "surface-speed",
    ];

    public static TheoryData<string> Controls() => [.. DemoShop.Files.List("controls").Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Controls))]
    public void Every_word_is_known_to_the_judge(string name)
    {
        Job job = DemoShop.Job(DemoShop.PlainJob(control: name));
        PlanMaker.Plan.Sample(plan => Judged(plan, job), iter: 6, seed: "0000000000000");
    }

    private static bool Judged(ProgramPlan plan, Job job)
    {
        ImmutableArray<ProgramStep> held =
        [
            new(ProgramStepKind.VacuumOn, null, "VACUUM ON"),
            new(ProgramStepKind.VacuumWait, null, "VACUUM 20 INHG AT LEAST"),
            plan.Steps[0],
            new(ProgramStepKind.Stop, null, "PUT IN FOUR BOLTS, VACUUM STAYS ON"),
            plan.Steps[1],
            new(ProgramStepKind.VacuumOff, null, "VACUUM OFF"),
        ];
        Stage<ProgramText> text = ProgramWriter.Write(plan with { Steps = held }, job.Control, job);
        Assert.True(text.Ok, string.Join('\n', text.Findings));
        VerifyResult result = Verifier.Judge(
            new VerifyRequest(job, Empty(job), [text.Value!], Limits.House) { Drawing = null }
        );
        string[] codes =
        [
            .. result
                .Findings.Where(f => f.Severity == Severity.Error)
                .Select(f => f.Code)
                .Except(AboutTheCut)
                .Order(StringComparer.Ordinal),
        ];
        Assert.Equal([], codes);
        return true;
    }

    private static FixtureDesign Empty(Job job)
    {
        Contour outer = Contours.Rectangle(new Box2(50, 50, 150, 150));
        return new FixtureDesign
        {
            Part = new Part(outer, [], [], [], [], []),
            Placement = new Placement(default, job.Blank, new Box2(0, 0, job.Blank.Width, job.Blank.Height)),
            FixtureHeight = job.Rules.FixtureHeight,
            RawThickness = job.BlankThickness,
            Flip = null,
            Zones = [],
            Cords = [],
            Magnets = [],
            TrimCuts = [],
            Features = [],
            VacuumPath = [],
            Contact = [],
            Label = "",
        };
    }
}
