using FixtureGen.Holding;
using FixtureGen.Model;

namespace FixtureGen.Solve.Search;

/// <summary>What solving a job has to say.</summary>
internal static class SolveFindings
{
    /// <summary>A warning beside the errors of the hold itself, which a job may accept.</summary>
    public static Finding LimitsNotMet(LimitedFactors held, Job job, string remedy) =>
        new(
            "limits-not-met",
            Severity.Warning,
            "job",
            "Nothing that the job leaves open meets the limits; the nearest, at the lightest cut, holds "
                + Holds(held, job),
            remedy
        );

    private static string Holds(LimitedFactors held, Job job) =>
        job.HoldBy == HoldBy.Magnets
            ? FormattableString.Invariant(
                $"{FactorText.Two(held.Put)} times the load on magnets alone (limit {job.Limits.VacuumFactor:0.##})."
            )
            : FormattableString.Invariant(
                $"{FactorText.Two(held.Put)} times the load on vacuum (limit {job.Limits.VacuumFactor:0.##}) and {FactorText.Two(held.Stopping)} times on magnets while stopping (limit {job.Limits.MagnetFactor:0.##})."
            );

    /// <summary>Beside the refusals of a part in which no cord finds room.</summary>
    public static Finding MagnetsWouldHold(string remedy) =>
        new(
            "hold-by-magnets",
            Severity.Note,
            "job",
            "No seal finds room in this part, or none with its magnets, but magnets alone were tried and meet the limits.",
            remedy
        );
}
