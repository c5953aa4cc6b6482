using System.Collections.Immutable;
using System.Diagnostics;
using FixtureGen.App.Files;
using FixtureGen.App.Library;
using FixtureGen.App.Library.Changes;
using FixtureGen.App.Page.Serving;
using FixtureGen.App.Records;
using FixtureGen.App.Terminal;
using FixtureGen.Model;
using FixtureGen.Output.Reports;

namespace FixtureGen.App.Page.Overview;

/// <summary>The regeneration of a page: the very run of the command, in the background, one at a time, with its progress and its end.</summary>
internal sealed class RegenerationRun(string folder, FaultLog faults) : IDisposable
{
    private static readonly RunAnswer None = new()
    {
        State = "none",
        DryRun = false,
        With = "",
        Done = 0,
        Total = 0,
        Last = "",
        SecondsLeft = null,
        Changes = [],
        Recut = [],
        Findings = [],
    };

    private readonly Lock _gate = new();
    private RunAnswer _now = None;
    private CancellationTokenSource? _stop;

    /// <summary>How it stands.</summary>
    public RunAnswer Now
    {
        get
        {
            lock (_gate)
            {
                return _now;
            }
        }
    }

    /// <summary>Starts one; 409 while another runs, 422 for a plate that the shop has not.</summary>
    public PageAnswer Start(RegenerateQuestion asked)
    {
        Stage<LibraryFolder> library = LibraryFolder.Find(Path.Combine(folder, "x"));
        if (library.Value is not { } found)
        {
            return PageAnswer.Refused(library.Findings);
        }
        string? plate =
            asked.Plate.Length == 0 ? null : found.Shop(null).List("plates").FirstOrDefault(p => p == asked.Plate);
        if (asked.Plate.Length > 0 && (plate is null || !asked.DryRun))
        {
            return PageAnswer.NotUnderstood([
                RequestFindings.NotAChoice("plate", asked.Plate, asked.DryRun ? found.Shop(null).List("plates") : [""]),
            ]);
        }
        string? plateFile = plate is null ? null : Path.Combine(found.Templates, "plates", plate + ".toml");
        return Begin(
            found,
            new RunAsked(asked.DryRun, asked.Force, plate ?? ""),
            _ => plateFile is null ? null : StandIn.Plate(plateFile)
        );
    }

    /// <summary>
    /// Starts a dry run with a trial copy of a shop file, which lies beside the run's own files and goes with them; 409 while another
    /// runs. The file is one of the shop's and its text has been read.
    /// </summary>
    public PageAnswer Try(LibraryFolder library, string kind, string name, string text) =>
        Begin(
            library,
            new RunAsked(DryRun: true, Force: false, $"{kind}/{name}"),
            scratch =>
            {
                string copy = Path.Combine(scratch, "trial.toml");
                File.WriteAllText(copy, text);
                return new StandIn(kind, name, copy);
            }
        );

    private readonly record struct RunAsked(bool DryRun, bool Force, string With);

    private PageAnswer Begin(LibraryFolder library, RunAsked asked, Func<string, StandIn?> instead)
    {
        lock (_gate)
        {
            if (_now.State is "running" or "stopping")
            {
                return PageAnswer.Say(409, "a regeneration runs already: wait for its end or stop it");
            }
            _stop = new CancellationTokenSource();
            _now = None with { State = "running", DryRun = asked.DryRun, With = asked.With };
        }
        CancellationToken stop = _stop.Token;
        _ = Task.Run(() => Run(asked, instead, library, stop), CancellationToken.None);
        return Answer();
    }

    /// <summary>Asks the one that runs to stop: the job under work is ended, the rest is not begun.</summary>
    public PageAnswer Cancel()
    {
        lock (_gate)
        {
            if (_now.State == "running")
            {
                _stop!.Cancel();
                _now = _now with { State = "stopping" };
            }
        }
        return Answer();
    }

    /// <summary>Asks the one that runs to stop, since the page ends.</summary>
    public void Dispose()
    {
        Cancel();
        _stop?.Dispose();
    }

