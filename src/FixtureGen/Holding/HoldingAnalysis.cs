using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Shop;

namespace FixtureGen.Holding;

/// <summary>Will the part stay put: the factors of a finished design, where they are least, and what would mend them.</summary>
public static class HoldingAnalysis
{
    /// <summary>The other overload with <see cref="Tolerances.House"/>.</summary>
    public static Stage<HoldingResult> Evaluate(FixtureDesign design, Job job) =>
        Evaluate(design, job, Tolerances.House);

    /// <summary>
    /// The factors of the design as it stands, with the findings of <see cref="Context"/> and <see cref="Judge"/>; no result
    /// where Context refuses.
    /// </summary>
    /// <exception cref="KernelException">What a cut takes of a zone could not be proven.</exception>
    public static Stage<HoldingResult> Evaluate(FixtureDesign design, Job job, Tolerances tolerances)
    {
        Stage<HoldingContext> context = Context(design, job, tolerances);
        if (context.Value is null)
        {
            return Stage.Failed<HoldingResult>(context.Findings);
        }
        HoldingResult result = context.Value.Evaluate(design.Magnets);
        return Stage.Of(result, context.Findings.AddRange(Judge(context.Value, result, job)));
    }

    /// <summary>
    /// What does not depend on the magnets, for trying many places of them. Errors: vacuum-altitude, hold-no-contact (1 mm2 or
    /// less) and hold-no-trim, all three without a context, and seal-never-seats, a cord that pushes back more than the vacuum
    /// pulls. Warnings: vacuum-alarm-high, zone-opened.
    /// </summary>
    /// <param name="like">See <see cref="HoldingContext"/>; null for none.</param>
    /// <exception cref="KernelException">What a cut takes of a zone could not be proven.</exception>
    public static Stage<HoldingContext> Context(
        FixtureDesign design,
        Job job,
        Tolerances tolerances,
        HoldingContext? like = null
    )
    {
        List<Finding> findings = [.. Refusals(design, job)];
        if (findings.Count > 0)
        {
            return Stage.Failed<HoldingContext>(findings);
        }
        HoldingContext context = new(design, job, tolerances, like);
        if (context.Level.Used < context.Level.Alarm - 1e-9)
        {
            findings.Add(HoldingFindings.AlarmNotReached(context.Level));
        }
        if (context.CordForceN >= context.GrossForceN)
        {
            double length = design.Cords.Sum(c => Measure.Length(c.Centre));
            string wouldDo = Remedies.CordThatSeats(job.Gasket, length, context.GrossForceN);
            findings.Add(
                HoldingFindings.NeverSeats(context.GrossForceN, context.CordForceN, context.Level.Used, wouldDo)
            );
        }
        findings.AddRange(context.Seals.Opened.Select(o => HoldingFindings.ZoneOpened(o.Cut, o.Zone)));
        return Stage.Of(context, findings);
    }

    /// <summary>
    /// What the house says to a result: hold-vacuum-low and hold-magnets-low below its limits (warnings, or errors where the job
    /// says so), and the notes seal-lost-lift and magnet-thin, a disc of an 80 C grade or less whose permeance is below 1.
    /// </summary>
    public static ImmutableArray<Finding> Judge(HoldingContext context, HoldingResult result, Job job)
    {
        var findings = ImmutableArray.CreateBuilder<Finding>();
        if (result.VacuumOnly.Factor < job.Limits.VacuumFactor)
        {
            string remedy = Remedies.ForVacuum(context, result, job.Limits.VacuumFactor);
            findings.Add(
                HoldingFindings.VacuumLow(
                    result.VacuumOnly,
                    job.Limits.VacuumFactor,
                    Refusal(result.VacuumOnly.Factor, job),
                    remedy
                )
            );
        }
        if (result.MagnetsStopping.Factor < job.Limits.MagnetFactor)
        {
            string remedy = Remedies.ForMagnets(context, result, result.MagnetShareN.Length, job.Limits.MagnetFactor);
            findings.Add(
                HoldingFindings.MagnetsLow(
                    result.MagnetsStopping,
                    job.Limits.MagnetFactor,
                    Refusal(result.MagnetsStopping.Factor, job),
                    remedy
                )
            );
        }
        if (result.LiftMm > 0)
        {
            findings.Add(HoldingFindings.LiftsOff(result.LiftMm, result.MagnetForceN, result.GasketForceN));
        }
        double permeance = Disc.Weakest(job.Magnet, PairOnBlock.WorkTemperatureC).Permeance;
        if (result.MagnetShareN.Length > 0 && permeance < 1 && job.Magnet.MaxTemperatureC <= 80)
        {
            findings.Add(HoldingFindings.MagnetTooThin(job.Magnet, permeance));
        }
        return findings.ToImmutable();
    }

    /// <summary>Below 1 the part would move: never made. Below a house limit only where the job gives its reason.</summary>
    private static Severity Refusal(double factor, Job job) =>
        factor >= 1 && job.AcceptLowHold.Length > 0 ? Severity.Warning : Severity.Error;

    private static IEnumerable<Finding> Refusals(FixtureDesign design, Job job)
    {
        if (!Atmosphere.Reaches(job.Vacuum.AltitudeM))
        {
            yield return HoldingFindings.Altitude(job.Vacuum.AltitudeM);
        }
        if (Measure.Area(design.Contact) <= 1)
        {
            yield return HoldingFindings.NoContact();
        }
        if (design.TrimCuts.IsEmpty)
        {
            yield return HoldingFindings.NoTrim();
        }
    }
}
