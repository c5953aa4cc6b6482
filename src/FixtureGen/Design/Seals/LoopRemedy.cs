using FixtureGen.Model;
using static FixtureGen.Design.Block.FindingWords;

namespace FixtureGen.Design.Seals;

/// <summary>What would give a cord loop room where there is none, each tried: another cord of the shop, then the least land with the thinnest.</summary>
internal static class LoopRemedy
{
    /// <summary>No land is narrower than this, mm: a bead of block that a cord may lean on (common practice, no source).</summary>
    private const double LeastLand = 1.5;

    /// <param name="hasRoom">Whether a zone is found under a job.</param>
    public static string Find(Job job, Func<Job, bool> hasRoom)
    {
        Gasket[] thinner =
        [
            .. job.OtherGaskets.Where(g => g.Section < job.Gasket.Section - 1e-9).OrderByDescending(g => g.Section),
        ];
        // what a job leaves open the solver tries by itself
        bool open = job.Open.HasFlag(OpenKeys.Gasket);
        if (!open && thinner.FirstOrDefault(g => hasRoom(With(job, g, job.Rules.Land))) is { } cord)
        {
            return $"state gasket = \"{cord.Name}\", which was tried and has room";
        }
        Gasket thinnest = thinner.LastOrDefault() ?? job.Gasket;
        double land = Math.Min(LeastLand, job.Rules.Land);
        if (land < job.Rules.Land && hasRoom(With(job, thinnest, land)))
        {
            string too = thinnest == job.Gasket || open ? "" : $" and gasket = \"{thinnest.Name}\"";
            return $"state [rules] land = \"{Mm(land)}\"{too}, which was tried and has room with {thinnest.Name}";
        }
        return $"no cord of templates/gaskets/ has room, not with a land of {Mm(land)} either: the part is too narrow for a seal here";
    }

    private static Job With(Job job, Gasket cord, double land) =>
        job with
        {
            Gasket = cord,
            Rules = job.Rules with { Land = land },
        };
}
