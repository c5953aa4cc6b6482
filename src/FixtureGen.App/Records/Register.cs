using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.Model;
using FixtureGen.Toolpaths;

namespace FixtureGen.App.Records;

/// <summary>
/// All that a folder of jobs remembers: fixtures, sorted by job and revision, the blocks that were cut of them and their files,
/// notices that somebody must answer, and everything that happened.
/// </summary>
internal sealed record Register
{
    /// <summary>The readable copy, in the folder of the jobs.</summary>
    public const string FileName = "library.toml";

    /// <summary>The database, beside it.</summary>
    public const string DatabaseName = "library.db";

    private ILookup<string, Fixture>? _byJob;

    /// <summary>Sorted by job and revision.</summary>
    public ImmutableArray<Fixture> Fixtures
    {
        get;
        init
        {
            field = value;
            _byJob = null;
        }
    } = [];

    /// <summary>Sorted by job, revision and number.</summary>
    public ImmutableArray<Block> Blocks { get; init; } = [];

    /// <summary>Sorted by job, revision, trim and name.</summary>
    public ImmutableArray<MadeFile> Files { get; init; } = [];

    /// <summary>In the order they were given.</summary>
    public ImmutableArray<Notice> Notices { get; init; } = [];

    /// <summary>In the order they happened.</summary>
    public ImmutableArray<RegisterEvent> Events { get; init; } = [];

    /// <summary>What the numbers N, N + 1 and N + 2 of a job are.</summary>
    private static readonly string[] Programs = ["trim", "top", "underside"];

    /// <summary>No fixture yet.</summary>
    public static Register Empty { get; } = new();

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
    public IEnumerable<Fixture> RevisionsOf(string job) =>
        (_byJob ??= Fixtures.ToLookup(f => f.Job, StringComparer.Ordinal))[job];

    /// <summary>The blocks that were cut of a revision, rising by number.</summary>
    public IEnumerable<Block> BlocksOf(string job, int revision) =>
        Blocks.Where(b => b.Job == job && b.Revision == revision);

    /// <summary>The files of a revision's trim; empty where none were kept.</summary>
    public IEnumerable<MadeFile> FilesOf(Fixture f) =>
        Files.Where(m => m.Job == f.Job && m.Revision == f.Revision && m.Trim == f.Trim);

    /// <summary>The register with this fixture in place of the same job's same revision, or added.</summary>
    public Register With(Fixture fixture) => With([fixture]);

    /// <summary>The register with each of these in place of the same job's same revision, or added.</summary>
    public Register With(IReadOnlyCollection<Fixture> fixtures)
    {
        HashSet<(string, int)> replaced = [.. fixtures.Select(f => (f.Job, f.Revision))];
        return this with
        {
            Fixtures =
            [
                .. Fixtures
                    .Where(f => !replaced.Contains((f.Job, f.Revision)))
                    .Concat(fixtures)
                    .OrderBy(f => f.Job, StringComparer.Ordinal)
                    .ThenBy(f => f.Revision),
            ],
        };
    }

    /// <summary>The register with this block in place of the one of its number, or added; its fixture's state follows.</summary>
    public Register With(Block block) =>
        Settled(
            this with
            {
                Blocks = Sorted(Blocks.Where(b => !SameBlock(b, block)).Append(block)),
            },
            block.Job,
            block.Revision
        );

    /// <summary>The register without a block that was never cut after all.</summary>
    public Register Without(Block block) =>
        Settled(this with { Blocks = Sorted(Blocks.Where(b => !SameBlock(b, block))) }, block.Job, block.Revision);

    /// <summary>The register with these files in place of those that the fixtures had for the same trim.</summary>
    public Register With(IReadOnlyCollection<Fixture> owners, IEnumerable<MadeFile> files)
    {
        HashSet<(string, int, int)> replaced = [.. owners.Select(f => (f.Job, f.Revision, f.Trim))];
        return this with
        {
            Files =
            [
                .. Files
                    .Where(m => !replaced.Contains((m.Job, m.Revision, m.Trim)))
                    .Concat(files)
                    .OrderBy(m => m.Job, StringComparer.Ordinal)
                    .ThenBy(m => m.Revision)
                    .ThenBy(m => m.Trim)
                    .ThenBy(m => m.Name, StringComparer.Ordinal),
            ],
        };
    }

    /// <summary>The register with one event more.</summary>
    public Register Noted(
        Occasion occasion,
        Happening what,
        string job = "",
        int revision = 0,
        int block = 0,
        int amount = 0,
        string? why = null
    ) =>
        this with
        {
            Events = Events.Add(
                new RegisterEvent
                {
                    Number = Events.Length + 1,
                    At = occasion.At,
                    Who = occasion.Who,
                    What = what,
                    Job = job,
                    Revision = revision,
                    Block = block,
                    Amount = amount,
                    Why = why ?? occasion.Why,
                }
            ),
        };

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

    private static bool SameBlock(Block a, Block b) => (a.Job, a.Revision, a.Number) == (b.Job, b.Revision, b.Number);

    private static ImmutableArray<Block> Sorted(IEnumerable<Block> blocks) =>
        [.. blocks.OrderBy(b => b.Job, StringComparer.Ordinal).ThenBy(b => b.Revision).ThenBy(b => b.Number)];

    /// <summary>The revision's state is that of the best of its blocks.</summary>
    private static Register Settled(Register register, string job, int revision)
    {
        Fixture fixture = register.RevisionsOf(job).Single(f => f.Revision == revision);
        FixtureState state = register.BlocksOf(job, revision).Select(b => b.State).Append(FixtureState.Scrapped).Min();
        return register.With(
            fixture with
            {
                State = register.BlocksOf(job, revision).Any() ? state : FixtureState.Planned,
            }
        );
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
