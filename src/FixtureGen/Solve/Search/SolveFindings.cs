using FixtureGen.Holding;
using FixtureGen.Model;

namespace FixtureGen.Solve.Search;

/// <summary>What solving a job has to say.</summary>
internal static class SolveFindings
{
    /// <summary>A warning beside the errors of the hold itself, which a job may accept.</summary>
    public static Finding LimitsNotMet(LimitedFactors held, HouseLimits limits, string remedy) =>
        new(
            "limits-not-met",
            Severity.Warning,
            "job",
            FormattableString.Invariant(
                $"Nothing that the job leaves open meets the limits; the nearest, at the lightest cut, holds {FactorText.Two(held.Vacuum)} times the load on vacuum (limit {limits.VacuumFactor:0.##}) and {FactorText.Two(held.Stopping)} times on magnets while stopping (limit {limits.MagnetFactor:0.##})."
            ),
            remedy
        );
}
