using System.Collections.Immutable;
using FixtureGen.Design;
using FixtureGen.Geometry;
using FixtureGen.Holding.Block;
using FixtureGen.Model;
using FixtureGen.Programs;
using FixtureGen.Solve;
using FixtureGen.Toolpaths;
using FixtureGen.Verify;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Tests.Support;

/// <summary>A part made into a design and programs under a job with everything stated, and what the judge says of them.</summary>
internal static class MadePart
{
    /// <summary>A job on the plain shop with pins beside a part of 120 x 90 mm; its hold is not what is asked for.</summary>
    public static Job Job { get; } =
        DemoShop.Job(
            DemoShop.PlainJob(more: "\n[locator]\nby = \"pins\"\npins = [[-15, 45], [135, 45]]\n[magnets]\ncount = 4")
        ) with
        {
            AcceptLowHold = "a test of the trim",
        };

    /// <summary>A plate of 120 x 90 mm with cutouts.</summary>
    public static Part Plate(params Contour[] cutouts) =>
        Outlined(Contours.RoundedRectangle(new Box2(0, 0, 120, 90), 8), cutouts);

    public static Part Outlined(Contour outer, params Contour[] cutouts) =>
        new(outer, [.. cutouts.Select(Contours.Reverse)], [], [], [], []);

    public static (FixtureDesign Design, ImmutableArray<ProgramText> Programs) Make(Part part, Job job)
    {
        Tolerances t = Tolerances.House;
        Placement placement = Good(Placing.Place(part, job, t));
        FixtureDesign begun = Good(Designer.Begin(part, placement, job, t));
        FixtureDesign design = Good(Designer.Finish(begun, Good(MagnetPlacement.Choose(begun, job, t)), job, t));
        return (design, Programs(design, job));
    }

    /// <summary>The programs of a design, perhaps one that was spoiled.</summary>
    public static ImmutableArray<ProgramText> Programs(FixtureDesign design, Job job)
    {
        Tolerances t = Tolerances.House;
        ImmutableArray<ProgramPlan> plans = Good(OperationPlanner.Plan(design, job, new BlockHolding(design, job), t));
        return [.. plans.Select(p => Good(ProgramWriter.Write(p, job.Control, job)))];
    }

    /// <summary>The judge's errors, code and message.</summary>
    public static string[] Errors(Part part, Job job, FixtureDesign design, ImmutableArray<ProgramText> programs) =>
        [
            .. Verifier
                .Judge(new VerifyRequest(HeldJobs.Nominal(job), design, programs, Limits.House) { Drawing = part })
                .Findings.Where(f => f.Severity == Severity.Error)
                .Select(f => f.Code + " " + f.Message),
        ];

    private static T Good<T>(Stage<T> stage)
    {
        Assert.True(stage.Ok, string.Join('\n', stage.Findings));
        return stage.Value!;
    }
}
