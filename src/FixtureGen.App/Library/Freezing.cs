using System.Globalization;
using FixtureGen.App.Files;
using FixtureGen.App.Records;
using FixtureGen.Model;
using FixtureGen.Output.Reports;

namespace FixtureGen.App.Library;

/// <summary>Keeps the files that a block is cut with, by their content, before the register says that it was.</summary>
internal static class Freezing
{
    /// <summary>
    /// The register with the revision's files, kept in the library's store. A revision whose files are kept already needs none
    /// of out/; another must have been made, and its files be what was made.
    /// </summary>
    public static Stage<Register> Keep(Register register, string folder, Fixture f)
    {
        Stage<LibraryFolder> library = LibraryFolder.Find(Path.Combine(Path.GetFullPath(folder), "x"));
        if (!library.Ok)
        {
            return Stage.Failed<Register>(library.Findings[0]);
        }
        BlockStore store = new(library.Value!);
        MadeFile[] kept = [.. register.FilesOf(f)];
        if (f.State != FixtureState.Planned && kept.Length > 0)
        {
            return kept.FirstOrDefault(m => store.Find(m.Sha256) is null) is { } gone
                ? Stage.Failed<Register>(FrozenBlock.Gone(library.Value!, f, gone))
                : Stage.Answer(register);
        }
        string made = Path.Combine(library.Value!.Out, f.Job);
        string frozen = FrozenBlock.Folder(library.Value.Out, f.Job, f.Revision);
        string from = f.State == FixtureState.Planned ? made : frozen;
        if (ReportFile.Read(from, f.Job) is not { Ok: true } report || report.Revision != f.Revision)
        {
            return Stage.Failed<Register>(NotMade(made, f));
        }
        if (FrozenBlock.Altered(from, f.Job) is { } altered)
        {
            return Stage.Failed<Register>(
                altered with
                {
                    Code = "register-not-made",
                    Message = "it is missing or was altered after it was made, so what was cut is not known",
                    Remedy = "run 'fixturegen regenerate' and cut the block with its programs",
                }
            );
        }
        try
        {
            return Stage.Answer(register.With([f], Files(store, from, f, report)));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return Stage.Failed<Register>(
                new Finding(
                    "out-not-writable",
                    Severity.Error,
                    from,
                    $"what the block was cut with cannot be kept: {e.Message}",
                    "free the folder or its disk; the register was not changed"
                )
            );
        }
    }

    /// <summary>Every file of the folder that belongs to the job's last run, the report included, kept in the store.</summary>
    /// <exception cref="IOException">One cannot be read or kept.</exception>
    /// <exception cref="UnauthorizedAccessException">One cannot be read or kept.</exception>
    public static MadeFile[] Files(BlockStore store, string folder, Fixture f, Report report) =>
        [
            .. report
                .Files!.Select(m => m.File)
                .Append(f.Job + ".report.json")
                .Select(name =>
                {
                    byte[] bytes = File.ReadAllBytes(Path.Combine(folder, name));
                    return new MadeFile(f.Job, f.Revision, f.Trim, name, store.Keep(bytes), bytes.Length);
                }),
        ];

    private static Finding NotMade(string made, Fixture f) =>
        new(
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
