using System.Collections.Immutable;
using FixtureGen.Design;
using FixtureGen.Design.Trim;
using FixtureGen.Drawing;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Roles;
using FixtureGen.Holding.Block;
using FixtureGen.Model;
using FixtureGen.Programs;
using FixtureGen.Shop.Jobs;
using FixtureGen.Shop.Reading;
using FixtureGen.Solve;
using FixtureGen.Solve.Search;
using FixtureGen.Toolpaths;
using FixtureGen.Verify;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen;

/// <summary>The whole story, top to bottom: drawing and job to judged programs. Every stage is pure; the first error ends the run and nothing is written.</summary>
public static class Pipeline
{
    /// <summary>Job and drawing to judged programs. A run that is refused has what it came to before, for the report.</summary>
    public static PipelineResult Make(Request request)
    {
        RunLog log = new(request.Progress);
        InputLog inputs = new(request);
        Designed? designed = null;
        Programmed? made = null;
        VerifyResult? verdict = null;
        try
        {
            Begun begun = Begin(request with { Shop = inputs.Shop }, log);
            int findings = log.Findings.Length;
            designed = Design(begun, request.Registered, log);
            log.Stop();
            made = Program(designed, log);
            if (request.Revise(made.Programs, designed.Job) is { } next)
            {
                log.Back(findings);
                designed = Design(begun, next, log);
                log.Stop();
                made = Program(designed, log);
            }
            Programmed sure = made;
            Designed last = designed;
            verdict = log.Take("judge", () => Judge(last, sure.Programs));
            return Result(ok: true) with { Inputs = inputs.UsedBy(designed.Job) };
        }
        catch (Stopped)
        {
            return Result(ok: false);
        }

        PipelineResult Result(bool ok) =>
            new()
            {
                Ok = ok,
                Findings = log.Findings,
                Job = designed?.Job,
                Design = designed?.Design,
                Designed = designed,
                Plans = made?.Plans ?? [],
                BlockHolds = made?.Holds ?? [],
                Programs = made?.Programs ?? [],
                MissingCutters = made?.Missing ?? [],
                Verdict = verdict,
            };
    }

    /// <summary>Job and drawing as far as the holding answer: what <c>check</c> prints. Writes no program.</summary>
    public static PipelineResult Check(Request request)
    {
        RunLog log = new(request.Progress);
        Designed? designed = null;
        try
        {
            designed = Design(Begin(request, log), request.Registered, log);
            log.Stop();
            return Result(ok: true);
        }
        catch (Stopped)
        {
            return Result(ok: false);
        }

        PipelineResult Result(bool ok) =>
            new()
            {
                Ok = ok,
                Findings = log.Findings,
                Job = designed?.Job,
                Design = designed?.Design,
                Designed = designed,
            };
    }

    /// <summary>One program, perhaps edited by hand, against the job's design; setups before it are taken as designed.</summary>
    public static PipelineResult VerifyFile(Request request, string programFile, string programText, Setup? setup)
    {
        RunLog log = new(request.Progress);
        PipelineResult result = new() { Ok = false, Findings = [] };
        try
        {
            Begun begun = Begin(request, log);
            (Job job, FixtureDesign design) = Draw(begun, request.Registered, log);
            result = result with { Job = job, Design = design };
            VerifyResult verdict = log.Do(
                "judge",
                () =>
                    Verifier.JudgeOne(
                        job,
                        design,
                        programFile,
                        programText,
                        setup,
                        ProgramNames(job),
                        Limits.House,
                        begun.Part
                    )
            );
            return result with { Ok = verdict.Ok, Findings = [.. verdict.Findings], Verdict = verdict };
        }
        catch (Stopped)
        {
            return result with { Findings = log.Findings };
        }
    }

    /// <summary>A job read and its part placed: what stays while magnets are tried. Text edits of the job come in by the request.</summary>
    public static Stage<Placed> Place(Request request)
    {
        RunLog log = new(request.Progress);
        try
        {
            Job stated = ReadJob(request, log);
            Draft draft = Solve(request, stated, log, costs: false).Draft;
            Job job = Numbered(draft.Job, stated, request.Registered);
            return Stage.Answer(new Placed(job, draft.Part, draft.Placement), log.Findings);
        }
        catch (Stopped)
        {
            return Stage.Failed<Placed>(log.Findings);
        }
    }

    /// <summary>The job as it states itself, not yet numbered.</summary>
    private static Job ReadJob(Request request, RunLog log) =>
        log.Take("job", () => JobReader.Read(request.JobText, request.JobFile, request.Shop)) with
        {
            Name = request.JobName,
        };

    /// <summary>The job under the register's number, id and revision where <paramref name="stated"/> is silent about them.</summary>
    private static Job Numbered(Job job, Job stated, Registered registered) =>
        job with
        {
            ProgramNumber = registered.Overrules
                ? registered.ProgramNumber
                : stated.ProgramNumber ?? registered.ProgramNumber,
            FixtureId = stated.FixtureId.Length > 0 ? stated.FixtureId : registered.FixtureId,
            Revision = Math.Max(stated.Revision, registered.Revision),
        };

