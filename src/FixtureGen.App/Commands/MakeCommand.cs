using System.Collections.Immutable;
using System.CommandLine;
using FixtureGen.App.Files;
using FixtureGen.App.Library;
using FixtureGen.App.Terminal;
using FixtureGen.Model;
using FixtureGen.Output;
using FixtureGen.Output.Reports;

namespace FixtureGen.App.Commands;

/// <summary><c>make JOB.toml [-o DIR]</c>: every file of a job, whole or not at all.</summary>
internal static class MakeCommand
{
    /// <summary>The command; exit 0 made, 1 refused: then nothing was written.</summary>
    public static Command Build(Say say)
    {
        Argument<string> job = CommandTree.PathArgument(
            "JOB.toml",
            "the job; its drawing is the like-named .dxf or .svg beside it"
        );
        Option<string?> folder = new("-o", "--output")
        {
            HelpName = "DIR",
            Description = "where the files go (default out/JOB beside templates/)",
        };
        Option<bool> json = CommandTree.Json();
        Command command = new("make", "Make the fixture's programs, pictures, papers and report.")
        {
            job,
            folder,
            json,
        };
        command.SetAction(parsed => Run(say, parsed.GetValue(job)!, parsed.GetValue(folder), parsed.GetValue(json)));
        return command;
    }

    private static int Run(Say say, string jobPath, string? folder, bool json)
    {
        using Steps steps = say.Steps();
        Making.Made made = Making.Run(jobPath, steps.Begin);
        if (made.Outcome is not { } outcome)
        {
            return Refuse(say, Path.GetFileNameWithoutExtension(jobPath), made.Source.Findings, json);
        }
        JobSource job = made.Source.Value!;
        return made.Trouble.Length > 0
            ? Refuse(say, job.Name, [.. outcome.Findings, .. made.Trouble], json)
            : Finish(say, steps, outcome, folder ?? Path.Combine(job.Library.Out, job.Name), json);
    }

    /// <summary>Writes what was made and says so; used by make and demo.</summary>
    public static int Finish(Say say, Steps steps, Outcome outcome, string folder, bool json)
    {
        IReadOnlyList<(string Step, double Seconds)> seconds = steps.Done;
        if (!outcome.Report.Ok)
        {
            say.Findings(outcome.Findings);
            if (json)
            {
                say.Json(AppJson.Made(outcome.Report, seconds));
            }
            return ExitCode.Refused;
        }
        ImmutableArray<Finding> trouble = OutputFolder.Replace(folder, outcome.Report.Job, outcome.Files);
        say.Findings([.. outcome.Findings, .. trouble]);
        Report report =
            trouble.Length == 0
                ? outcome.Report
                : outcome.Report with
                {
                    Ok = false,
                    Findings = ReportBuilder.Lines([.. outcome.Findings, .. trouble]),
                };
        if (json)
        {
            say.Json(AppJson.Made(report, seconds));
        }
        else if (report.Ok)
        {
            Summary.Print(say, report, folder, outcome.Files);
        }
        return report.Ok ? ExitCode.Made : ExitCode.Refused;
    }

    /// <summary>Prints the findings and, with --json, a report that has nothing else. The exit code of a refusal.</summary>
    public static int Refuse(Say say, string job, ImmutableArray<Finding> findings, bool json)
    {
        say.Findings(findings);
        if (json)
        {
            say.Json(ReportJson.Text(ReportBuilder.Refused(job, findings, ProductVersion.Text)));
        }
        return ExitCode.Refused;
    }
}
