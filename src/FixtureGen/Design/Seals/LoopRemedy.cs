using FixtureGen.Model;
using static FixtureGen.Design.Block.FindingWords;

namespace FixtureGen.Design.Seals;

/// <summary>
/// What would give a cord loop room where there is none, or seal what is left over, each tried: another cord of the shop, then the
/// least land with the thinnest.
/// </summary>
internal static class LoopRemedy
{
    /// <summary>No land is narrower than this, mm: a bead of block that a cord may lean on (common practice, no source).</summary>
    private const double LeastLand = 1.5;

    /// <summary>A change that seals less than this share of what is left over is none.</summary>
    private const double Worth = 0.05;

    /// <summary>The first change that seals this share of what the best does is named.</summary>
    private const double Nearly = 0.9;

    /// <param name="Keys">What the job would state.</param>
    private sealed record Change(Job Job, string Keys);

    /// <param name="hasRoom">Whether a zone is found under a job.</param>
    public static string Find(Job job, Func<Job, bool> hasRoom) => Tried(job, hasRoom) ?? Nothing(job);

    /// <summary>The same where a place is only short of a loop, with what else would mend it.</summary>
    public static string Find(Job job, Func<Job, bool> hasRoom, string otherwise) =>
        Tried(job, hasRoom) is { } tried
            ? $"{tried}; or {otherwise}"
            : $"no cord of templates/gaskets/ has room, not with a land of {Mm(Math.Min(LeastLand, job.Rules.Land))} either: {otherwise}";

    /// <summary>What would seal most of an area that is left over. What a job leaves open the solver has weighed, so that nothing is tried.</summary>
    /// <param name="area">Left over, mm2.</param>
    /// <param name="sealedOfIt">How much of it is sealed under a job, mm2.</param>
    public static string ForArea(Job job, double area, Func<Job, double> sealedOfIt)
    {
        const string Enough = "nothing to do where the hold is enough without it: no vacuum is counted there";
        if (job.Open.HasFlag(OpenKeys.Gasket))
        {
            return Enough;
        }
        (Change Change, double Sealed)[] tried = [.. Changes(job).Select(c => (c, sealedOfIt(c.Job)))];
        double most = tried.Select(t => t.Sealed).DefaultIfEmpty(0).Max();
        if (most <= Worth * area)
        {
            return $"{Enough}; no thinner cord of templates/gaskets/ and no land of {Mm(Math.Min(LeastLand, job.Rules.Land))} seals it";
        }
        (Change change, double seals) = tried.First(t => t.Sealed >= Nearly * most);
        return $"{Enough}; {change.Keys} was tried and seals {Area(seals)} of it";
    }

    private static string? Tried(Job job, Func<Job, bool> hasRoom) =>
        Changes(job).FirstOrDefault(c => hasRoom(c.Job)) is { } change
            ? $"state {change.Keys}, which was tried and has room"
                + (
                    change.Job.Gasket == job.Gasket
                    || change.Keys.Contains(change.Job.Gasket.Name, StringComparison.Ordinal)
                        ? ""
                        : $" with {change.Job.Gasket.Name}"
                )
            : null;

    private static string Nothing(Job job) =>
        $"no cord of templates/gaskets/ has room, not with a land of {Mm(Math.Min(LeastLand, job.Rules.Land))} either: the part is too narrow for a seal here";

    // the thickest cord first; of cords that the job leaves open the solver tries each by itself
    private static IEnumerable<Change> Changes(Job job)
    {
        Gasket[] thinner =
        [
            .. job.OtherGaskets.Where(g => g.Section < job.Gasket.Section - 1e-9).OrderByDescending(g => g.Section),
        ];
        bool open = job.Open.HasFlag(OpenKeys.Gasket);
        foreach (Gasket cord in open ? [] : thinner)
        {
            yield return new(With(job, cord, job.Rules.Land), $"gasket = \"{cord.Name}\"");
        }
        Gasket thinnest = thinner.LastOrDefault() ?? job.Gasket;
        double land = Math.Min(LeastLand, job.Rules.Land);
        if (land < job.Rules.Land)
        {
            string too = thinnest == job.Gasket || open ? "" : $" and gasket = \"{thinnest.Name}\"";
            yield return new(With(job, thinnest, land), $"[rules] land = \"{Mm(land)}\"{too}");
        }
    }

    private static Job With(Job job, Gasket cord, double land) =>
        job with
        {
            Gasket = cord,
            Rules = job.Rules with { Land = land },
        };
}
