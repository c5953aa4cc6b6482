using System.Collections.Immutable;
using System.Diagnostics;
using FixtureGen.Design;
using FixtureGen.Dxf;
using FixtureGen.Holding;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

/// <summary>The demo jobs' own outlines through placing, design and holding.</summary>
public sealed class DemoHoldingTest(ITestOutputHelper output)
{
    public static TheoryData<string> Names { get; } =
    [
        .. Directory
            .EnumerateFiles(Path.Combine(DemoShop.Root, "outlines"), "*.toml")
            .Select(f => Path.GetFileNameWithoutExtension(f)!)
            .Order(StringComparer.Ordinal),
    ];

    [Theory]
    [MemberData(nameof(Names))]
    public void Demo_job_is_held(string name)
    {
        string stem = Path.Combine(DemoShop.Root, "outlines", name);
        Job job = DemoShop.Job(File.ReadAllText(stem + ".toml"), name);
        Drawing drawing = Value(
            DxfReader.Read(File.ReadAllBytes(stem + ".dxf"), name + ".dxf", job.DrawingUnit, Tolerances.House)
        );
        Part part = Value(PartBuilder.Build(drawing, job));
        Placement placement = Value(Placing.Place(part, job, Tolerances.House));
        FixtureDesign begun = Value(Designer.Begin(part, placement, job, Tolerances.House));
        Process me = Process.GetCurrentProcess();
        TimeSpan t0 = me.TotalProcessorTime;
        ImmutableArray<MagnetPlace> magnets = Value(MagnetPlacement.Choose(begun, job, Tolerances.House));
        me.Refresh();
        TimeSpan t1 = me.TotalProcessorTime;
        FixtureDesign design = Value(Designer.Finish(begun, magnets, job, Tolerances.House));
        me.Refresh();
        TimeSpan t2 = me.TotalProcessorTime;
        Stage<HoldingResult> stage = HoldingAnalysis.Evaluate(design, job);
        me.Refresh();
        TimeSpan t3 = me.TotalProcessorTime;
        HoldingResult r = stage.Value!;
        output.WriteLine(
            FormattableString.Invariant(
                $"{name} gross {r.SealedForceN:0} cord {r.GasketForceN:0} mag {r.MagnetForceN:0} ({magnets.Length}) cut {r.CuttingForceN:0} lift {r.LiftMm:0.00} | vac {r.VacuumOnly.Factor:0.00} {r.VacuumOnly.Mode} stop {r.MagnetsStopping.Factor:0.00} {r.MagnetsStopping.Mode} full {r.MagnetsOnly.Factor:0.00} both {r.Both.Factor:0.00} | {r.Samples.Length} steps cpu place {(t1 - t0).TotalMilliseconds:0} eval {(t3 - t2).TotalMilliseconds:0}"
            )
        );
        foreach (Finding f in stage.Findings)
        {
            output.WriteLine("   " + f.Code + ": " + f.Message + " -> " + f.Remedy);
        }
    }

    private static T Value<T>(Stage<T> stage)
    {
        Assert.True(stage.Ok, string.Join('\n', stage.Findings));
        return stage.Value!;
    }
}
