using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using FixtureGen.App.Files;
using FixtureGen.App.Library;
using FixtureGen.App.Library.Changes;
using FixtureGen.App.Page.Serving;
using FixtureGen.App.Records;
using FixtureGen.Model;
using FixtureGen.Output.Reports;

namespace FixtureGen.App.Page.Overview;

/// <summary>Every job with its state, from the register and from the report that its last run left: what the command line knows too.</summary>
internal sealed class LibraryRows
{
    private const int MostEvents = 20;

    private readonly Staleness _staleness = new(null);
    private readonly List<Finding> _findings = [];
    private readonly Dictionary<string, Register> _registers = new(StringComparer.Ordinal);
    private readonly Dictionary<string, (DateTime At, Dictionary<string, string> Why)> _refused = new(
        StringComparer.Ordinal
    );

    /// <summary>The rows in the order of the jobs, and what the registers have to say.</summary>
    public static (FixtureRow[] Rows, FindingLine[] Findings) Read(
        ImmutableArray<string> jobs,
        Func<string, string> name
    )
    {
        LibraryRows reading = new();
        FixtureRow[] rows = [.. jobs.Select(j => reading.Row(j, name(j)))];
        return (rows, PageAnswer.Lines(reading._findings));
    }

    /// <summary>Why a job's output is not what would be made now; empty where it is. "never made" where there is none.</summary>
    public static string Stale(string jobPath)
    {
        LibraryRows reading = new();
        return LibraryFolder.Find(jobPath).Value is { } library
            ? reading.Stale(library, jobPath, reading.RegisterOf(jobPath)) ?? ""
            : "there is no templates/ folder above it";
    }

    private Register RegisterOf(string jobPath)
    {
        string folder = Path.GetDirectoryName(Path.GetFullPath(jobPath))!;
        if (!_registers.TryGetValue(folder, out Register? register))
        {
            Stage<Register> read = RegisterFile.Read(folder);
            _findings.AddRange(read.Findings);
            register = _registers[folder] = read.Value ?? Register.Empty;
        }
        return register;
    }

    private string? Stale(LibraryFolder library, string jobPath, Register register)
    {
        string job = Path.GetFileNameWithoutExtension(jobPath);
        Previous? last = Staleness.Last(Path.Combine(library.Out, job), job);
        return _staleness.Why(last, library, register.Current(job)?.Revision ?? last?.Report.Revision ?? 1);
    }

    private FixtureRow Row(string jobPath, string name)
    {
        string job = Path.GetFileNameWithoutExtension(jobPath);
        Register register = RegisterOf(jobPath);
        Fixture? current = register.Current(job);
        if (LibraryFolder.Find(jobPath) is not { Value: { } library })
        {
            _findings.AddRange(LibraryFolder.Find(jobPath).Findings);
            return Empty(name, job) with { State = "refused", Why = "there is no templates/ folder above it" };
        }
        string folder = Path.Combine(library.Out, job);
        Report? report = ReportFile.Read(folder, job);
        (string state, string why) = State(library, jobPath, register, report);
        return Empty(name, job) with
        {
            Id = current?.Id ?? report?.FixtureId ?? "",
            Revision = current?.Revision ?? report?.Revision ?? 0,
            Trim = current?.Trim ?? 0,
            Program = current?.Program ?? report?.Programs?.Select(p => p.ProgramNumber).DefaultIfEmpty(0).Min() ?? 0,
            State = state,
            Why = why,
            Vacuum = report?.Holding is { HeldBy: not "magnets" } h ? h.VacuumOnly.Factor : null,
            Stopping = report?.Holding?.MagnetsStopping.Stays,
            Minutes = report?.Programs?.Sum(p => p.Minutes) ?? 0,
            Plate = report?.Plate is { } p ? string.Create(CultureInfo.InvariantCulture, $"{p.Name} {p.Revision}") : "",
            MadeAt = report is null ? "" : Time(File.GetLastWriteTimeUtc(Path.Combine(folder, job + ".report.json"))),
            Picture = File.Exists(Path.Combine(folder, job + ".preview.svg")),
            Blocks =
            [
                .. register
                    .Blocks.Where(b => b.Job == job)
                    .Select(b => new BlockLine(
                        b.Revision,
                        b.Number,
                        RegisterWords.For(b.State),
                        b.CutAt,
                        b.Cycles,
                        b.CordCycles,
                        b.LeakPaPerMin
                    )),
            ],
            Notices =
            [
                .. register
                    .Notices.Where(n => n.Job == job && n.Answer is (NoticeAnswer.Open or NoticeAnswer.Recut))
                    .Select(n => new NoticeLine(n.Number, n.Revision, n.What, RegisterWords.For(n.Answer))),
            ],
            Events =
            [
                .. register
                    .Events.Where(e => e.Job == job)
                    .Reverse()
                    .Take(MostEvents)
                    .Select(e => new EventLine(
                        e.Number,
                        e.At,
                        e.Who,
                        RegisterWords.For(e.What),
                        e.Revision,
                        e.Block,
                        e.Amount,
                        e.Why
                    )),
            ],
        };
    }

