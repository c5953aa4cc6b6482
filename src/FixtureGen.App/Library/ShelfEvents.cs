using System.Globalization;
using FixtureGen.App.Files;
using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen.App.Library;

/// <summary>What may happen to a block, and what it does to the register and the files.</summary>
internal static class ShelfEvents
{
    /// <summary>
    /// Cut: the newest planned revision becomes cut and its files are copied to out/JOB.rN, where nothing touches them: they
    /// are the only valid pair of that block. Worn: the newest cut one becomes worn. Scrapped: the oldest one on the shelf.
    /// </summary>
    public static Stage<Register> Apply(Register register, string folder, string job, FixtureState state)
    {
        Fixture? target = state switch
        {
            FixtureState.Cut => register
                .RevisionsOf(job)
                .Where(f => f.State == FixtureState.Planned)
                .MaxBy(f => f.Revision),
            FixtureState.Worn => register
                .RevisionsOf(job)
                .Where(f => f.State == FixtureState.Cut)
                .MaxBy(f => f.Revision),
            FixtureState.Planned or FixtureState.Scrapped => register
                .RevisionsOf(job)
                .Where(f => f.OnShelf)
                .MinBy(f => f.Revision),
        };
        if (target is null)
        {
            return Stage.Failed<Register>(NoSuchBlock(register, folder, job, state));
        }
        if (state == FixtureState.Cut && Freeze(folder, target) is { } trouble)
        {
            return Stage.Failed<Register>(trouble);
        }
        return Stage.Answer(register.With(target with { State = state }));
    }

    private static Finding NoSuchBlock(Register register, string folder, string job, FixtureState state)
    {
        string[] has =
        [
            .. register
                .RevisionsOf(job)
                .Select(f =>
                    string.Create(CultureInfo.InvariantCulture, $"revision {f.Revision} {RegisterText.Word(f.State)}")
                ),
        ];
        string what =
            has.Length == 0
                ? "the register has no such job"
                : $"no revision of it can become {RegisterText.Word(state)} (it has: {string.Join(", ", has)})";
        return new(
            "register-no-such-block",
            Severity.Error,
            job,
            what,
            has.Length == 0 ? WhichJob(register, folder, job)
                : state == FixtureState.Cut || register.RevisionsOf(job).All(f => f.State != FixtureState.Planned)
                    ? $"'fixturegen regenerate {folder}' makes a revision that can be cut"
                : $"note the block as cut first: 'fixturegen register {folder} --cut {job}'"
        );
    }

    /// <summary>The job whose block bears that fixture id, else the jobs that there are.</summary>
    private static string WhichJob(Register register, string folder, string name)
    {
        const int Most = 8;
        if (register.Fixtures.FirstOrDefault(f => f.Id == name) is { } bearer)
        {
            return $"fixture {name} is of the job {bearer.Job}: name that";
        }
        string[] jobs = [.. register.Fixtures.Select(f => f.Job).Distinct(StringComparer.Ordinal)];
        if (Nearest.Find(name, jobs) is { } near)
        {
            return $"did you mean {near}?";
        }
        string there = string.Join(", ", jobs.Take(Most)) + (jobs.Length > Most ? ", ..." : "");
        return jobs.Length == 0
            ? $"run 'fixturegen regenerate {folder}' first"
            : $"name one of {there}; 'fixturegen regenerate {folder}' registers a new job";
    }

    /// <summary>Copies the made files aside; null when done.</summary>
    private static Finding? Freeze(string folder, Fixture f)
    {
        Stage<LibraryFolder> library = LibraryFolder.Find(Path.Combine(Path.GetFullPath(folder), "x"));
        if (!library.Ok)
        {
            return library.Findings[0];
        }
        string made = Path.Combine(library.Value!.Out, f.Job);
        if (Staleness.Last(made, f.Job) is not { Report: { Ok: true } report } || report.Revision != f.Revision)
        {
            return new Finding(
                "register-not-made",
                Severity.Error,
                made,
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"the files of revision {f.Revision} are not there, so what was cut is not known"
                ),
                "run 'fixturegen regenerate' and cut the block with its programs"
            );
        }
        if (FrozenBlock.Altered(made, f.Job) is { } altered)
        {
            return altered with
            {
                Code = "register-not-made",
                Message = "it is missing or was altered after it was made, so what was cut is not known",
                Remedy = "run 'fixturegen regenerate' and cut the block with its programs",
            };
        }
        string frozen = FrozenBlock.Folder(library.Value.Out, f.Job, f.Revision);
        string next = frozen + $".next-{Guid.NewGuid():N}";
        try
        {
            if (!Directory.Exists(frozen))
            {
                Directory.CreateDirectory(next);
                foreach (string file in Directory.EnumerateFiles(made))
                {
                    File.Copy(file, Path.Combine(next, Path.GetFileName(file)));
                }
                Directory.Move(next, frozen);
            }
            return null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return new Finding(
                "out-not-writable",
                Severity.Error,
                frozen,
                $"the frozen copy cannot be written: {e.Message}",
                "free the folder or its disk; the register was not changed"
            );
        }
    }
}
