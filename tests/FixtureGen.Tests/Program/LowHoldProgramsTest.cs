using System.Collections.Immutable;
using FixtureGen.Holding.Block;
using FixtureGen.Model;
using FixtureGen.Programs;
using FixtureGen.Solve;
using FixtureGen.Tests.Support;
using FixtureGen.Tests.Toolpaths;
using FixtureGen.Toolpaths;
using FixtureGen.Verify;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Tests.Program;

/// <summary>Every program of a job whose hold is below a house limit says so right behind its label, on every control, and the judge still reads it.</summary>
public sealed class LowHoldProgramsTest
{
    /// <summary>As a person might write it: with brackets, a semicolon, letters no control has, and words that a program's own lines say.</summary>
    private const string Reason = "trial (2 parts); new mould, Größe 2, 3 magnets on order, pins in stock";

    public static TheoryData<string> Controls() => [.. DemoShop.Files.List("controls").Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Controls))]
    [Trait("Speed", "Slow")]
    public void Banner_stands_behind_the_label_in_underside_top_and_trim_and_the_judge_passes_them(string control)
    {
        Job job = LowJob(control);
        FixtureDesign design = DesignedBlock.Of(PartShapes.All["plain"], job);
        HoldingResult held = HoldJudgement.Evaluate(design, job).Value!;
        HoldingResult low = held with
        {
            VacuumOnly = held.VacuumOnly with { Factor = 1.37 },
            MagnetsStopping = held.MagnetsStopping with { Factor = 3, Stays = 3 },
        };
        ImmutableArray<ProgramPlan> plans = DemoDesigns.Taken(
            OperationPlanner.Plan(design, job, new BlockHolding(design, job), Tolerances.House)
        );
        ImmutableArray<ProgramText> texts =
        [
            .. LowHold
                .Marked(plans, low, job)
                .Select(p => ProgramWriter.Write(p, job.Control, job))
                .Select(s => s.Value ?? throw new InvalidOperationException(string.Join('\n', s.Findings))),
        ];

        Assert.Equal([Setup.Underside, Setup.Top, Setup.Trim], texts.Select(t => t.Setup));
        Assert.All(texts, t => Says(t, design.Label, job));
        VerifyResult verdict = Verifier.Judge(
            new VerifyRequest(HeldJobs.Nominal(job), design, texts, Limits.House) { Drawing = null }
        );
        Assert.True(verdict.Ok, string.Join('\n', verdict.Findings.Where(f => f.Severity == Severity.Error)));
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void A_hold_within_its_limits_changes_no_program()
    {
        Job job = LowJob("inch-centre-arcs");
        FixtureDesign design = DesignedBlock.Of(PartShapes.All["plain"], job);
        HoldingResult held = HoldJudgement.Evaluate(design, job).Value!;
        HoldingResult good = held with
        {
            VacuumOnly = held.VacuumOnly with { Factor = 2 },
            MagnetsStopping = held.MagnetsStopping with { Factor = 0.4, Stays = 1 },
        };
        ImmutableArray<ProgramPlan> plans = DemoDesigns.Taken(
            OperationPlanner.Plan(design, job, new BlockHolding(design, job), Tolerances.House)
        );
        Assert.True(plans.SequenceEqual(LowHold.Marked(plans, good, job)));
    }

    /// <summary>The stops count for the magnets' limit, and only there.</summary>
    [Theory]
    [InlineData(1.37, 0.9, 1.4, "vacuum alone 1.3, limit 2.0")]
    [InlineData(2.5, 0.9, 0.95, "magnets alone while the machine stops 0.95, limit 1.0")]
    [InlineData(2.5, 0.9, 1.0, "")]
    [InlineData(2.5, 1.2, 0, "")]
    public void Each_factor_is_held_to_its_own_limit(double vacuum, double slips, double stays, string said)
    {
        HoldAnswer none = new(9, HoldMode.Slide, default, "");
        HoldingResult holding = new()
        {
            AtmosphereKPa = 100,
            VacuumKPa = 60,
            PumpKPa = 80,
            SealedForceN = 1,
            GasketForceN = 1,
            MagnetForceN = 1,
            CuttingForceN = 1,
            LiftMm = 0,
            ImplantDistanceMm = 0,
            VacuumOnly = none with { Factor = vacuum },
            MagnetsOnly = none,
            MagnetsStopping = none with { Factor = slips, Stays = stays },
            Both = none,
            Samples = [],
            MagnetShareN = [],
        };
        Assert.Equal(said, string.Join("; ", LowHold.Shortfalls(holding, new HouseLimits(2, 1, 2))));
    }

    private static void Says(ProgramText program, string label, Job job)
    {
        string[] comments =
        [
            .. program
                .Text.Split('\n')
                .Select(l => l.Trim().TrimStart('(', ';').TrimEnd(')').Trim())
                .SkipWhile(l =>
                    !Squeezed(l)
                        .StartsWith(
                            Squeezed(program.Setup == Setup.Trim ? label : job.FixtureId),
                            StringComparison.Ordinal
                        ) && !Squeezed(label).StartsWith(Squeezed(l), StringComparison.Ordinal)
                ),
        ];
        string head = Squeezed(string.Concat(comments.Take(12)));
        int banner = head.IndexOf("BELOWHOUSELIMITVACUUMALONE13LIMIT20", StringComparison.Ordinal);
        int reason = head.IndexOf("REASONTRIAL2PARTSNEWMOULD", StringComparison.Ordinal);
        int named = head.IndexOf(Squeezed(label), StringComparison.Ordinal);
        Assert.True(named >= 0 && banner > named, $"{program.Setup}: {head}");
        // a control without a word for the program's number has it in a comment of its own
        string between = head[(named + Squeezed(label).Length)..banner];
        Assert.Matches("^(PROGRAM0*[0-9]+)?$", between);
        Assert.True(reason > banner, $"{program.Setup}: {head}");
    }

    private static string Squeezed(string text) =>
        string.Concat(text.ToUpperInvariant().Where(char.IsAsciiLetterOrDigit));

    /// <summary>On a plate without room below its bushings, so that there are three programs.</summary>
    private static Job LowJob(string control)
    {
        Job job = DemoShop.Job(DemoShop.PlainJob(control: control, more: "[locator]\nby = \"hand\"\n"));
        return job with
        {
            AcceptLowHold = Reason,
            Plate = job.Plate with
            {
                Openings =
                [
                    .. job.Plate.Openings.Select(o =>
                        o.Kind is OpeningKind.PinRound or OpeningKind.PinSlot
                            ? o with
                            {
                                ReliefDiameter = 0,
                                ReliefDepth = 0,
                            }
                            : o
                    ),
                ],
            },
        };
    }
}
