using System.CommandLine;
using FixtureGen.App.Files;
using FixtureGen.App.Terminal;
using FixtureGen.Model;
using FixtureGen.Output;

namespace FixtureGen.App.Commands;

/// <summary><c>check JOB.toml|DRAWING|DIR</c>: judge a job, a drawing or every job of a folder without making anything.</summary>
internal static class CheckCommand
{
    /// <summary>The command; exit 0 where nothing is an error, 1 else.</summary>
    public static Command Build(Say say)
    {
        Argument<string> what = CommandTree.PathArgument(
            "WHAT",
            "a job (.toml), a drawing (.dxf, .svg) or a folder of jobs"
        );
        Option<string?> unit = new("--unit")
        {
            HelpName = "in|mm",
            Description = "the unit of a drawing that states none",
        };
        unit.AcceptOnlyFromAmong("in", "mm");
        Option<string?> plate = new("--plate")
        {
            HelpName = "FILE",
            Description = "a plate file that stands in for the one each job names",
        };
        Option<bool> json = CommandTree.Json();
        Command command = new("check", "Say what is wrong, and how well the part is held, without making anything.")
        {
            what,
            unit,
            plate,
            json,
        };
        command.SetAction(parsed =>
            Run(say, parsed.GetValue(what)!, parsed.GetValue(unit), parsed.GetValue(plate), parsed.GetValue(json))
        );
        return command;
    }

    private static int Run(Say say, string what, string? unit, string? plate, bool json)
    {
        if (plate is not null && !File.Exists(plate))
        {
            return MakeCommand.Refuse(
                say,
                "",
                [
                    new Finding(
                        "plate-missing",
                        Severity.Error,
                        plate,
                        "there is no such plate file",
                        "check the path after --plate"
                    ),
                ],
                json
            );
        }
        if (Directory.Exists(what))
        {
            return CheckFolder.Run(say, what, plate, json);
        }
        return DrawingFiles.Is(what) ? CheckDrawing.Run(say, what, unit, json) : Job(say, what, plate, json);
    }

    private static int Job(Say say, string path, string? plate, bool json)
    {
        Stage<JobSource> source = JobSource.Read(path);
        if (!source.Ok)
        {
            return MakeCommand.Refuse(say, Path.GetFileNameWithoutExtension(path), source.Findings, json);
        }
        using Steps steps = say.Steps();
        Outcome outcome = Delivery.Check(source.Value!.Request(plate, steps.Begin) with { StatedCosts = true });
        steps.Dispose();
        say.Findings(outcome.Findings);
        if (json)
        {
            say.Json(AppJson.Checked(outcome.Report));
        }
        else
        {
            Summary.Facts(say, outcome.Report);
        }
        return outcome.Report.Ok ? ExitCode.Made : ExitCode.Refused;
    }
}
