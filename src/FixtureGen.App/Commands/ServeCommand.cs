using System.CommandLine;
using FixtureGen.App.Files;
using FixtureGen.App.Page;
using FixtureGen.App.Terminal;
using FixtureGen.Model;

namespace FixtureGen.App.Commands;

/// <summary><c>serve [DIR] [--port N] [--open]</c>: the page for a whole library; ends on Ctrl-C.</summary>
internal static class ServeCommand
{
    /// <summary>The command; exit 0 when it was stopped, 1 where the folder is no library or the port is taken.</summary>
    public static Command Build(Say say)
    {
        Argument<string> folder = CommandTree.PathArgument("DIR", "the library or a folder in it");
        folder.DefaultValueFactory = _ => ".";
        Option<int> port = PageRun.Port();
        Option<bool> open = new("--open") { Description = "open the page in the browser" };
        Option<bool> json = CommandTree.Json();
        Command command = new("serve", "The whole library on a page on this machine, to leave open all day.")
        {
            folder,
            port,
            open,
            json,
        };
        command.SetAction(
            (p, stop) => RunAsync(say, p.GetValue(folder)!, p.GetValue(port), p.GetValue(open), p.GetValue(json), stop)
        );
        return command;
    }

    private static async Task<int> RunAsync(
        Say say,
        string folder,
        int port,
        bool open,
        bool json,
        CancellationToken stop
    )
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
        Stage<LibraryFolder> library = LibraryFolder.Find(Path.Combine(Path.GetFullPath(folder), "x"));
        say.Error(
            library.Value is { } found
                ? $"The library is {found.Root}"
                : $"There is no templates/ folder in {Path.GetFullPath(folder)} or above it yet: the page offers to lay one."
        );
        return await PageRun
            .ServeAsync(say, new WorkFolder(folder, ""), port, open, json, static _ => { }, stop)
            .ConfigureAwait(false);
    }
}
