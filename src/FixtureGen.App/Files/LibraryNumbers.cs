using System.Collections.Immutable;
using FixtureGen.App.Records;
using FixtureGen.Model;

namespace FixtureGen.App.Files;

/// <summary>
/// Number, fixture id and revision of jobs as make and check see them: from the register, else the next free ones by
/// sorted name, which <see cref="Claimed"/> claims. Each folder's register is read once.
/// </summary>
internal sealed class LibraryNumbers
{
    private readonly Dictionary<string, Stage<Register>> _folders = new(StringComparer.Ordinal);

    /// <summary>A job's own; failed where the register of its folder cannot be read.</summary>
    public Stage<Registered> For(string jobPath)
    {
        string folder = Path.GetDirectoryName(Path.GetFullPath(jobPath))!;
        if (!_folders.TryGetValue(folder, out Stage<Register>? claimed))
        {
            Stage<Register> read = RegisterFile.Read(folder);
            claimed = read.Ok ? Claimed(folder, jobPath, read.Value!, Occasion.Now(null, null)) : read;
            _folders.Add(folder, claimed);
        }
        if (!claimed.Ok)
        {
            return Stage.Failed<Registered>(claimed.Findings);
        }
        string job = Path.GetFileNameWithoutExtension(jobPath);
        return claimed.Value!.Current(job) is { } current
            ? Stage.Answer(claimed.Value.AsRegistered(current))
            : Stage.Failed<Registered>([
                new Finding(
                    "job-missing",
                    Severity.Error,
                    jobPath,
                    "the job was not in its folder when the numbers of the folder's jobs were given out",
                    "run the command again"
                ),
            ]);
    }

    /// <summary>The register with a number for every job of the folder that has none; nothing is written.</summary>
    public static Stage<Register> Claimed(string folder, string asked, Register register, Occasion occasion)
    {
        ImmutableArray<string> jobs =
        [
            .. JobFiles
                .In(folder)
                .Append(Path.Combine(folder, Path.GetFileName(asked)))
                .Distinct(StringComparer.Ordinal),
        ];
        Stage<FolderNumbers> numbers = FolderNumbers.Read(folder, jobs, occasion);
        return numbers.Ok ? numbers.Value!.Claim(register) : Stage.Failed<Register>(numbers.Findings);
    }
}
