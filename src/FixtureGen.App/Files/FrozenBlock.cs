using System.Collections.Immutable;
using System.Globalization;
using System.Security.Cryptography;
using FixtureGen.Model;
using FixtureGen.Output;
using FixtureGen.Output.Reports;

namespace FixtureGen.App.Files;

/// <summary>
/// The files that a block on the shelf was cut with, in out/JOB.rN: the only valid pair of that block. Nothing that is made
/// later under its number or its revision may differ from its programs.
/// </summary>
internal static class FrozenBlock
{
    private const string ProgramEnd = ".nc";

    /// <summary>Where the files of a cut revision are kept.</summary>
    public static string Folder(string outputs, string job, int revision) =>
        Path.Combine(outputs, string.Create(CultureInfo.InvariantCulture, $"{job}.r{revision}"));

    /// <summary>Null where this may be written, else why not: a block on the shelf bears this number or revision and was cut with other programs.</summary>
    public static Finding? Conflict(JobSource job, Outcome outcome)
    {
        if (RegisterFile.Read(Path.GetDirectoryName(Path.GetFullPath(job.JobPath))!).Value is not { } register)
        {
            return null; // reading the job has said so
        }
        int? number = outcome.Job?.ProgramNumber;
        foreach (Fixture f in register.RevisionsOf(job.Name).Where(f => f.OnShelf))
        {
            if (f.Revision != outcome.Job?.Revision && f.Program != number)
            {
                continue;
            }
            string kept = Folder(job.Library.Out, job.Name, f.Revision);
            if (FirstDifference(kept, outcome.Files) is { } other)
            {
                return new Finding(
                    "revision-frozen",
                    Severity.Error,
                    job.JobPath,
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"a block of revision {f.Revision}, number {f.Program}, is on the shelf, and {other}"
                    ),
                    "'fixturegen regenerate' makes the next revision beside it; its own programs stay in "
                        + Path.GetFileName(kept)
                );
            }
        }
        return null;
    }

    /// <summary>Null where the folder's programs are those of its report to the byte; else a finding with the first that is not.</summary>
    public static Finding? Altered(string folder, string job)
    {
        if (!Directory.Exists(folder) || ReportFile.Read(folder, job)?.Files is not { } files)
        {
            return null;
        }
        FileFacts? bad = files.FirstOrDefault(f => !IsAsMade(folder, f));
        return bad is null
            ? null
            : new Finding(
                "frozen-altered",
                Severity.Error,
                Path.Combine(folder, bad.File),
                "it is missing or not what the block was cut with, by the report beside it",
                "bring it back from a copy; a block without it must be scrapped"
            );
    }

    /// <summary>True for a file that is there as it was made: a program to the byte, another by its length.</summary>
    public static bool IsAsMade(string folder, FileFacts made)
    {
        FileInfo info = new(Path.Combine(folder, made.File));
        return info.Exists
            && info.Length == made.Bytes
            && (
                made.Sha256 is null
                || !made.File.EndsWith(ProgramEnd, StringComparison.Ordinal)
                || Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(info.FullName))) == made.Sha256
            );
    }

    /// <summary>In words, with the line; null where all programs are the same to the byte.</summary>
    private static string? FirstDifference(string kept, ImmutableArray<OutputFile> files)
    {
        if (!Directory.Exists(kept))
        {
            return $"the programs that it was cut with are not in {Path.GetFileName(kept)}: whether these are the same is not known";
        }
        foreach (OutputFile file in files.Where(f => f.Name.EndsWith(ProgramEnd, StringComparison.Ordinal)))
        {
            string path = Path.Combine(kept, file.Name);
            if (!File.Exists(path))
            {
                return $"{file.Name} would be new: it was cut without one";
            }
            byte[] was = File.ReadAllBytes(path);
            if (!was.AsSpan().SequenceEqual(file.Bytes.AsSpan()))
            {
                int same = was.AsSpan().CommonPrefixLength(file.Bytes.AsSpan());
                int line = 1 + was.AsSpan(0, same).Count((byte)'\n');
                return string.Create(
                    CultureInfo.InvariantCulture,
                    $"{file.Name} would differ from line {line} on from what it was cut with"
                );
            }
        }
        return null;
    }
}