    /// <summary>How it stands, as an answer.</summary>
    public PageAnswer Answer() => PageAnswer.Json(200, Now, OverviewJson.Default.RunAnswer);

    private void Run(RunAsked asked, Func<string, StandIn?> instead, LibraryFolder library, CancellationToken stop)
    {
        RunAnswer end;
        string scratch = Directory.CreateTempSubdirectory("fixturegen-").FullName;
        try
        {
            RegenerateOptions options = new(
                folder,
                instead(scratch),
                asked.DryRun,
                asked.Force,
                Math.Max(1, Environment.ProcessorCount - 1),
                Occasion.Now(null, null)
            );
            end = Ended(options, library, scratch, stop);
        }
#pragma warning disable CA1031 // Nobody waits for this task: whatever it was, the page must be told.
        catch (Exception e)
#pragma warning restore CA1031
        {
            Fault fault = faults.Record(e, "page, regenerate");
            end = Now with
            {
                Findings = PageAnswer.Lines([
                    new Finding(JobChange.FaultCode, Severity.Error, library.Root, fault.Message, fault.Remedy),
                ]),
            };
        }
        finally
        {
            Directory.Delete(scratch, recursive: true);
        }
        lock (_gate)
        {
            _now = end with { State = "ended", SecondsLeft = null };
        }
    }

    private RunAnswer Ended(RegenerateOptions options, LibraryFolder library, string scratch, CancellationToken stop)
    {
        if (!options.DryRun)
        {
            OutputFolder.Sweep(library.Out);
        }
        Stopwatch watch = Stopwatch.StartNew();
        TimeLeft left = new();
        Regenerator regenerator = new(
            options,
            (change, done, total) =>
            {
                lock (_gate)
                {
                    _now = _now with
                    {
                        Done = done,
                        Total = total,
                        Last = change.Job,
                        SecondsLeft = left.Tell(watch.Elapsed.TotalSeconds, total),
                    };
                }
            },
            stop
        );
        Stage<ImmutableArray<JobChange>> run = regenerator.Run(scratch);
        FindingLine[] findings = PageAnswer.Lines(run.Findings);
        if (run.Value.IsDefault)
        {
            return Now with { Findings = findings };
        }
        if (!options.DryRun)
        {
            using StringWriter told = new();
            string json = ChangeReport.Json(run.Value, regenerator.Notices, options.DryRun);
            if (!ChangeFiles.Write(new Say(told, told), library.Out, run.Value, regenerator.Notices, json))
            {
                findings = [.. findings, .. PageAnswer.Lines([NotWritten(library.Out, told.ToString().Trim())])];
            }
        }
        return Now with
        {
            Findings = findings,
            Changes = [.. run.Value.Select(c => Line(c, options.DryRun))],
            Recut =
            [
                .. RecutRow
                    .List(regenerator.Notices, run.Value)
                    .Select(r => new RecutLine(r.Job, r.Revision, r.Minutes, r.CordMm, r.Magnets, r.Blank)),
            ],
        };
    }

    private static Finding NotWritten(string where, string why) =>
        new(
            "out-not-writable",
            Severity.Error,
            where,
            why,
            "free the folder or its disk; the jobs themselves were made"
        );

    private static ChangeLine Line(JobChange c, bool dryRun) =>
        new()
        {
            Name = c.Job,
            Result = ChangeReport.ResultWord(c.Result, dryRun),
            Why = c.Why,
            Vacuum = ChangeReport.Pair(c.Before?.VacuumOnly, c.After?.VacuumOnly, "0.00"),
            Stopping = ChangeReport.Pair(c.Before?.MagnetsStopping, c.After?.MagnetsStopping, "0.00"),
            Minutes = ChangeReport.Pair(c.Before?.Minutes, c.After?.Minutes, "0.0"),
            Moved = [.. c.Moved],
            Reload = [.. c.Reload],
            Misfits = [.. c.Misfits.Select(m => m.What)],
            Findings = [.. c.Findings.Where(f => f.Severity is "error" or "warning")],
        };
}
