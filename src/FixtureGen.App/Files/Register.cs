using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.Model;
using FixtureGen.Toolpaths;

namespace FixtureGen.App.Files;

/// <summary>How far a revision of a fixture has come.</summary>
internal enum FixtureState
{
    /// <summary>Programs may have been made; no block was cut. A next revision takes its place.</summary>
    Planned,

    /// <summary>A block of this revision is on the shelf: placement, features and trim program are frozen.</summary>
    Cut,

    /// <summary>The block is still used and frozen, but due for a remake.</summary>
    Worn,

    /// <summary>The block was thrown away; the entry stays so that its number is not given out again.</summary>
    Scrapped,
}

/// <summary>One revision of one job's fixture. Program is the job's base number N (trim N, top N + 1, underside N + 2).</summary>
internal sealed record Fixture(
    string Job,
    string Id,
    int Revision,
    int Program,
    string Plate,
    int PlateRevision,
    FixtureState State
)
{
    /// <summary>True while a block of this revision may still be clamped on the machine.</summary>
    public bool OnShelf => State is FixtureState.Cut or FixtureState.Worn;
}

/// <summary>The register <c>library.toml</c>, sorted by job and revision. It lies in the folder of the jobs.</summary>
internal sealed record Register(ImmutableArray<Fixture> Fixtures)
{
    /// <summary>In the folder of the jobs.</summary>
    public const string FileName = "library.toml";

    private readonly ILookup<string, Fixture> _byJob = Fixtures.ToLookup(f => f.Job, StringComparer.Ordinal);

    /// <summary>What the numbers N, N + 1 and N + 2 of a job are.</summary>
    private static readonly string[] Programs = ["trim", "top", "underside"];

    /// <summary>No fixture yet.</summary>
    public static Register Empty { get; } = new(ImmutableArray<Fixture>.Empty);

    /// <summary>The newest revision of a job that is not scrapped, else its newest; null when the job is not registered.</summary>
    public Fixture? Current(string job) =>
        RevisionsOf(job).Where(f => f.State != FixtureState.Scrapped).MaxBy(f => f.Revision)
        ?? RevisionsOf(job).MaxBy(f => f.Revision);

    /// <summary>What the pipeline is given of a fixture: with an older block of the job on the shelf the register's number overrules the job's.</summary>
    public Registered AsRegistered(Fixture fixture) =>
        new(
            fixture.Program,
            fixture.Id,
            fixture.Revision,
            RevisionsOf(fixture.Job).Any(f => f.OnShelf && f.Revision < fixture.Revision)
        );

    /// <summary>All revisions of a job, rising; empty when it is not registered.</summary>
    public IEnumerable<Fixture> RevisionsOf(string job) => _byJob[job];

    /// <summary>The register with this fixture in place of the same job's same revision, or added.</summary>
    public Register With(Fixture fixture) => With([fixture]);

    /// <summary>The register with each of these in place of the same job's same revision, or added.</summary>
    public Register With(IReadOnlyCollection<Fixture> fixtures)
    {
        HashSet<(string, int)> replaced = [.. fixtures.Select(f => (f.Job, f.Revision))];
        return new([
            .. Fixtures
                .Where(f => !replaced.Contains((f.Job, f.Revision)))
                .Concat(fixtures)
                .OrderBy(f => f.Job, StringComparer.Ordinal)
                .ThenBy(f => f.Revision),
        ]);
    }

    /// <summary>What cannot be true: a program number that two jobs take, one revision listed twice, a block on the shelf above a later scrapped one.</summary>
    public IEnumerable<Finding> Contradictions(string where)
    {
        foreach ((Fixture a, Fixture b) in Shared())
        {
            yield return new Finding(
                "number-used-twice",
                Severity.Error,
                where,
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"program number {b.Program} is the {Programs[b.Program - a.Program]} of {a.Job} and the {Programs[0]} of {b.Job}"
                ),
                "give one of them another 'program' number: a job takes three in a row"
            );
        }
        foreach (IGrouping<string, Fixture> g in Fixtures.GroupBy(f => f.Job, StringComparer.Ordinal))
        {
            if (g.Select(f => f.Revision).Distinct().Count() != g.Count())
            {
                yield return new Finding(
                    "revision-twice",
                    Severity.Error,
                    where,
                    $"{g.Key} lists one revision twice",
                    "keep one entry a revision"
                );
            }
        }
    }

    /// <summary>One pair for each two jobs that share a number; the second has the greater or the same base number.</summary>
    private IEnumerable<(Fixture A, Fixture B)> Shared()
    {
        Fixture[] sorted =
        [
            .. Fixtures.OrderBy(f => f.Program).ThenBy(f => f.Job, StringComparer.Ordinal).ThenBy(f => f.Revision),
        ];
        return Enumerable
            .Range(0, sorted.Length)
            .SelectMany(i =>
                sorted[(i + 1)..]
                    .TakeWhile(b => b.Program - sorted[i].Program < ProgramNumbers.PerJob)
                    .Where(b => b.Job != sorted[i].Job)
                    .Select(b => (sorted[i], b))
            )
            .DistinctBy(p => (p.Item1.Job, p.b.Job));
    }
}
