using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.App.Files;
using FixtureGen.Model;

namespace FixtureGen.App.Library;

/// <summary>One folder of jobs with its register, held for writing unless this is a dry run.</summary>
internal sealed class Shelf : IDisposable
{
    private readonly RegisterFile? _file;
    private readonly IReadOnlyDictionary<string, int> _spare;

    private Shelf(
        string folder,
        ImmutableArray<string> jobs,
        Register register,
        RegisterFile? file,
        IReadOnlyDictionary<string, int> stated
    )
    {
        Folder = folder;
        Jobs = jobs;
        Register = register;
        _file = file;
        _spare = Numbering.Spare(
            register,
            stated,
            jobs.Select(j => Path.GetFileNameWithoutExtension(j)!).Where(j => register.Current(j)?.OnShelf == true)
        );
    }

    /// <summary>The folder of the jobs.</summary>
    public string Folder { get; }

    /// <summary>Paths of its job files.</summary>
    public ImmutableArray<string> Jobs { get; }

    /// <summary>The register with every job claimed; not changed while workers run.</summary>
    public Register Register { get; private set; }

    /// <summary>Opens the folder's register and claims a number for every job that has none.</summary>
    public static Stage<Shelf> Open(string folder, ImmutableArray<string> jobs, bool dryRun)
    {
        Stage<RegisterFile> held = dryRun ? new Stage<RegisterFile>(null, []) : RegisterFile.Hold(folder);
        if (!dryRun && !held.Ok)
        {
            return Stage.Failed<Shelf>(held.Findings);
        }
        Stage<Register> read = RegisterFile.Read(folder);
        if (!read.Ok)
        {
            held.Value?.Dispose();
            return Stage.Failed<Shelf>(read.Findings);
        }
        IReadOnlyDictionary<string, int> stated = Numbering.Stated(jobs);
        Register claimed = Numbering.Claim(read.Value!, jobs.Select(j => Path.GetFileNameWithoutExtension(j)!), stated);
        Shelf shelf = new(folder, jobs, claimed, held.Value, stated);
        IEnumerable<Finding> twice = claimed.Contradictions(Path.Combine(folder, Register.FileName));
        if (held.Value?.Write(claimed) is { } trouble)
        {
            held.Value.Dispose();
            return Stage.Failed<Shelf>(trouble);
        }
        return Stage.Answer(shelf, [.. read.Findings, .. twice.Except(read.Findings)]);
    }

    /// <summary>The entry that a remake at a higher revision would get: a new number while an older block is on the shelf, so that neither program replaces the other.</summary>
    public Fixture Next(Fixture current)
    {
        if (!current.OnShelf)
        {
            return current with { Revision = current.Revision + 1 };
        }
        int number = _spare[current.Job];
        return current with
        {
            Revision = current.Revision + 1,
            Program = number,
            Id = Numbering.Id(number),
            State = FixtureState.Planned,
        };
    }

    /// <summary>Writes what the run made into the register, and drops nothing that it did not touch. Null when done; otherwise the next run takes it from the reports.</summary>
    public Finding? Settle(IEnumerable<JobChange> changes)
    {
        HashSet<string> mine = [.. Jobs];
        List<Fixture> entries = [];
        HashSet<Fixture> replaced = [];
        foreach (
            JobChange c in changes.Where(c =>
                c.Result is JobResult.Made or JobResult.Unchanged && mine.Contains(c.JobFile)
            )
        )
        {
            Fixture? same = Register.RevisionsOf(c.Job).FirstOrDefault(f => f.Revision == c.Revision);
            Fixture? current = Register.Current(c.Job);
            if (same is null && current is { State: FixtureState.Planned } && current.Revision < c.Revision)
            {
                // A revision that was never cut is replaced by its successor.
                replaced.Add(current);
            }
            Fixture entry =
                same
                ?? new Fixture(
                    c.Job,
                    c.FixtureId,
                    c.Revision,
                    c.Program,
                    c.Plate,
                    c.PlateRevision,
                    FixtureState.Planned
                );
            entries.Add(
                entry.OnShelf
                    ? entry
                    : entry with
                    {
                        Plate = c.Plate,
                        PlateRevision = c.PlateRevision,
                        Program = c.Program,
                        Id = c.FixtureId,
                    }
            );
        }
        Register kept = new([.. Register.Fixtures.Where(f => !replaced.Contains(f))]);
        Register = kept.With(entries);
        return _file?.Write(Register);
    }

    /// <summary>Lets the register go.</summary>
    public void Dispose() => _file?.Dispose();

    /// <summary>Folder and count of jobs, for faults.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Folder}: {Jobs.Length} jobs");
}
