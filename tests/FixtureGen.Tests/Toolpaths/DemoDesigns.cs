using FixtureGen.Drawing;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Roles;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Toolpaths;

/// <summary>The repository's own outlines, designed.</summary>
internal static class DemoDesigns
{
    public static TheoryData<string> Names() =>
        [
            .. Directory
                .EnumerateFiles(Path.Combine(DemoShop.Root, "outlines"), "*.toml")
                .Select(p => Path.GetFileNameWithoutExtension(p))
                .Order(StringComparer.Ordinal),
        ];

    public static (Job Job, FixtureDesign Design) Of(string name)
    {
        string folder = Path.Combine(DemoShop.Root, "outlines");
        Job job = DemoShop.Job(File.ReadAllText(DemoShop.StatedJob(name)), name);
        job = job with { ProgramNumber = job.ProgramNumber ?? 1200 };
        byte[] bytes = File.ReadAllBytes(Path.Combine(folder, name + ".dxf"));
        DrawingContent drawing = Taken(DxfReader.Read(bytes, name + ".dxf", job.DrawingUnit, Tolerances.House));
        return (job, DesignedBlock.Of(Taken(PartBuilder.Build(drawing, job)), job));
    }

    public static T Taken<T>(Stage<T> stage)
    {
        Assert.True(stage.Ok, string.Join('\n', stage.Findings));
        return stage.Value!;
    }
}
