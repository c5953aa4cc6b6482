using System.Collections.Immutable;
using System.Globalization;
using System.Security.Cryptography;
using FixtureGen.App.Records;
using FixtureGen.Model;
using FixtureGen.Output;
using FixtureGen.Output.Reports;

namespace FixtureGen.App.Files;

/// <summary>
/// The files that a block on the shelf was cut with: the only valid pair of that block. The register knows each by its hash and
/// the library's store keeps it; out/JOB.rN shows them. Nothing that is made later under its number or its revision may differ
/// from its programs.
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
            if (FirstDifference(job.Library, register, f, outcome.Files) is { } other)
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

    /// <summary>
    /// Brings back into out/JOB.rN what the register says was cut and is not there as it was; a finding for each file that had to
    /// be, an error where the store has lost it too.
    /// </summary>
    /// <exception cref="IOException">The folder cannot be written.</exception>
    /// <exception cref="UnauthorizedAccessException">The folder cannot be written.</exception>
    public static IEnumerable<Finding> Restore(LibraryFolder library, Register register, Fixture f)
    {
        BlockStore store = new(library);
        string folder = Folder(library.Out, f.Job, f.Revision);
        foreach (MadeFile m in register.FilesOf(f))
        {
            string path = Path.Combine(folder, m.Name);
            bool there = File.Exists(path);
            if (there && Hash(File.ReadAllBytes(path)) == m.Sha256)
            {
                continue;
            }
            if (store.Find(m.Sha256) is not { } bytes)
            {
                yield return Gone(library, f, m);
                continue;
            }
            Directory.CreateDirectory(folder);
            OutputFolder.ReplaceFile(path, bytes);
            yield return new Finding(
                "frozen-restored",
                Severity.Warning,
                library.Relative(path),
                there
                    ? "it was not what the block was cut with and is so again"
                    : "it was missing and is there again as the block was cut with it",
                "if it was sent to the machine since it was last right, send it again"
            );
        }
    }

    /// <summary>
    /// Shows what blocks on the shelf were cut with in out/JOB.rN, once the register says so. A warning where that cannot be
    /// written: the store has it, and the next regeneration tries again.
    /// </summary>
    public static IEnumerable<Finding> Show(string folder, Register register)
    {
        if (LibraryFolder.Find(Path.Combine(Path.GetFullPath(folder), "x")).Value is not { } library)
        {
            return [];
        }
        try
        {
            foreach (Fixture f in register.Fixtures.Where(f => f.State == FixtureState.Planned))
            {
                Hide(library, f);
            }
            return
            [
                .. register
                    .Fixtures.Where(f => f.OnShelf)
                    .SelectMany(f => Restore(library, register, f))
                    .Where(f => f.Severity == Severity.Error),
            ];
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return
            [
                new Finding(
                    "out-not-writable",
                    Severity.Warning,
                    library.Out,
                    $"what was cut is kept and cannot be shown: {e.Message}",
                    "free the folder or its disk; the next regeneration shows it"
                ),
            ];
        }
    }

    /// <summary>Takes away what was shown of a block that was noted as cut by mistake; a folder with anything that the store has not stays.</summary>
    private static void Hide(LibraryFolder library, Fixture f)
    {
        string folder = Folder(library.Out, f.Job, f.Revision);
        BlockStore store = new(library);
        if (
            Directory.Exists(folder)
            && Directory
                .EnumerateFileSystemEntries(folder)
                .All(e => File.Exists(e) && store.Find(Hash(File.ReadAllBytes(e))) is not null)
        )
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>What a block was cut with is lost.</summary>
    public static Finding Gone(LibraryFolder library, Fixture f, MadeFile file) =>
        new(
            "frozen-altered",
            Severity.Error,
            library.Relative(Path.Combine(Folder(library.Out, f.Job, f.Revision), file.Name)),
            "it is missing or not what the block was cut with, and the library's store has lost it too",
            "bring it or .fixturegen/store back from a copy; a block without it must be scrapped"
        );

    private static string Hash(byte[] bytes) => Convert.ToHexStringLower(SHA256.HashData(bytes));

    /// <summary>In words, with the line where it is known; null where all programs are the same to the byte.</summary>
    private static string? FirstDifference(
        LibraryFolder library,
        Register register,
        Fixture f,
        ImmutableArray<OutputFile> files
    )
    {
        Dictionary<string, MadeFile> cut = register.FilesOf(f).ToDictionary(m => m.Name, StringComparer.Ordinal);
        string kept = Folder(library.Out, f.Job, f.Revision);
        if (cut.Count == 0 && !Directory.Exists(kept))
        {
            return $"the programs that it was cut with are not in {Path.GetFileName(kept)}: whether these are the same is not known";
        }
        BlockStore store = new(library);
        foreach (OutputFile file in files.Where(o => o.Name.EndsWith(ProgramEnd, StringComparison.Ordinal)))
        {
            string path = Path.Combine(kept, file.Name);
            byte[]? was =
                cut.TryGetValue(file.Name, out MadeFile? made) ? store.Find(made.Sha256)
                : cut.Count == 0 && File.Exists(path) ? File.ReadAllBytes(path)
                : null;
            if (made is not null && made.Sha256 == Hash([.. file.Bytes]))
            {
                continue;
            }
            if (was is null)
            {
                return made is null
                    ? $"{file.Name} would be new: it was cut without one"
                    : $"{file.Name} would differ from what it was cut with";
            }
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
