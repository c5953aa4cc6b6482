using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.App.Files;
using FixtureGen.App.Records;
using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen.App.Library;

/// <summary>What a run of regenerate was asked for.</summary>
internal sealed record RegenerateOptions(
    string Folder,
    StandIn? Instead,
    bool DryRun,
    bool Force,
    int Workers,
    Occasion Occasion
);

/// <summary>
/// Remakes every stale job of a library. Numbers are given out first, in sorted order; jobs are then shared among the
/// workers; the register is brought up to date last. A run that is stopped or killed loses nothing: each job's folder is
/// swapped whole, and the next run takes revisions back from the reports.
/// </summary>
internal sealed class Regenerator(
    RegenerateOptions options,
    Action<JobChange, int, int> progress,
    CancellationToken stop
)
{
    private readonly Staleness _staleness = new(options.Instead);
    private readonly ConcurrentDictionary<LibraryFolder, ShopFiles> _shops = new();

    /// <summary>After a run: every notice that stands, or whose answer was to cut anew, by job.</summary>
    public ImmutableArray<Notice> Notices { get; private set; } = [];

    /// <summary>Runs; findings are about the registers themselves. Pictures of what changed are left in the scratch folder.</summary>
    public Stage<ImmutableArray<JobChange>> Run(string scratch)
    {
        ImmutableArray<string> jobs = JobFiles.Below(options.Folder);
        List<Shelf> shelves = [];
        List<Finding> findings = [.. JobFiles.SharingOutputs(jobs)];
        if (findings.Count > 0)
        {
            return Stage.Failed<ImmutableArray<JobChange>>(findings);
        }
        try
        {
            foreach (
                IGrouping<string, string> folder in jobs.GroupBy(
                    j => Path.GetDirectoryName(Path.GetFullPath(j))!,
                    StringComparer.Ordinal
                )
            )
            {
                Stage<Shelf> shelf = Shelf.Open(folder.Key, [.. folder], options.DryRun, options.Occasion);
                findings.AddRange(shelf.Findings);
                if (shelf.Value is not null)
                {
                    shelves.Add(shelf.Value);
                }
            }
            if (findings.Any(f => f.Severity == Severity.Error))
            {
                return Stage.Failed<ImmutableArray<JobChange>>(findings);
            }
            findings.AddRange(shelves.Select(s => s.Begin()).OfType<Finding>());
            if (findings.Any(f => f.Severity == Severity.Error))
            {
                return Stage.Failed<ImmutableArray<JobChange>>(findings);
            }
            ImmutableArray<JobChange> changes = RemakeAll(shelves, jobs.Length, scratch);
            findings.AddRange(shelves.Select(s => s.Settle(changes)).OfType<Finding>());
            findings.AddRange(Unrevised(changes));
            Notices =
            [
                .. shelves
                    .SelectMany(s => s.Register.Notices)
                    .Where(n => n.Answer is NoticeAnswer.Open or NoticeAnswer.Recut)
                    .OrderBy(n => n.Job, StringComparer.Ordinal)
                    .ThenBy(n => n.Number),
            ];
            return Stage.Answer(changes, findings);
        }
        finally
        {
            foreach (Shelf shelf in shelves)
            {
                shelf.Dispose();
            }
        }
    }

    private static IEnumerable<Finding> Unrevised(ImmutableArray<JobChange> changes) =>
        changes
            .Where(c => c.PlateUnrevised)
            .GroupBy(c => (c.Plate, c.PlateRevision))
            .Select(g => new Finding(
                "plate-unrevised",
                Severity.Warning,
                $"templates/plates/{g.Key.Plate}.toml",
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"the plate's file changed and so did the programs of {g.Count()} job(s), but its revision is still {g.Key.PlateRevision}"
                ),
                "raise 'revision' in the plate file: by it the register knows which blocks were cut for an older plate"
            ));

    private ImmutableArray<JobChange> RemakeAll(List<Shelf> shelves, int total, string scratch)
    {
        ConcurrentBag<JobChange> changes = [];
        int done = 0;
        Lock gate = new();
        (Shelf Shelf, string Job)[] work = [.. shelves.SelectMany(s => s.Jobs.Select(j => (s, j)))];
        // N at once is N cores: what a job would share out by itself stays with its worker.
        ConcurrentExclusiveSchedulerPair workers = new(TaskScheduler.Default, options.Workers);
        Parallel.ForEach(
            Partitioner.Create(work, EnumerablePartitionerOptions.NoBuffering),
            new ParallelOptions
            {
                MaxDegreeOfParallelism = options.Workers,
                TaskScheduler = workers.ConcurrentScheduler,
            },
            item =>
            {
                JobChange change = stop.IsCancellationRequested
                    ? Remake.NotReached(item.Job, item.Shelf)
                    : RemakeJob(item.Shelf, item.Job, scratch);
                changes.Add(change);
                lock (gate)
                {
                    progress(change, ++done, total);
                }
            }
        );
        return [.. changes.OrderBy(c => c.JobFile, StringComparer.Ordinal)];
    }

    private ShopFiles Shop(LibraryFolder library) =>
        _shops.GetOrAdd(library, l => l.ShopWith(options.Instead).Remembered());

    private JobChange RemakeJob(Shelf shelf, string jobFile, string scratch)
    {
        try
        {
            return new Remake(options, _staleness, shelf, Shop, scratch).Run(jobFile);
        }
        catch (UnreadableFileException e)
        {
            return Remake.NotRead(jobFile, shelf, e.Finding);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return Remake.NotKept(jobFile, shelf, e);
        }
#pragma warning disable CA1031 // One bad job never stops the rest; our own fault is logged and named, with that job refused.
        catch (Exception e)
#pragma warning restore CA1031
        {
            return Remake.Broken(jobFile, shelf, new FaultLog([options.Folder]).Record(e, $"regenerate, {jobFile}"));
        }
    }
}
