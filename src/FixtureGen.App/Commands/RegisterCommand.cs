using System.Collections.Immutable;
using System.CommandLine;
using System.Globalization;
using FixtureGen.App.Files;
using FixtureGen.App.Library;
using FixtureGen.App.Records;
using FixtureGen.App.Terminal;
using FixtureGen.Model;

namespace FixtureGen.App.Commands;

/// <summary><c>register [DIR]</c>: lists the register of fixtures, notes what happened to a block, answers a notice, takes a mistake back.</summary>
internal static class RegisterCommand
{
    /// <summary>The command; exit 0 done, 1 where there is no such block or the register cannot be used: then nothing was written.</summary>
    public static Command Build(Say say)
    {
        Argument<string> folder = CommandTree.PathArgument("DIR", "the folder of the jobs");
        folder.DefaultValueFactory = _ => ".";
        RegisterOptions options = new();
        Option<bool> undo = new("--undo") { Description = "take back what was noted last" };
        Option<bool> history = new("--history") { Description = "list everything that happened" };
        Option<string?> rebuild = new("--rebuild")
        {
            Description = "which is the truth where database and readable copy differ",
        };
        rebuild.AcceptOnlyFromAmong("copy", "database");
        Option<bool> json = CommandTree.Json();
        Command command = new("register", "List the fixtures of a library and their state.")
        {
            folder,
            undo,
            history,
            rebuild,
            json,
        };
        foreach (Option option in options.All)
        {
            command.Options.Add(option);
        }
        command.SetAction(p =>
        {
            ImmutableArray<Noting> notings = options.Notings(p);
            if (RegisterOptions.Wrong(notings) is { } wrong)
            {
                say.Error($"usage: {wrong}");
                return ExitCode.Usage;
            }
            Asked asked = new(
                p.GetValue(folder)!,
                notings,
                p.GetValue(undo),
                p.GetValue(rebuild),
                p.GetValue(history),
                options.Occasion(p)
            );
            return Run(say, asked, p.GetValue(json));
        });
        return command;
    }

    private sealed record Asked(
        string Folder,
        ImmutableArray<Noting> Notings,
        bool Undo,
        string? Rebuild,
        bool History,
        Occasion Occasion
    )
    {
        public bool Writes => Notings.Length > 0 || Undo || Rebuild is not null;
    }

    private static int Run(Say say, Asked asked, bool json)
    {
        if (!Directory.Exists(asked.Folder))
        {
            return MakeCommand.Refuse(
                say,
                "",
                [
                    new Finding(
                        "folder-missing",
                        Severity.Error,
                        asked.Folder,
                        "there is no such folder",
                        "name the folder of the jobs"
                    ),
                ],
                json
            );
        }
        Stage<Register> result = asked.Writes
            ? RegisterNotes.Take(asked.Folder, asked.Notings, asked.Undo, asked.Rebuild, asked.Occasion)
            : RegisterFile.Read(asked.Folder);
        ImmutableArray<Finding> findings =
        [
            .. result.Findings,
            .. result.Value is { } r ? OlderPlates(asked.Folder, r) : [],
        ];
        say.Findings(findings);
        bool ok = result.Ok;
        if (json)
        {
            say.Json(RegisterPrint.Json(result.Value ?? Register.Empty, findings, ok));
        }
        else if (result.Value is { } register)
        {
            RegisterPrint.Table(say, register);
            if (asked.History)
            {
                RegisterPrint.History(say, register);
            }
        }
        return ok ? ExitCode.Made : ExitCode.Refused;
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
}
