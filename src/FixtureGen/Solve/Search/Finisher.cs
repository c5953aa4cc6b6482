using System.Collections.Immutable;
using FixtureGen.Design;
using FixtureGen.Holding;
using FixtureGen.Holding.Block;
using FixtureGen.Model;
using FixtureGen.Programs;
using FixtureGen.Toolpaths;
using FixtureGen.Verify;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Solve.Search;

/// <summary>A whole solution, drawn, held and planned: its draft goes on into the programs.</summary>
internal sealed record Solution(Draft Draft, int Magnets, double Trim, double Block, LimitedFactors Held)
{
    public double Batch => (Draft.Job.Quantity * Trim) + Block;

    /// <summary>Minutes over the batch as choices are ranked by.</summary>
    public double Ranked => Choice.Ranked(Draft.Job, Batch);
}

/// <summary>Draws a choice with its magnets to the end; where the finished design holds less than was thought, slower.</summary>
internal sealed class Finisher(Part part, Tolerances tolerances)
{
    private const int MostTries = 5;

    /// <summary>The solution, or null with the reasons in the choice where it cannot be drawn, does not hold, or no tool cuts it.</summary>
    public Solution? Finish(Choice choice, MagnetOption option)
    {
        Job job = choice.Job;
        MagnetChoice magnets = new(choice, tolerances);
        TrimSpeed speed = option.Speed;
        for (int attempt = 0; attempt < MostTries && speed.Passes > 0; attempt++)
        {
            Job at = With(speed.In(job), option);
            if (Drawn(choice, at) is not { } drawn)
            {
                return null;
            }
            (Draft draft, FixtureDesign design, HoldingContext context) = drawn;
            LimitedFactors held = context.Limited(design.Magnets);
            double share = 1;
            if (Ample(held, job.Limits))
            {
                Solution? solution = Planned(choice, draft, design, held, out share);
                if (solution is not null || share >= 1)
                {
                    return solution;
                }
            }
            double chip = held.Put * speed.Chip(job, job.TrimTool) / (job.Limits.VacuumFactor * Choice.Spare);
            double cap =
                (job.HoldBy == HoldBy.Magnets ? held.Put : held.Stopping) * magnets.Load(speed, context.Pair.Slip);
            double most = Math.Min(
                Math.Min(chip, choice.MostChip),
                share < 1 ? share * speed.Chip(job, job.TrimTool) : chip
            );
            TrimSpeed? slower = magnets.Allowed(most, cap, context.Pair.Slip);
            speed = slower == speed ? default : slower ?? default;
        }
        return null;
    }

    /// <summary>As <see cref="Finish"/>, but what comes nearest where nothing meets the limits: at the lightest cut, not planned.</summary>
    public Solution? Nearest(Choice choice, MagnetOption? option)
    {
        Job job = choice.Job;
        TrimSpeed speed = choice.Ladder.MinBy(s => (s.Chip(job, job.TrimTool), s.Passes));
        Job at = option is null ? speed.In(job) : With(speed.In(job), option);
        return Drawn(choice, at) is ({ } draft, { } design, { } context)
            ? new Solution(
                draft,
                design.Magnets.Length,
                choice.TrimMinutes(design, draft.Job),
                0,
                context.Limited(design.Magnets)
            )
            : null;
    }

    private static Job With(Job job, MagnetOption option) =>
        job with
        {
            Magnet = option.Disc,
            MagnetCount = job.Open.HasFlag(OpenKeys.Count) ? option.Count : job.MagnetCount,
        };

    private static bool Ample(LimitedFactors held, HouseLimits limits) =>
        held.Put >= limits.VacuumFactor * Choice.Near && held.Stopping >= limits.MagnetFactor * Choice.Near;

    private (Draft Draft, FixtureDesign Design, HoldingContext Context)? Drawn(Choice choice, Job at)
    {
        Draft draft = new(part, choice.Draft!.Placement, at, tolerances);
        if (draft.Begun is not { Ok: true, Value: { } begun })
        {
            choice.Refuse(draft.Begun.Findings);
            return null;
        }
        if (!draft.Magnets.Ok)
        {
            choice.Refuse(draft.Magnets.Findings);
            return null;
        }
        Stage<FixtureDesign> design = Designer.Finish(begun, draft.Magnets.Value, at, tolerances);
        if (design.Value is null || !design.Ok)
        {
            choice.Refuse(design.Findings);
            return null;
        }
        Stage<HoldingContext> context = HoldingAnalysis.Context(design.Value, at, tolerances);
        if (context.Value is null || !context.Ok)
        {
            choice.Refuse(context.Findings);
            return null;
        }
        return (draft, design.Value, context.Value);
    }

    /// <summary>The trim as it would be written, before the judge: it sees entries and ramps that the hold along the path does not.</summary>
    private VerifyResult? Judged(Choice choice, FixtureDesign design, Job job, ImmutableArray<ProgramPlan> plans)
    {
        ProgramPlan plan = plans.Single(p => p.Setup == Setup.Trim);
        Stage<ProgramText> text = ProgramWriter.Write(plan, job.Control, job);
        if (text.Value is not { } program)
        {
            choice.Refuse(text.Findings);
            return null;
        }
        return Verifier.JudgeOne(
            job,
            design,
            program.FileName,
            program.Text,
            Setup.Trim,
            [program],
            Limits.House,
            part
        );
    }

    /// <param name="share">What the judge says that the magnets hold, over their limit, where they are the hold and it is less; else 1.</param>
    private Solution? Planned(Choice choice, Draft draft, FixtureDesign design, LimitedFactors held, out double share)
    {
        share = 1;
        Job job = Choice.Numbered(draft.Job);
        Stage<ImmutableArray<ProgramPlan>> plans = OperationPlanner.Plan(
            design,
            job,
            new BlockHolding(design, job),
            tolerances
        );
        if (!plans.Ok)
        {
            choice.Refuse(plans.Findings);
            return null;
        }
        double block = plans
            .Value.Where(p => p.Setup != Setup.Trim)
            .Sum(p => PlanMinutes.Measure(p, job.Plate.Machine));
        double trim = plans.Value.Where(p => p.Setup == Setup.Trim).Sum(p => PlanMinutes.Measure(p, job.Plate.Machine));
        if (Judged(choice, design, job, plans.Value) is not { } verdict)
        {
            return null;
        }
        if (verdict.Ok)
        {
            return new Solution(draft, design.Magnets.Length, trim, block, held);
        }
        bool byHold = verdict.Findings.Where(f => f.Severity == Severity.Error).All(f => f.Code == "hold-below-limit");
        if (byHold && job.HoldBy == HoldBy.Magnets && verdict.Programs[0].Hold.Magnets is { } least)
        {
            share = Math.Min(1, least.Factor / job.Limits.VacuumFactor);
        }
        if (share < 1)
        {
            return null;
        }
        choice.Refuse([.. verdict.Findings]);
        return null;
    }
}
