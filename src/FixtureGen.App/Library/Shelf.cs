using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.App.Files;
using FixtureGen.App.Records;
using FixtureGen.Model;

namespace FixtureGen.App.Library;

/// <summary>One folder of jobs with its register, held for writing unless this is a dry run.</summary>
internal sealed class Shelf : IDisposable
{
    private readonly RegisterFile? _file;
    private readonly IReadOnlyDictionary<string, int> _spare;
    private readonly Occasion _occasion;

    private Shelf(
        string folder,
        ImmutableArray<string> jobs,
        Register register,
        RegisterFile? file,
        FolderNumbers numbers,
        Occasion occasion
    )
    {
        _occasion = occasion;
        Folder = folder;
        Jobs = jobs;
        Register = register;
        _file = file;
        _spare = numbers.Spare(
            register,
            jobs.Select(j => Path.GetFileNameWithoutExtension(j)!).Where(j => register.Current(j)?.OnShelf == true)
        );
    }

    /// <summary>The folder of the jobs.</summary>
    public string Folder { get; }

    /// <summary>Paths of its job files.</summary>
    public ImmutableArray<string> Jobs { get; }

    /// <summary>The register with every job claimed; not changed while workers run.</summary>
    public Register Register { get; private set; }

    /// <summary>Opens the folder's register and claims a number for every job that has none; what they come to is written by <see cref="Begin"/>.</summary>
    public static Stage<Shelf> Open(string folder, ImmutableArray<string> jobs, bool dryRun, Occasion occasion)
    {
        Stage<RegisterFile> held = dryRun
            ? new Stage<RegisterFile>(null, [])
            : RegisterFile.Hold(folder, TimeSpan.Zero);
        if (!dryRun && !held.Ok)
        {
            return Stage.Failed<Shelf>(held.Findings);
        }
        Stage<Register> read = held.Value?.Open(occasion) ?? RegisterFile.Read(folder);
        if (!read.Ok)
        {
            held.Value?.Dispose();
            return Stage.Failed<Shelf>(read.Findings);
        }
        Stage<FolderNumbers> numbers = FolderNumbers.Read(folder, jobs, occasion);
        Stage<Register> claimed = numbers.Ok
            ? numbers.Value!.Claim(read.Value!)
            : Stage.Failed<Register>(numbers.Findings);
        if (!claimed.Ok)
        {
            held.Value?.Dispose();
            return Stage.Failed<Shelf>(claimed.Findings);
        }
        return Stage.Answer(
            new Shelf(folder, jobs, claimed.Value!, held.Value, numbers.Value!, occasion),
            read.Findings
        );
    }

    /// <summary>Writes the claimed numbers, and keeps what blocks on the shelf were cut with that a register of before did not. Null when done.</summary>
    public Finding? Begin()
    {
        if (_file is null)
        {
            return null;
        }
        foreach (Fixture f in Register.Fixtures.Where(f => f.OnShelf && !Register.FilesOf(f).Any()))
        {
            Register = Freezing.Keep(Register, Folder, f).Value ?? Register;
        }
        return _file.Write(Register);
    }

    /// <summary>The entry that a remake at a higher revision would get: a new number while an older block is on the shelf, so that neither program replaces the other; null where none is free.</summary>
    public Fixture? Next(Fixture current)
    {
        if (!current.OnShelf)
        {
            return current with { Revision = current.Revision + 1, Trim = 1 };
        }
        if (!_spare.TryGetValue(current.Job, out int number))
        {
            return null;
        }
        return current with
        {
            Revision = current.Revision + 1,
            Program = number,
            Id = Numbering.Id(number),
            State = FixtureState.Planned,
            Trim = 1,
        };
    }

    /// <summary>
    /// Writes what the run made into the register, with the notices that blocks on the shelf now need, and drops nothing that it
    /// did not touch. Null when done; otherwise the next run takes it from the reports.
    /// </summary>
    public Finding? Settle(IEnumerable<JobChange> changes)
    {
        HashSet<string> mine = [.. Jobs];
        JobChange[] own = [.. changes.Where(c => mine.Contains(c.JobFile))];
        Register = Settlement.Settle(Register, own, _occasion);
        return _file?.Write(Register);
    }

    /// <summary>Lets the register go.</summary>
    public void Dispose() => _file?.Dispose();

    /// <summary>Folder and count of jobs, for faults.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Folder}: {Jobs.Length} jobs");
}
