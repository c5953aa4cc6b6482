using FixtureGen.Holding;
using FixtureGen.Holding.Sliding;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

[Trait("Speed", "Slow")]
public sealed class PathSweepTest
{
    // Brute force: every step, every pressure, the cutter's edge at 61 positions, each solved from nothing.
    [Fact]
    public void Following_the_edge_finds_what_trying_every_position_finds()
    {
        Job job = HeldDesigns.Job();
        FixtureDesign design = HeldDesigns.Of(HeldDesigns.Plain, job, true, new(75, 75), new(150, 100), new(90, 140));
        HoldingContext context = HoldingAnalysis.Context(design, job, Tolerances.House).Value!;
        HoldingResult result = context.Evaluate(design.Magnets);
        HeldPart[] lost = context.Lost.Hold([.. design.Magnets.Select(m => m.At)]);

        double[] vacuum = Brute(context, context.Vacuum[0]);
        double[] magnets = Brute(context, lost);

        Assert.Equal(vacuum.Min(), result.VacuumOnly.Factor, 1e-3 * vacuum.Min());
        Assert.Equal(magnets.Min(), result.MagnetsOnly.Factor, 1e-3 * magnets.Min());
        int off = 0;
        for (int i = 0; i < vacuum.Length; i++)
        {
            Assert.True(result.Samples[i].VacuumOnly >= vacuum[i] * (1 - 2e-3));
            off += result.Samples[i].VacuumOnly > vacuum[i] * 1.01 ? 1 : 0;
        }
        Assert.InRange(off, 0, vacuum.Length / 25);
    }

    private static double[] Brute(HoldingContext context, HeldPart[] held)
    {
        double[] least = new double[context.Loads.Steps.Length];
        Parallel.For(
            0,
            least.Length,
            step =>
                least[step] = Enumerable
                    .Range(-30, 61)
                    .SelectMany(a => held.Select(h => LimitState.Solve(h, context.Loads.Load(step, a / 25.0), default)))
                    .Min(a => a.Factor)
        );
        return least;
    }
}
