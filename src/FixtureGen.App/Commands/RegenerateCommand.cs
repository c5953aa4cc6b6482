using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using System.Runtime;
using FixtureGen.App.Files;
using FixtureGen.App.Library;
using FixtureGen.App.Library.Changes;
using FixtureGen.App.Records;
using FixtureGen.App.Terminal;
using FixtureGen.Model;
using FixtureGen.Output.Reports;

namespace FixtureGen.App.Commands;

/// <summary><c>regenerate [DIR]</c>: remakes every stale job of a library and says what changed.</summary>
internal static class RegenerateCommand
{
    /// <summary>The command; exit 0 where every job is made or up to date, 1 where any was refused or not reached.</summary>
    public static Command Build(Say say)
    {
        Argument<string> folder = CommandTree.PathArgument("DIR", "the library or a folder in it");
        folder.DefaultValueFactory = _ => ".";
        Option<string?> plate = new("--plate")
        {
            HelpName = "FILE",
            Description = "a plate file that stands in for the one each job names, this run only",
        };
        Option<bool> dry = new("--dry-run") { Description = "say what would change; write nothing" };
        Option<bool> force = new("--force") { Description = "remake all, stale or not" };
        Option<int> workers = new("--jobs")
        {
            HelpName = "N",
            Description = "how many at once; by itself one a core",
            DefaultValueFactory = _ => Environment.ProcessorCount,
        };
        workers.Validators.Add(r =>
        {
            if (
                r.Tokens.Count > 0
                && (
                    !int.TryParse(r.Tokens[0].Value, NumberStyles.None, CultureInfo.InvariantCulture, out int n)
                    || n is < 1 or > 256
                )
            )
            {
                r.AddError("--jobs takes a whole number from 1 to 256");
            }
        });
        Option<bool> json = CommandTree.Json();
        Command command = new("regenerate", "Remake every job that is stale, and report what changed.")
        {
            folder,
            plate,
            dry,
            force,
            workers,
            json,
        };
        command.SetAction(p =>
            Run(
                say,
                new RegenerateOptions(
                    p.GetValue(folder)!,
                    StandIn.Plate(p.GetValue(plate)),
                    p.GetValue(dry),
                    p.GetValue(force),
                    p.GetValue(workers),
                    Occasion.Now(null, null)
                ),
                p.GetValue(json)
            )
        );
        return command;
    }

    private static int Run(Say say, RegenerateOptions options, bool json)
    {
        if (Missing(options) is { } missing)
        {
            return MakeCommand.Refuse(say, "", [missing], json);
        }
        Stage<LibraryFolder> library = LibraryFolder.Find(Path.Combine(Path.GetFullPath(options.Folder), "x"));
        if (!library.Ok)
        {
            return MakeCommand.Refuse(say, "", library.Findings, json);
        }
        using CancellationTokenSource stop = new();
        ConsoleCancelEventHandler onBreak = (_, e) =>
        {
            e.Cancel = true;
            stop.Cancel();
        };
        Console.CancelKeyPress += onBreak;
        if (!options.DryRun)
        {
            OutputFolder.Sweep(library.Value!.Out);
        }
        // Nobody waits for a single answer: the collector need not work beside the workers.
        GCSettings.LatencyMode = GCLatencyMode.Batch;
        string scratch = Directory.CreateTempSubdirectory("fixturegen-").FullName;
        try
        {
            using ProgressLine progress = new(say, Console.IsErrorRedirected, options.DryRun);
            Regenerator regenerator = new(options, progress.Tell, stop.Token);
            Stage<ImmutableArray<JobChange>> run = regenerator.Run(scratch);
            progress.Dispose();
            say.Findings(run.Findings);
            return !run.Value.IsDefault
                ? Report(say, options, library.Value!, run.Value, regenerator.Notices, run.Ok, json)
                : MakeCommand.Refuse(say, "", [], json);
        }
        finally
        {
            Console.CancelKeyPress -= onBreak;
            Directory.Delete(scratch, recursive: true);
        }
    }

    private static Finding? Missing(RegenerateOptions options) =>
        !Directory.Exists(options.Folder)
            ? new(
                "folder-missing",
                Severity.Error,
                options.Folder,
                "there is no such folder",
                "name the folder of the jobs"
            )
        : options.Instead is { } plate && !File.Exists(plate.File)
            ? new(
                "plate-missing",
                Severity.Error,
                plate.File,
                "there is no such plate file",
                "check the path after --plate"
            )
        : JobFiles.Below(options.Folder).Length == 0
            ? new(
                "no-jobs",
                Severity.Error,
                options.Folder,
                "no job (a .toml with a like-named .dxf or .svg) lies below it",
                "name a folder of jobs, or write one with 'fixturegen new OUTLINE.dxf'"
            )
        : null;

    private static int Report(
        Say say,
        RegenerateOptions options,
        LibraryFolder library,
        ImmutableArray<JobChange> changes,
        ImmutableArray<Notice> notices,
        bool settled,
        bool json
    )
    {
        string text = ChangeReport.Json(changes, notices, options.DryRun);
        bool ok = settled && changes.All(c => c.Result is JobResult.Made or JobResult.Unchanged);
        foreach (JobChange c in changes.Where(c => c.Findings.Any(f => f.Severity == "error")))
        {
            foreach (
                IGrouping<(string, string), FindingLine> alike in c
                    .Findings.Where(f => f.Severity == "error")
                    .GroupBy(f => (f.Code, f.Remedy))
            )
            {
                FindingLine f = alike.First();
                string more = alike.Skip(1).Any()
                    ? string.Create(
                        CultureInfo.InvariantCulture,
                        $" ({alike.Count()} of this kind; the first is shown)"
                    )
                    : "";
                say.Error($"{c.Job}: {f.Where}: error {f.Code}: {f.Message}{more} -> {f.Remedy}");
            }
        }
        if (!options.DryRun)
        {
            ok &= ChangeFiles.Write(say, library.Out, changes, notices, text);
        }
        if (json)
        {
            say.Json(text);
        }
        else
        {
            ChangeTable.Print(say, changes, notices, options.DryRun);
            say.Line(
                options.DryRun
                    ? "Dry run: nothing was written."
                    : $"Read {Path.Combine(library.Out, "regenerate.html")}"
            );
        }
        return Exit(changes, ok);
    }

    /// <summary>A fault of our own is never told as a refusal.</summary>
    internal static int Exit(ImmutableArray<JobChange> changes, bool ok) =>
        changes.Any(c => c.Findings.Any(f => f.Code == JobChange.FaultCode)) ? ExitCode.OurFault
        : ok ? ExitCode.Made
        : ExitCode.Refused;
}