    /// <summary>A block on the shelf counts before what its files are; what was refused last before what is stale.</summary>
    private (string State, string Why) State(LibraryFolder library, string jobPath, Register register, Report? report)
    {
        string job = Path.GetFileNameWithoutExtension(jobPath);
        string? stale = Stale(library, jobPath, register);
        string? refused = stale is null ? null : Refused(library, jobPath);
        Fixture? current = register.Current(job);
        return current?.State switch
        {
            FixtureState.Cut or FixtureState.Worn => (RegisterWords.For(current.State), refused ?? stale ?? ""),
            FixtureState.Scrapped => ("scrapped", stale ?? ""),
            _ => refused is not null ? ("refused", refused)
            : report is null ? ("never-made", "")
            : stale is not null ? ("stale", stale)
            : ("made", ""),
        };
    }

    /// <summary>What the last regeneration refused a job for, unless the job was changed since; null where it did not.</summary>
    private string? Refused(LibraryFolder library, string jobPath)
    {
        if (!_refused.TryGetValue(library.Root, out (DateTime At, Dictionary<string, string> Why) last))
        {
            last = _refused[library.Root] = LastRefused(Path.Combine(library.Out, "regenerate.report.json"));
        }
        return
            last.Why.TryGetValue(Path.GetFileNameWithoutExtension(jobPath), out string? why)
            && File.GetLastWriteTimeUtc(jobPath) <= last.At
            ? why
            : null;
    }

    private static (DateTime At, Dictionary<string, string> Why) LastRefused(string path)
    {
        Dictionary<string, string> why = new(StringComparer.Ordinal);
        if (!File.Exists(path))
        {
            return (DateTime.MinValue, why);
        }
        try
        {
            foreach (JsonNode? job in JsonNode.Parse(File.ReadAllBytes(path))?["jobs"]?.AsArray() ?? [])
            {
                if (job?["result"]?.GetValue<string>() == ChangeReport.Word(JobResult.Refused))
                {
                    JsonNode? error = job["findings"]
                        ?.AsArray()
                        .FirstOrDefault(f => f?["severity"]?.GetValue<string>() == "error");
                    why[job["job"]!.GetValue<string>()] = error?["message"]?.GetValue<string>() ?? "it was refused";
                }
            }
        }
        catch (Exception e) when (e is JsonException or IOException or UnauthorizedAccessException)
        {
            // a change report that somebody spoilt says nothing of any job
            why.Clear();
        }
        return (File.GetLastWriteTimeUtc(path), why);
    }

    private static FixtureRow Empty(string name, string job) =>
        new()
        {
            Job = name,
            Name = job,
            Id = "",
            Revision = 0,
            Trim = 0,
            Program = 0,
            State = "never-made",
            Why = "",
            Vacuum = null,
            Stopping = null,
            Minutes = 0,
            Plate = "",
            MadeAt = "",
            Picture = false,
            Blocks = [],
            Notices = [],
            Events = [],
        };

    /// <summary>UTC, ISO 8601 to the second.</summary>
    public static string Time(DateTime utc) => utc.ToString("yyyy-MM-dd'T'HH:mm:ss'Z'", CultureInfo.InvariantCulture);
}
