using FixtureGen.Model;

namespace FixtureGen.Solve.Search;

/// <summary>A job that no seal holds is solved once more with magnets alone, so that what is said of them was tried.</summary>
internal static class ByMagnets
{
    /// <summary>What to write and what it gives; empty where magnets alone do not meet the limits either.</summary>
    public static string Try(Job job, Func<OpenKeys, Func<Job, Job>, Solution?> solve)
    {
        OpenKeys open = OpenKeys.Magnet | OpenKeys.Count | OpenKeys.Passes | OpenKeys.Feed | OpenKeys.Rpm;
        if (
            job.HoldBy == HoldBy.Magnets
            || job.Skirt == SkirtHold.SealedLand
            || !job.Ports.IsEmpty
            || solve(job.Open & open, Held) is not { } solution
        )
        {
            return "";
        }
        string disc = solution.Draft.Job.Magnet.Name;
        return FormattableString.Invariant(
            $"Write [hold] by = \"magnets\": it holds with {solution.Magnets} discs {disc}, factor {FactorText.Two(solution.Held.Put)}, without cord and vacuum."
        );
    }

    private static Job Held(Job job) =>
        job with
        {
            HoldBy = HoldBy.Magnets,
            Gasket = Gasket.None,
            OtherGaskets = [],
            Open = job.Open & ~OpenKeys.Gasket,
        };
}
