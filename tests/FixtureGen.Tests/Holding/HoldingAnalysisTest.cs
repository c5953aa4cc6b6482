using FixtureGen.Holding;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

public sealed class HoldingAnalysisTest(ITestOutputHelper output)
{
    private static readonly Point2[] Six =
    [
        new(75, 75),
        new(125, 75),
        new(175, 75),
        new(75, 140),
        new(125, 140),
        new(175, 140),
    ];

    [Fact]
    public void Plain_part_is_answered()
    {
        Job job = HeldDesigns.Job();
        FixtureDesign design = HeldDesigns.Of(HeldDesigns.Plain, job, true, Six);
        Stage<HoldingResult> stage = HoldingAnalysis.Evaluate(design, job);
        HoldingResult r = stage.Value!;
        output.WriteLine(Invariant($"atm {r.AtmosphereKPa:0.00} used {r.VacuumKPa:0.00} pump {r.PumpKPa:0.00}"));
        output.WriteLine(Invariant($"gross {r.SealedForceN:0} cord {r.GasketForceN:0} magnets {r.MagnetForceN:0.0} cut {r.CuttingForceN:0.0} lift {r.LiftMm:0.000} implant {r.ImplantDistanceMm:0}"));
        foreach (HoldAnswer a in new[] { r.VacuumOnly, r.MagnetsOnly, r.MagnetsStopping, r.Both })
        {
            output.WriteLine(Invariant($"{a.Factor:0.000} {a.Mode} {a.At} {a.Governs}"));
        }
        foreach (Finding f in stage.Findings)
        {
            output.WriteLine(f.ToString());
        }
        output.WriteLine(Invariant($"{r.Samples.Length} samples, shares {string.Join(' ', r.MagnetShareN.Select(s => FormattableString.Invariant($"{s:0.00}")))}"));
        var watch = System.Diagnostics.Stopwatch.StartNew();
        for (int i = 0; i < 30; i++)
        {
            watch.Restart();
            HoldingAnalysis.Evaluate(design, job);
            double all = watch.Elapsed.TotalMilliseconds;
            HoldingContext c = HoldingAnalysis.Context(design, job, Tolerances.House).Value!;
            watch.Restart();
            c.Evaluate(design.Magnets);
            output.WriteLine(Invariant($"{all:0.0} ms; magnets only {watch.Elapsed.TotalMilliseconds:0.0} ms"));
        }
    }

    private static string Invariant(FormattableString s) => FormattableString.Invariant(s);
}
