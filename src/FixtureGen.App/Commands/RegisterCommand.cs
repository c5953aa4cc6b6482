using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using System.Text.Json.Nodes;
using FixtureGen.App.Files;
using FixtureGen.App.Library;
using FixtureGen.App.Terminal;
using FixtureGen.Model;

namespace FixtureGen.App.Commands;

/// <summary><c>register [DIR] [--cut JOB] [--worn JOB] [--scrapped JOB]</c>: lists the register of fixtures, or notes what happened to a block.</summary>
internal static class RegisterCommand
{
    /// <summary>The command; exit 0 done, 1 where there is no such block or the register cannot be used.</summary>
    public static Command Build(Say say)
    {
        Argument<string> folder = CommandTree.PathArgument("DIR", "the folder of the jobs");
        folder.DefaultValueFactory = _ => ".";
        Option<string?> cut = Event("--cut", "a block of this job's newest revision was cut: freeze it");
        Option<string?> worn = Event("--worn", "the block of this job is worn: due for a remake");
        Option<string?> scrapped = Event("--scrapped", "the oldest block of this job on the shelf was thrown away");
        Option<bool> json = CommandTree.Json();
        Command command = new("register", "List the fixtures of a library and their state.")
        {
            folder,
            cut,
            worn,
            scrapped,
            json,
        };
        command.SetAction(p =>
        {
            (string? Job, FixtureState State)[] events =
            [
                (p.GetValue(cut), FixtureState.Cut),
                (p.GetValue(worn), FixtureState.Worn),
                (p.GetValue(scrapped), FixtureState.Scrapped),
            ];
            return Run(
                say,
                p.GetValue(folder)!,
                [.. events.Where(e => e.Job is not null).Select(e => (Bare(e.Job!), e.State))],
                p.GetValue(json)
            );
        });
        return command;
    }

    private static Option<string?> Event(string name, string description) =>
        new(name) { HelpName = "JOB", Description = description };

    private static string Bare(string job) =>
        job.EndsWith(".toml", StringComparison.OrdinalIgnoreCase) ? Path.GetFileNameWithoutExtension(job) : job;

    private static int Run(Say say, string folder, ImmutableArray<(string Job, FixtureState State)> events, bool json)
    {
        if (!Directory.Exists(folder))
        {
            return MakeCommand.Refuse(
                say,
                "",
                [
                    new Finding(
                        "folder-missing",
                        Severity.Error,
                        folder,
                        "there is no such folder",
                        "name the folder of the jobs"
                    ),
                ],
                json
            );
        }
        Stage<Register> result = events.Length == 0 ? RegisterFile.Read(folder) : Note(folder, events);
        ImmutableArray<Finding> findings = [.. result.Findings, .. result.Value is { } r ? OlderPlates(folder, r) : []];
        say.Findings(findings);
        bool ok = result.Ok;
        if (json)
        {
            say.Json(Json(result.Value ?? Register.Empty, findings, ok));
        }
        else if (result.Value is { } register)
        {
            Print(say, register);
        }
        return ok ? ExitCode.Made : ExitCode.Refused;
    }

    private static Stage<Register> Note(string folder, ImmutableArray<(string Job, FixtureState State)> events)
    {
        Stage<RegisterFile> held = RegisterFile.Hold(folder);
        if (!held.Ok)
        {
            return Stage.Failed<Register>(held.Findings);
        }
        using RegisterFile file = held.Value!;
        Stage<Register> read = RegisterFile.Read(folder);
        if (!read.Ok)
        {
            return read;
        }
        Register register = read.Value!;
        foreach ((string job, FixtureState state) in events)
        {
            Stage<Register> next = ShelfEvents.Apply(register, folder, job, state);
            if (!next.Ok)
            {
                return next;
            }
            register = next.Value!;
        }
        return file.Write(register) is { } trouble ? Stage.Failed<Register>(trouble) : Stage.Answer(register);
    }

    private static IEnumerable<Finding> OlderPlates(string folder, Register register)
    {
        foreach (Fixture f in register.Fixtures.Where(f => f.OnShelf))
        {
            int newest = register.Fixtures.Where(o => o.Plate == f.Plate).Max(o => o.PlateRevision);
            if (f.PlateRevision < newest)
            {
                yield return new Finding(
                    "older-plate",
                    Severity.Warning,
                    Path.Combine(folder, Register.FileName),
                    string.Create(
                        CultureInfo.InvariantCulture,
                        $"the block of {f.Job} revision {f.Revision} was cut for revision {f.PlateRevision} of plate {f.Plate}; the plate is now at {newest}"
                    ),
                    "read the change report: scrap the block if it no longer fits"
                );
            }
        }
    }

    private static void Print(Say say, Register register)
    {
        int width = Math.Max(8, register.Fixtures.Select(f => f.Job.Length).DefaultIfEmpty(0).Max());
        say.Line($"{"job".PadRight(width)}  {"fixture", -8}  rev  trim   top    underside  {"state", -9}  plate");
        foreach (Fixture f in register.Fixtures)
        {
            say.Line(
                string.Create(
                    CultureInfo.InvariantCulture,
                    $"{f.Job.PadRight(width)}  {f.Id, -8}  {f.Revision, 3}  {f.Program, -5}  {f.Program + 1, -5}  {f.Program + 2, -9}  {RegisterText.Word(f.State), -9}  {f.Plate} {f.PlateRevision}"
                )
            );
        }
    }

    private static string Json(Register register, ImmutableArray<Finding> findings, bool ok) =>
        AppJson.Text(
            new JsonObject
            {
                ["ok"] = ok,
                ["fixtures"] = new JsonArray([
                    .. register.Fixtures.Select(f =>
                        (JsonNode)
                            new JsonObject
                            {
                                ["job"] = f.Job,
                                ["id"] = f.Id,
                                ["revision"] = f.Revision,
                                ["programNumber"] = f.Program,
                                ["plate"] = f.Plate,
                                ["plateRevision"] = f.PlateRevision,
                                ["state"] = RegisterText.Word(f.State),
                            }
                    ),
                ]),
                ["findings"] = AppJson.Findings(findings),
            }
        );
}
