using FixtureGen.Geometry;
using FixtureGen.Holding.Block;
using FixtureGen.Holding.Seal;
using FixtureGen.Model;
using FixtureGen.Shop.Files;

namespace FixtureGen.Holding;

/// <summary>What a design holds with, worked out once for any places of its magnets.</summary>
public static class HoldingAnalysis
{
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
        if (job.HoldBy == HoldBy.Magnets)
        {
            return Stage.Answer(context, findings);
        }
        if (context.Level.Used < context.Level.Alarm - 1e-9)
        {
            findings.Add(HoldingFindings.AlarmNotReached(context.Level));
        }
        if (context.CordForceN >= context.GrossForceN)
        {
            double length = design.Cords.Sum(c => Measure.Length(c.Centre));
            string wouldDo = CordRemedy.ThatSeats(job.Gasket, length, context.GrossForceN);
            findings.Add(
                HoldingFindings.NeverSeats(context.GrossForceN, context.CordForceN, context.Level.Used, wouldDo)
            );
        }
        findings.AddRange(context.Seals.Opened.Select(o => HoldingFindings.ZoneOpened(o.Cut, o.Zone)));
        return Stage.Answer(context, findings);
    }

    private static IEnumerable<Finding> Refusals(FixtureDesign design, Job job)
    {
        if (!Atmosphere.Reaches(job.Vacuum.AltitudeM))
        {
            yield return BlockHoldFindings.Altitude(job.Vacuum.AltitudeM);
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
