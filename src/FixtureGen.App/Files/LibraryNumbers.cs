using System.Collections.Immutable;
using FixtureGen.App.Records;
using FixtureGen.Model;

namespace FixtureGen.App.Files;

/// <summary>
/// Number, fixture id and revision of jobs as make and check see them: from the register, else the next free ones by
/// sorted name, which are not claimed. Each folder's register is read once.
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
            claimed = Claimed(folder, jobPath);
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

    private static Stage<Register> Claimed(string folder, string asked)
    {
        Stage<Register> read = RegisterFile.Read(folder);
        if (!read.Ok)
        {
            return read;
        }
        ImmutableArray<string> jobs =
        [
            .. JobFiles
                .In(folder)
                .Append(Path.Combine(folder, Path.GetFileName(asked)))
                .Distinct(StringComparer.Ordinal),
        ];
        return Stage.Answer(
            Numbering.Claim(
                read.Value!,
                jobs.Select(j => Path.GetFileNameWithoutExtension(j)!),
                Numbering.Stated(jobs),
                Occasion.Now(null, null)
            )
        );
    }
}
