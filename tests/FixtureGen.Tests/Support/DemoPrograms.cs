using System.Collections.Immutable;
using FixtureGen.Design;
using FixtureGen.Drawing;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Roles;
using FixtureGen.Holding.Block;
using FixtureGen.Model;
using FixtureGen.Programs;
using FixtureGen.Shop.Jobs;
using FixtureGen.Solve;
using FixtureGen.Toolpaths;
using Xunit;

namespace FixtureGen.Tests.Support;

/// <summary>A demo job with its design, finished programs and the part as drawn.</summary>
internal sealed record DemoProgram(Job Job, FixtureDesign Design, ImmutableArray<ProgramText> Texts, Part Drawing);

/// <summary>The demo jobs' programs, each made once for all tests.</summary>
internal static class DemoPrograms
{
    private static readonly SortedDictionary<string, Lazy<DemoProgram>> Made = new(
        Names().ToDictionary(n => n, n => new Lazy<DemoProgram>(() => Make(n))),
        StringComparer.Ordinal
    );

    public static IEnumerable<string> Names() =>
        Directory
            .EnumerateFiles(Path.Combine(DemoShop.Root, "outlines"), "*.toml")
            .Select(p => Path.GetFileNameWithoutExtension(p))
            .Where(n => File.Exists(Path.Combine(DemoShop.Root, "outlines", n + ".dxf")))
            .Order(StringComparer.Ordinal);

    /// <summary>Those whose shell vacuum holds.</summary>
    public static IEnumerable<string> OnVacuum() =>
        Names().Where(n => DemoShop.Job(File.ReadAllText(DemoShop.StatedJob(n)), n).HoldBy == HoldBy.Vacuum);

    public static DemoProgram Of(string name) => Made[name].Value;

    private static DemoProgram Make(string name)
    {
        Tolerances t = Tolerances.House;
        string path = Path.Combine(DemoShop.Root, "outlines", name);
        Job job = Good(JobReader.Read(File.ReadAllText(DemoShop.StatedJob(name)), name + ".toml", DemoShop.Files));
        job = job with { Name = name, ProgramNumber = job.ProgramNumber ?? 1000 };
        DrawingContent drawing = Good(
            DxfReader.Read(File.ReadAllBytes(path + ".dxf"), name + ".dxf", job.DrawingUnit, t)
        );
        Part part = Good(PartBuilder.Build(drawing, job));
        Placement placement = Good(Placing.Place(part, job, t));
        FixtureDesign begun = Good(Designer.Begin(part, placement, job, t));
        FixtureDesign design = Good(Designer.Finish(begun, Good(MagnetPlacement.Choose(begun, job, t)), job, t));
        ImmutableArray<ProgramPlan> plans = Good(OperationPlanner.Plan(design, job, new BlockHolding(design, job), t));
        return new DemoProgram(
            job,
            design,
            [.. plans.Select(p => Good(ProgramWriter.Write(p, job.Control, job)))],
            part
        );
    }

    private static T Good<T>(Stage<T> stage)
    {
        Assert.True(stage.Ok, string.Join('\n', stage.Findings));
        return stage.Value!;
    }
}
