using System.Collections.Immutable;
using FixtureGen.Design;
using FixtureGen.Drawing;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Roles;
using FixtureGen.Model;
using FixtureGen.Shop.Jobs;
using FixtureGen.Solve;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

/// <summary>The demo jobs' own outlines through placing, design and holding; the table goes to the test's output.</summary>
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
    public void Demo_job_is_held_and_its_magnets_leave_room_for_the_net(string name)
    {
        string stem = Path.Combine(DemoShop.Root, "outlines", name);
        Job job = DemoShop.Job(File.ReadAllText(DemoShop.StatedJob(name)), name);
        byte[] bytes = File.ReadAllBytes(stem + ".dxf");
        DrawingContent drawing = Value(DxfReader.Read(bytes, name + ".dxf", job.DrawingUnit, Tolerances.House));
        Part part = Value(PartBuilder.Build(drawing, job));
        Placement placement = Value(Placing.Place(part, job, Tolerances.House));
        FixtureDesign begun = Value(Designer.Begin(part, placement, job, Tolerances.House));
        ImmutableArray<MagnetPlace> magnets = Value(MagnetPlacement.Choose(begun, job, Tolerances.House));
        FixtureDesign design = Value(Designer.Finish(begun, magnets, job, Tolerances.House));

        Stage<HoldingResult> stage = HoldJudgement.Evaluate(design, job);
        HoldingResult r = stage.Value!;
        output.WriteLine(
            FormattableString.Invariant(
                $"| {name} | {r.SealedForceN:0} | {r.GasketForceN:0} | {magnets.Length} x {r.MagnetForceN / Math.Max(1, magnets.Length):0.0} | {r.CuttingForceN:0} | {r.LiftMm:0.00} | {r.VacuumOnly.Factor:0.00} {r.VacuumOnly.Nominal:0.00} {r.VacuumOnly.Stays:0.00} | {r.MagnetsStopping.Factor:0.00} {r.MagnetsStopping.Nominal:0.00} {r.MagnetsStopping.Stays:0.00} | {r.Both.Factor:0.00} | {r.VacuumOnly.Corner} | {r.MagnetsStopping.Corner} |"
            )
        );
        foreach (Finding f in stage.Findings)
        {
            output.WriteLine(f.ToString());
        }

        bool byMagnets = job.HoldBy == HoldBy.Magnets;
        Assert.True(byMagnets || r.SealedForceN > r.GasketForceN, "the shell seats");
        double put = byMagnets ? r.MagnetsOnly.Factor : r.VacuumOnly.Factor;
        Assert.True(put >= job.Limits.VacuumFactor, "house limit on what holds it");
        Assert.True(r.MagnetsStopping.Stays >= job.Limits.MagnetFactor, "house limit on magnets while stopping");
        Assert.True(r.Both.Factor >= r.VacuumOnly.Factor && r.Both.Factor >= r.MagnetsOnly.Factor);
        Assert.All(r.Samples, s => Assert.InRange(s.Both, 0, 999));
        Assert.Equal(Math.Max(job.MagnetCount, magnets.Length), magnets.Length);
        Assert.Equal(magnets, Again(begun, magnets, job));
    }

    /// <summary>The places that a job chooses anew when its magnets are written into it as the layout page saves them.</summary>
    private static ImmutableArray<MagnetPlace> Again(FixtureDesign begun, ImmutableArray<MagnetPlace> magnets, Job job)
    {
        IEnumerable<MagnetPlace> own = magnets.Where(m => !m.FromDrawing);
        MagnetWish[] wishes =
        [
            .. own.Select(m => new MagnetWish(WrittenPlace.InPart(m.At, begun.Placement.Pose, job), m.Locked)),
        ];
        Job saved = job with { Magnets = [.. wishes], MagnetCount = magnets.Length, MagnetFactorTarget = null };
        Stage<ImmutableArray<MagnetPlace>> again = MagnetPlacement.Choose(begun, saved, Tolerances.House);
        Assert.Empty(again.Findings);
        return Value(again);
    }

    private static T Value<T>(Stage<T> stage)
    {
        Assert.True(stage.Ok, string.Join('\n', stage.Findings));
        return stage.Value!;
    }
}
