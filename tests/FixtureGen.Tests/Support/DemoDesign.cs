using System.Collections.Immutable;
using FixtureGen.Design;
using FixtureGen.Drawing;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Roles;
using FixtureGen.Holding;
using FixtureGen.Model;
using FixtureGen.Solve;
using Xunit;

namespace FixtureGen.Tests.Support;

/// <summary>A demo drawing designed and held under its own job or another.</summary>
internal static class DemoDesign
{
    public static Job Job(string name) => DemoShop.Job(File.ReadAllText(DemoShop.StatedJob(name)), name);

    /// <summary>The design without magnets.</summary>
    public static (Part Part, Placement Placement, FixtureDesign Begun) Begun(string name, Job job)
    {
        byte[] bytes = File.ReadAllBytes(Path.Combine(DemoShop.Root, "outlines", name + ".dxf"));
        DrawingContent drawing = Good(DxfReader.Read(bytes, name + ".dxf", job.DrawingUnit, Tolerances.House));
        Part part = Good(PartBuilder.Build(drawing, job));
        Placement placement = Good(Placing.Place(part, job, Tolerances.House));
        return (part, placement, Good(Designer.Begin(part, placement, job, Tolerances.House)));
    }

    /// <summary>The finished design and its answer, whatever that is.</summary>
    public static (FixtureDesign Design, HoldingResult Held) Held(string name, Job job)
    {
        FixtureDesign begun = Begun(name, job).Begun;
        ImmutableArray<MagnetPlace> magnets = Good(MagnetPlacement.Choose(begun, job, Tolerances.House));
        FixtureDesign design = Good(Designer.Finish(begun, magnets, job, Tolerances.House));
        return (design, HoldingAnalysis.Context(design, job, Tolerances.House).Value!.Evaluate(design.Magnets));
    }

    public static T Good<T>(Stage<T> stage)
    {
        Assert.True(stage.Ok, string.Join('\n', stage.Findings));
        return stage.Value!;
    }
}
