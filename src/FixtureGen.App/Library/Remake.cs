using System.Collections.Immutable;
using FixtureGen.App.Files;
using FixtureGen.App.Records;
using FixtureGen.Model;
using FixtureGen.Output;
using FixtureGen.Output.Reports;
using FixtureGen.Shop.Reading;

namespace FixtureGen.App.Library;

/// <summary>Remakes one job if it is stale, and says what changed.</summary>
internal sealed class Remake(
    RegenerateOptions options,
    Staleness staleness,
    Shelf shelf,
    Func<LibraryFolder, ShopFiles> shop,
    string scratch
)
{
    /// <summary>
    /// Refused where the job's files cannot be read or the pipeline refuses; old files are then kept. IOException and
    /// UnauthorizedAccessException as the disk gives them.
    /// </summary>
    public JobChange Run(string jobFile)
    {
        string job = Path.GetFileNameWithoutExtension(jobFile);
        Fixture current = shelf.Register.Current(job)!;
        Stage<JobSource> source = JobSource.Read(jobFile, _ => Stage.Answer(shelf.Register.AsRegistered(current)));
        if (!source.Ok)
        {
            return Row(jobFile, current, JobResult.Refused, "its files cannot be read") with
            {
                Findings = [.. source.Findings.Select(FindingLine.From)],
            };
        }
        JobSource files = source.Value!;
        string folder = Path.Combine(files.Library.Out, job);
        string frozen = FrozenBlock.Folder(files.Library.Out, job, current.Revision);
        Finding[] frozenFindings = Frozen(files.Library, job);
        if (frozenFindings.Any(f => f.Severity == Severity.Error))
        {
            return Row(jobFile, current, JobResult.Refused, "the frozen files were altered") with
            {
                Findings = [.. frozenFindings.Select(FindingLine.From)],
            };
        }
        Previous? before = Staleness.Last(folder, job);
        bool lost = before is not { Report.Ok: true };
        if (current.OnShelf && lost)
        {
            // The block is there whatever became of its output folder: what it was cut with says what it is.
            before = Staleness.Last(frozen, job) ?? before;
        }
        // A run that was killed between the swap and the register has left a higher revision behind: it counts.
        if (before is { Report: { Ok: true } last } && last.Revision > current.Revision)
        {
            current = current with
            {
                Revision = last.Revision,
                Program =
                    last.Programs?.Select(p => p.ProgramNumber).DefaultIfEmpty(current.Program).Min()
                    ?? current.Program,
                State = FixtureState.Planned,
            };
        }
        string? why =
            options.Force ? "asked for"
            : current.OnShelf && lost ? "its files are not there"
            : current.OnShelf
            && !KeptPrograms.For(shelf.Register, files.Library, current, before, folder).Are(before!.Report)
                ? "its programs are not those that the register has for the block"
            : staleness.Why(before, files.Library, current.Revision);
        JobChange change = why is null
            ? Row(jobFile, current, JobResult.Unchanged, "up to date") with
            {
                Before = JobFigures.From(before!.Report),
                After = JobFigures.From(before.Report),
                Plate = before.Report.Plate!.Name,
                PlateRevision = before.Report.Plate.Revision,
                FixtureId = before.Report.FixtureId!,
                Files = MadeFiles.Read(folder, current, before.Report),
            }
            : Make(jobFile, files, folder, before, current, why);
        return change with
        {
            Findings = [.. frozenFindings.Select(FindingLine.From), .. change.Findings],
            Misfits = new ShelfFit(shelf.Register, files.Library, shop(files.Library)).Find(change),
        };
    }

    /// <summary>What was cut of a job and had to be brought back, or cannot be.</summary>
    private Finding[] Frozen(LibraryFolder library, string job)
    {
        Fixture[] cut = [.. shelf.Register.RevisionsOf(job).Where(f => f.OnShelf)];
        return options.DryRun
            ? []
            :
            [
                .. cut.SelectMany(f => FrozenBlock.Restore(library, shelf.Register, f)),
                .. cut.Where(f => !shelf.Register.FilesOf(f).Any())
                    .Select(f => FrozenBlock.Altered(FrozenBlock.Folder(library.Out, job, f.Revision), job))
                    .OfType<Finding>(),
            ];
    }

    /// <summary>The row of a job before which the run was stopped.</summary>
    public static JobChange NotReached(string jobFile, Shelf shelf) =>
        Row(
            jobFile,
            shelf.Register.Current(Path.GetFileNameWithoutExtension(jobFile))!,
            JobResult.Stopped,
            "stopped before it was reached"
        );

    /// <summary>A shop file that the job names cannot be read; the old files are kept.</summary>
    public static JobChange NotRead(string jobFile, Shelf shelf, Finding finding) =>
        NotReached(jobFile, shelf) with
        {
            Result = JobResult.Refused,
            Why = "a file of the shop cannot be read",
            Findings = [FindingLine.From(finding)],
        };

    /// <summary>The disk would not take or give what the job needs; the old files are kept.</summary>
    public static JobChange NotKept(string jobFile, Shelf shelf, Exception e) =>
        NotReached(jobFile, shelf) with
        {
            Result = JobResult.Refused,
            Why = "its files cannot be written",
            Findings =
            [
                new FindingLine(
                    "out-not-writable",
                    "error",
                    jobFile,
                    e.Message,
                    "free the disk or the folder's permissions; the files that were there are kept",
                    null
                ),
            ],
        };

    /// <summary>The row of a job on which the program itself failed: refused, with the fault named.</summary>
    public static JobChange Broken(string jobFile, Shelf shelf, Fault fault) =>
        Row(
            jobFile,
            shelf.Register.Current(Path.GetFileNameWithoutExtension(jobFile))!,
            JobResult.Refused,
            "our own fault"
        ) with
        {
            Findings =
            [
                new FindingLine(
                    JobChange.FaultCode,
                    "error",
                    jobFile,
                    fault.Message,
                    $"{fault.Remedy}; the old files are kept",
                    null
                ),
            ],
        };

    private JobChange Make(
        string jobFile,
        JobSource files,
        string folder,
        Previous? before,
        Fixture current,
        string why
    )
    {
        Fixture entry = current;
        bool usedUp = false;
        KeptPrograms kept = KeptPrograms.For(shelf.Register, files.Library, current, before, folder);
        Registered? Revise(ImmutableArray<ProgramText> programs, Job job)
        {
            if ((before is not { Report.Ok: true } && !current.OnShelf) || !kept.Differ(programs))
            {
                return null;
            }
            if (current.OnShelf && kept.IsSameBlock(programs))
            {
                entry = current with { Trim = current.Trim + 1 };
                return null;
            }
            if (shelf.Next(Said(current, job)) is not { } next)
            {
                usedUp = true;
                return null;
            }
            entry = next;
            return shelf.Register.AsRegistered(entry);
        }
        JobSource numbered = files with { Registered = shelf.Register.AsRegistered(current) };
        Outcome outcome = Delivery.Make(
            numbered.RequestWith(shop(files.Library), static _ => { }) with
            {
                Revise = Revise,
            }
        );
        outcome.Verdict?.Block.Dispose();
        entry = outcome.Job is { } told ? Said(entry, told) : entry;
        Report? old = before?.Report;
        JobChange change = Row(jobFile, entry, JobResult.Made, why) with
        {
            Before = JobFigures.From(old),
            Findings = [.. outcome.Report.Findings],
        };
        if (usedUp)
        {
            change = change with
            {
                Findings = [.. change.Findings, FindingLine.From(FolderNumbers.NoneSpare(jobFile))],
            };
        }
        if (!outcome.Report.Ok || usedUp)
        {
            return change with
            {
                Result = JobResult.Refused,
                Revision = current.Revision,
                Trim = current.Trim,
                Program = current.Program,
            };
        }
        change = change with
        {
            After = JobFigures.From(outcome.Report),
            Plate = outcome.Job!.Plate.Name,
            PlateRevision = outcome.Job.Plate.Revision,
            Moved = old is null ? [] : Difference.Moved(old, outcome.Report),
            Reload = [.. Changed(folder, outcome)],
            Files = MadeFiles.From(entry, outcome.Files),
        };
        change = change with { PlateUnrevised = change.Reload.Length > 0 && Unrevised(old, outcome.Report) };
        return Deliver(change, outcome, files.Library, entry);
    }

    private JobChange Deliver(JobChange change, Outcome outcome, LibraryFolder library, Fixture entry)
    {
        string folder = Path.Combine(library.Out, change.Job);
        if (change.Reload.Length > 0)
        {
            change = change with
            {
                PictureBefore = Keep(Path.Combine(folder, change.Job + ".preview.svg"), change.Job + ".before.svg"),
                PictureAfter = Keep(
                    outcome.Files.First(f => f.Name.EndsWith(".preview.svg", StringComparison.Ordinal)),
                    change.Job + ".after.svg"
                ),
            };
        }
        if (options.DryRun)
        {
            return change;
        }
        if (entry.OnShelf)
        {
            // a new trim for a block on the shelf is kept like what the block was cut with, before anything shows it
            BlockStore store = new(library);
            foreach (OutputFile file in outcome.Files)
            {
                store.Keep(file.Bytes.AsSpan());
            }
        }
        ImmutableArray<Finding> trouble = OutputFolder.Replace(folder, change.Job, outcome.Files);
        return trouble.Length == 0
            ? change
            : change with
            {
                Result = JobResult.Refused,
                Findings = [.. change.Findings, .. trouble.Select(FindingLine.From)],
            };
    }

    /// <summary>The entry with the revision and number that the job itself may state.</summary>
    private static Fixture Said(Fixture entry, Job job) =>
        entry with
        {
            Revision = job.Revision,
            Program = job.ProgramNumber ?? entry.Program,
            Id = job.FixtureId,
        };

    /// <summary>True where the same plate at the same revision was read from a file of other content.</summary>
    private static bool Unrevised(Report? before, Report after) =>
        before?.Plate is { } old
        && (old.Name, old.Revision) == (after.Plate!.Name, after.Plate.Revision)
        && PlateFile(before) is { } was
        && was != PlateFile(after);

    private static string? PlateFile(Report report) =>
        report.Inputs?.FirstOrDefault(i => i.File.StartsWith("templates/plates/", StringComparison.Ordinal))?.Sha256;

    private static IEnumerable<string> Changed(string folder, Outcome outcome) =>
        outcome
            .Files.Where(f => f.Name.EndsWith(".nc", StringComparison.Ordinal))
            .Where(f => !SameBytes(Path.Combine(folder, f.Name), f.Bytes))
            .Select(f => f.Name);

    private static bool SameBytes(string path, ImmutableArray<byte> bytes) =>
        File.Exists(path) && File.ReadAllBytes(path).AsSpan().SequenceEqual(bytes.AsSpan());

    private string? Keep(string path, string name)
    {
        if (!File.Exists(path))
        {
            return null;
        }
        string kept = Path.Combine(scratch, name);
        File.Copy(path, kept, overwrite: true);
        return kept;
    }

    private string Keep(OutputFile file, string name)
    {
        string kept = Path.Combine(scratch, name);
        File.WriteAllBytes(kept, [.. file.Bytes]);
        return kept;
    }

    private static JobChange Row(string jobFile, Fixture f, JobResult result, string why) =>
        new()
        {
            Job = Path.GetFileNameWithoutExtension(jobFile),
            JobFile = jobFile,
            Result = result,
            Why = why,
            Revision = f.Revision,
            Trim = f.Trim,
            Program = f.Program,
            FixtureId = f.Id,
            Plate = f.Plate,
            PlateRevision = f.PlateRevision,
            Before = null,
            After = null,
            Moved = [],
            Reload = [],
            Misfits = [],
            Findings = [],
            PictureBefore = null,
            PictureAfter = null,
        };
}
