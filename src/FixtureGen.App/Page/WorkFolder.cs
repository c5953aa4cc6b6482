using System.Collections.Concurrent;
using System.Collections.Immutable;
using FixtureGen.App.Files;
using FixtureGen.App.Library;
using FixtureGen.App.Page.Layout;
using FixtureGen.App.Page.Overview;
using FixtureGen.App.Page.Serving;
using FixtureGen.Model;
using FixtureGen.Output.Reports;

namespace FixtureGen.App.Page;

/// <summary>
/// The folder that the page works on. A request names a job by its path below the folder, and only a name that stands in the
/// folder's own list is opened; a job's layout stays open between questions.
/// </summary>
internal sealed class WorkFolder(string folder, string start)
{
    private readonly ConcurrentDictionary<string, Lazy<Stage<LayoutSession>>> _open = new(StringComparer.Ordinal);

    /// <summary>Full path.</summary>
    public string Folder { get; } = Path.GetFullPath(folder);

    /// <summary>The job that the page opens with, by its name in the list; empty for the library.</summary>
    public string Start { get; } = start;

    /// <summary>The jobs' paths, sorted.</summary>
    public ImmutableArray<string> Jobs() => Directory.Exists(Folder) ? JobFiles.Below(Folder) : [];

    /// <summary>The name of a job in a request: its path below the folder with forward slashes.</summary>
    public string Name(string jobPath) => Path.GetRelativePath(Folder, Path.GetFullPath(jobPath)).Replace('\\', '/');

    /// <summary>The path of a job of the list; null for every other name. Empty is the job that the page opened with.</summary>
    public string? Find(string name) => Jobs().FirstOrDefault(j => Name(j) == (name.Length > 0 ? name : Start));

    /// <summary>Answers with a job's layout, which is opened where it is not; 404 for a name that is not in the list.</summary>
    public PageAnswer WithLayout(string name, Func<LayoutSession, PageAnswer> answer)
    {
        if (Find(name) is not { } path)
        {
            return NoSuchJob(name);
        }
        Lazy<Stage<LayoutSession>> opening = _open.GetOrAdd(path, p => new(() => LayoutSession.Open(p)));
        Stage<LayoutSession> session = opening.Value;
        if (session.Value is { } open)
        {
            return answer(open);
        }
        // a job that is mended meanwhile is opened by the next question
        _open.TryRemove(new(path, opening));
        return PageAnswer.Refused(session.Findings);
    }

    /// <summary>Keeps a layout that was opened before.</summary>
    public void Keep(string jobPath, LayoutSession session) =>
        _open[Jobs().First(j => Path.GetFullPath(j) == Path.GetFullPath(jobPath))] = new(() => Stage.Answer(session));

    /// <summary>Where a new job is put: the folder that has the most jobs, else outlines/ of a library, else the folder itself.</summary>
    public string NewJobs()
    {
        string? fullest = Jobs()
            .GroupBy(j => Path.GetDirectoryName(Path.GetFullPath(j))!, StringComparer.Ordinal)
            .OrderByDescending(g => g.Count())
            .ThenBy(g => g.Key, StringComparer.Ordinal)
            .FirstOrDefault()
            ?.Key;
        bool library = Directory.Exists(Path.Combine(Folder, "templates"));
        return fullest ?? (library ? Path.Combine(Folder, "outlines") : Folder);
    }

    /// <summary>What the page asks first.</summary>
    public PageAnswer Home()
    {
        LibraryFolder? library = LibraryFolder.Find(Path.Combine(Folder, "x")).Value;
        return PageAnswer.Json(
            200,
            new HomeAnswer(
                Folder,
                Start,
                ProductVersion.Text,
                [.. library?.Shop(null).List("plates") ?? []],
                library is not null
            ),
            OverviewJson.Default.HomeAnswer
        );
    }

    /// <summary>
    /// Lays the built-in shop into the folder, as <c>new --shop</c> does beside a drawing; 409 where a shop is there already, in the
    /// folder or above it.
    /// </summary>
    public PageAnswer BeginShop()
    {
        if (LibraryFolder.Find(Path.Combine(Folder, "x")).Value is { } there)
        {
            return PageAnswer.Say(409, $"the shop's files lie in {there.Templates} already: nothing was written");
        }
        if (!Directory.Exists(Folder))
        {
            return PageAnswer.Refused([Gone()]);
        }
        try
        {
            BuiltIn.LayShop(Folder);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return PageAnswer.Refused([NewJob.NotWritable(Path.Combine(Folder, "templates"), e)]);
        }
        return PageAnswer.Say(
            200,
            $"Put the built-in shop's files in {Path.Combine(Folder, "templates")}: make them your own."
        );
    }

    private Finding Gone() =>
        new(
            "folder-missing",
            Severity.Error,
            Folder,
            "the folder of the library is gone",
            "bring it back, or connect the drive that it lies on; the page goes on by itself"
        );

    /// <summary>Every job with its state.</summary>
    public PageAnswer Library(RunAnswer run)
    {
        if (!Directory.Exists(Folder))
        {
            return PageAnswer.Refused([Gone()]);
        }
        (FixtureRow[] rows, FindingLine[] findings) = LibraryRows.Read(Jobs(), Name);
        return PageAnswer.Json(200, new LibraryAnswer(rows, findings, run), OverviewJson.Default.LibraryAnswer);
    }

    /// <summary>404.</summary>
    public static PageAnswer NoSuchJob(string name) =>
        PageAnswer.Say(404, $"there is no job '{name}' in this folder any more");
}