    /// <summary>The drawing read, and what the job leaves open chosen; no number or revision of the register has a say in it.</summary>
    private static Solved Solve(Request request, Job job, RunLog log, bool costs)
    {
        DrawingContent drawing = log.Take(
            "drawing",
            () =>
                OfTheSheet(
                    DxfReader.Read(
                        request.Drawing,
                        request.DrawingFile,
                        job.DrawingUnit,
                        Tolerances.House with
                        {
                            Join = job.Join,
                        }
                    )
                )
        );
        Part drawn = log.Take("part", () => PartBuilder.Build(drawing, job));
        Part asked = log.Take("part", () => MirroredPart.AsAsked(drawn, job));
        Part part = log.Take("small holes", () => SmallCutouts.Settle(asked, job, Tolerances.House));
        ShopFiles shop = request.Shop.Remembered();
        return log.Take(
            "solve",
            () => SecondTry.Solve(job, j => JobSolver.Solve(part, j, n => Again(j, n), Tolerances.House, costs))
        );

        Stage<Job> Again(Job like, ShopNames names)
        {
            Stage<Job> read = JobReader.Read(request.JobText, request.JobFile, shop, names);
            return read.Value is { } other
                ? read with
                {
                    Value = other with { Name = request.JobName, InnerCorners = like.InnerCorners },
                }
                : read;
        }
    }

    private static Stage<DrawingContent> OfTheSheet(Stage<DrawingContent> read) =>
        read with
        {
            Findings = PartBuilder.BesideThePart(read.Findings),
        };

    /// <summary>What no number or revision changes: placement, zones and magnets.</summary>
    private static Begun Begin(Request request, RunLog log)
    {
        Job stated = ReadJob(request, log);
        (Draft draft, SolveReport solve) = Solve(request, stated, log, request.StatedCosts);
        FixtureDesign begun = log.Take("zones", () => draft.Begun);
        ImmutableArray<MagnetPlace> magnets = log.Take("magnets", () => draft.Magnets);
        return new Begun(stated, draft.Job, draft.Part, begun, magnets, solve);
    }

    /// <summary>The rest of the design, label included, and its holding answer; one that is too low is there for the report.</summary>
    private static Designed Design(Begun begun, Registered registered, RunLog log)
    {
        (Job job, FixtureDesign design) = Draw(begun, registered, log);
        HoldingResult holding = log.Keep("holding", () => HoldJudgement.Evaluate(design, job));
        CutDirection direction = log.Do(
            "cut direction",
            () => TrimCutter.Compare(design, job, holding, Tolerances.House)
        );
        return new Designed(job, begun.Part, design, holding, direction) { Solve = begun.Solve };
    }

    private static (Job Job, FixtureDesign Design) Draw(Begun begun, Registered registered, RunLog log)
    {
        Job job = Numbered(begun.Job, begun.Stated, registered);
        return (job, log.Take("features", () => Designer.Finish(begun.Design, begun.Magnets, job, Tolerances.House)));
    }

    private static Programmed Program(Designed designed, RunLog log)
    {
        (Job job, FixtureDesign design) = (designed.Job, designed.Design);
        BlockHolding hold = new(design, job);
        ImmutableArray<ProgramPlan> plans = log.Take(
            "toolpaths",
            () => OperationPlanner.Plan(design, job, hold, Tolerances.House)
        );
        plans = LowHold.Marked(plans, designed.Holding, job);
        ImmutableArray<BlockHold> holds = log.Take("block holding", () => hold.Evaluate(HeldOperations.Follow(plans)));
        ImmutableArray<ProgramText> programs = log.Take("programs", () => WritePrograms(plans, job));
        ImmutableArray<MissingCutter> missing = log.Do(
            "missing cutters",
            () => MissingCutters.Find(design, job, plans, Tolerances.House)
        );
        return new Programmed(plans, holds, programs, missing);
    }

    private static Stage<ImmutableArray<ProgramText>> WritePrograms(ImmutableArray<ProgramPlan> plans, Job job)
    {
        ImmutableArray<Stage<ProgramText>> written = [.. plans.Select(p => ProgramWriter.Write(p, job.Control, job))];
        IEnumerable<Finding> findings = written.SelectMany(w => w.Findings);
        return written.All(w => w.Ok)
            ? Stage.Answer<ImmutableArray<ProgramText>>([.. written.Select(w => w.Value!)], findings)
            : Stage.Failed<ImmutableArray<ProgramText>>(findings);
    }

    /// <summary>The job's programs by number and file name, without text: enough to know which setup a file is.</summary>
    private static ImmutableArray<ProgramText> ProgramNames(Job job) =>
        [
            .. new[] { Setup.Trim, Setup.Top, Setup.Underside }.Select(
                (setup, i) =>
                    new ProgramText(setup, (job.ProgramNumber ?? 0) + i, $"{job.Name}.{Words.For(setup)}.nc", "")
            ),
        ];

    private static Stage<VerifyResult> Judge(Designed designed, ImmutableArray<ProgramText> programs)
    {
        VerifyRequest request = new(designed.Job, designed.Design, programs, Limits.House) { Drawing = designed.Part };
        VerifyResult verdict = Verifier.Judge(request);
        return Stage.Answer(verdict, verdict.Findings);
    }

    /// <summary>Stated is the job as read, Job the same with its cutter chosen.</summary>
    private sealed record Begun(
        Job Stated,
        Job Job,
        Part Part,
        FixtureDesign Design,
        ImmutableArray<MagnetPlace> Magnets,
        SolveReport Solve
    );

    private sealed record Programmed(
        ImmutableArray<ProgramPlan> Plans,
        ImmutableArray<BlockHold> Holds,
        ImmutableArray<ProgramText> Programs,
        ImmutableArray<MissingCutter> Missing
    );
}
