using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths;

/// <summary>
/// What every paper and every program of a job says first where the hold is below a house limit and the job is made all the
/// same: the factors, the limits and the job's reason.
/// </summary>
public static class LowHold
{
    /// <summary>The words that stand first.</summary>
    public const string Words = "BELOW HOUSE LIMIT";

    /// <summary>One text for each factor below its limit, such as "vacuum alone 1.4, limit 2.0"; empty where none is.</summary>
    public static ImmutableArray<string> Shortfalls(HoldingResult holding, HouseLimits limits)
    {
        if (holding.HoldBy == HoldBy.Magnets)
        {
            return [.. Short("magnets alone", holding.MagnetsOnly.Factor, limits.VacuumFactor)];
        }
        // with its stops a part stays at least as well as without
        double stays = Math.Max(holding.MagnetsStopping.Stays, holding.MagnetsStopping.Factor);
        return
        [
            .. Short("vacuum alone", holding.VacuumOnly.Factor, limits.VacuumFactor),
            .. Short("magnets alone while the machine stops", stays, limits.MagnetFactor),
        ];
    }

    /// <summary>The job's reason as it is printed.</summary>
    public static string Reason(Job job) => job.AcceptLowHold.Length > 0 ? job.AcceptLowHold : "none given";

    /// <summary>The plans with the words behind the lines that name the fixture and its label; unchanged where no factor is below its limit.</summary>
    public static ImmutableArray<ProgramPlan> Marked(ImmutableArray<ProgramPlan> plans, HoldingResult holding, Job job)
    {
        ImmutableArray<string> shortfalls = Shortfalls(holding, job.Limits);
        if (shortfalls.IsEmpty)
        {
            return plans;
        }
        string[] lines = [$"{Words}: {string.Join("; ", shortfalls).ToUpperInvariant()}", $"REASON: {Reason(job)}"];
        return
        [
            .. plans.Select(p => p with { Header = p.Header.InsertRange(OperatorText.LabelLines(p.Setup), lines) }),
        ];
    }

    private static IEnumerable<string> Short(string what, double factor, double limit) =>
        factor < limit ? [$"{what} {FactorText.Two(factor)}, limit {FactorText.Two(limit)}"] : [];
}
