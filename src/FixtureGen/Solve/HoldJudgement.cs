using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Holding;
using FixtureGen.Holding.Magnets;
using FixtureGen.Holding.Seal;
using FixtureGen.Model;

namespace FixtureGen.Solve;

/// <summary>Will the part stay put: the factors of a finished design, where they are least, and what would mend them.</summary>
public static class HoldJudgement
{
    /// <summary>The other overload with <see cref="Tolerances.House"/>.</summary>
    public static Stage<HoldingResult> Evaluate(FixtureDesign design, Job job) =>
        Evaluate(design, job, Tolerances.House);

    /// <summary>
    /// The factors of the design as it stands, with the findings of <see cref="HoldingAnalysis.Context"/> and <see cref="Judge(HoldingContext, HoldingResult, Job)"/>; no result
    /// where Context refuses.
    /// </summary>
    /// <exception cref="KernelException">What a cut takes of a zone could not be proven.</exception>
    public static Stage<HoldingResult> Evaluate(FixtureDesign design, Job job, Tolerances tolerances)
    {
        Stage<HoldingContext> context = HoldingAnalysis.Context(design, job, tolerances);
        if (context.Value is null)
        {
            return Stage.Failed<HoldingResult>(context.Findings);
        }
        HoldingResult result = context.Value.Evaluate(design.Magnets);
        Remedies remedies = new(design, job, tolerances);
        return Stage.Answer(result, context.Findings.AddRange(Judge(context.Value, result, job, remedies)));
    }

    /// <summary>
    /// What the house says to a result: hold-vacuum-low where the part does not stay put on vacuum, hold-magnets-low where it does
    /// not stay on magnets, or does not stay put on them where they are the hold, stops counted (errors; warnings where the job accepts a low hold, never below 1), shell-sags and
    /// net-closed by the shell's own bending, jacket-may-slide, shift-over-slack, and the notes low-hold-unneeded, seal-lost-lift and magnet-thin, a disc
    /// of an 80 C grade or less whose permeance is below 1.
    /// </summary>
    /// <param name="remedies">Tries what would mend a low hold, which takes time; null to leave it to <c>check</c>.</param>
    internal static ImmutableArray<Finding> Judge(
        HoldingContext context,
        HoldingResult result,
        Job job,
        Remedies? remedies
    )
    {
        var findings = ImmutableArray.CreateBuilder<Finding>();
        bool byMagnets = job.HoldBy == HoldBy.Magnets;
        double put = byMagnets ? result.MagnetsOnly.Factor : result.VacuumOnly.Factor;
        if (byMagnets && put < job.Limits.VacuumFactor)
        {
            string remedy = remedies?.ForMagnets(put, job.Limits.VacuumFactor) ?? HoldingFindings.AskCheck;
            findings.Add(HoldingFindings.MagnetsAloneLow(result.MagnetsOnly, job, Refusal(put, job), remedy));
        }
        else if (put < job.Limits.VacuumFactor)
        {
            string remedy = remedies?.ForVacuum(put, job.Limits.VacuumFactor) ?? HoldingFindings.AskCheck;
            findings.Add(HoldingFindings.VacuumLow(result.VacuumOnly, job, Refusal(put, job), remedy));
        }
        double stays = result.MagnetsStopping.Stays;
        bool said = byMagnets && put < job.Limits.VacuumFactor;
        if (!said && stays < job.Limits.MagnetFactor)
        {
            string remedy = remedies?.ForMagnets(stays, job.Limits.MagnetFactor) ?? HoldingFindings.AskCheck;
            findings.Add(HoldingFindings.MagnetsLow(result.MagnetsStopping, job, Refusal(stays, job), remedy));
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
        findings.AddRange(Bending(result, job, context.Level.DeadHead));
        if (result.JacketGrip < JacketGrip.Least)
        {
            findings.Add(HoldingFindings.JacketMaySlide(result.JacketGrip, JacketGrip.Wind(job)));
        }
        if (result.ShiftMm > job.Shell.SlackMax + 1e-9)
        {
            findings.Add(HoldingFindings.ShiftOverSlack(result.ShiftMm, job.Shell.SlackMax));
        }
        bool meets = put >= job.Limits.VacuumFactor && stays >= job.Limits.MagnetFactor;
        if (meets && job.AcceptLowHold.Length > 0)
        {
            findings.Add(HoldingFindings.LowHoldUnneeded());
        }
        return findings.ToImmutable();
    }

    private static IEnumerable<Finding> Bending(HoldingResult result, Job job, double deadHead)
    {
        if (result.Dimples.Where(d => d.SagMm >= d.RoomMm).MaxBy(d => d.SagMm) is { } closed)
        {
            yield return HoldingFindings.Closed(closed);
        }
        else if (
            job.ShellMaterial.Sheet is { } sheet
            && result
                .Dimples.Where(d => d.SagMm > Deflection.MostSag || d.StressMPa > Deflection.MostStress)
                .MaxBy(d => d.SagMm)
                is { } deep
        )
        {
            double widest = Deflection.Widest(deep.Round, sheet, job.Shell.ThicknessMin, deadHead);
            yield return HoldingFindings.Sags(deep, widest);
        }
    }

    /// <summary>As <see cref="Evaluate(FixtureDesign, Job)"/> judges, but without trying what would mend it: for a page that asks at every move.</summary>
    public static ImmutableArray<Finding> Judge(HoldingContext context, HoldingResult result, Job job) =>
        Judge(context, result, job, null);

    /// <summary>Below 1 the part would move: never made. Below a house limit only where the job gives its reason.</summary>
    private static Severity Refusal(double factor, Job job) =>
        factor >= 1 && job.AcceptLowHold.Length > 0 ? Severity.Warning : Severity.Error;
}
