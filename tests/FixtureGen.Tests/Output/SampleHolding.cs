using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Tests.Output;

/// <summary>Factors that vary smoothly along a design's trim cuts, as a real answer does; the numbers themselves are invented.</summary>
internal static class SampleHolding
{
    public static HoldingResult Create(FixtureDesign design)
    {
        HoldSample[] samples = [.. design.TrimCuts.OrderByDescending(c => c.Kind == TrimKind.Cutout).SelectMany(Along)];
        return new HoldingResult
        {
            AtmosphereKPa = 97.7,
            VacuumKPa = 60,
            PumpKPa = 82.1,
            SealedForceN = 1043.5,
            GasketForceN = 212.4,
            MagnetForceN = 87.3,
            CuttingForceN = 64.9,
            LiftMm = 0.42,
            ImplantDistanceMm = 312,
            VacuumOnly = Worst(samples, s => s.VacuumOnly, HoldMode.Slide),
            MagnetsOnly = Worst(samples, s => s.MagnetsFullLoad, HoldMode.Tip),
            MagnetsStopping = Worst(samples, s => s.MagnetsStopping, HoldMode.Slide),
            Both = Worst(samples, s => s.Both, HoldMode.Slide),
            Samples = [.. samples],
            MagnetShareN = [21.8, 21.8, 21.8, 21.9],
        };
    }

    private static IEnumerable<HoldSample> Along(TrimCut cut)
    {
        double whole = Measure.Length(cut.Path);
        for (double s = 0; s < whole; s += 1)
        {
            Point2 at = Measure.PointAlong(cut.Path, s);
            double wave = 1 + (0.45 * Math.Sin(at.X / 22)) + (0.3 * Math.Cos(at.Y / 17));
            yield return new HoldSample(
                cut.Name,
                s,
                at,
                61.4,
                2.4 + (2.1 * wave),
                0.9 + (0.6 * wave),
                0.4 + (0.3 * wave),
                3 + (2.6 * wave)
            );
        }
    }

    private static HoldAnswer Worst(HoldSample[] samples, Func<HoldSample, double> factor, HoldMode mode)
    {
        HoldSample worst = samples.MinBy(factor)!;
        return new HoldAnswer(factor(worst), mode, worst.At, "friction");
    }
}
