using System.CommandLine;
using FixtureGen.App.Page;
using FixtureGen.App.Page.Layout;
using FixtureGen.App.Terminal;
using FixtureGen.Model;

namespace FixtureGen.App.Commands;

/// <summary><c>layout JOB.toml [--port N] [--open]</c>: the page on which magnet places are tried; ends on Ctrl-C.</summary>
internal static class LayoutCommand
{
    /// <summary>The command; exit 0 when it was stopped, 1 where the job is refused or the port is taken.</summary>
    public static Command Build(Say say)
    {
        Argument<string> job = CommandTree.PathArgument("JOB.toml", "the job to lay out");
        Option<int> port = PageRun.Port();
        Option<bool> open = new("--open") { Description = "open the page in the browser" };
        Option<bool> json = CommandTree.Json();
        Command command = new("layout", "Try magnet places on a page and see whether the part stays put.")
        {
            job,
            port,
            open,
            json,
        };
        command.SetAction(
            (p, stop) => RunAsync(say, p.GetValue(job)!, p.GetValue(port), p.GetValue(open), p.GetValue(json), stop)
        );
        return command;
    }

    private static async Task<int> RunAsync(
        Say say,
        string jobPath,
        int port,
        bool open,
        bool json,
        CancellationToken stop
    )
    {
        Stage<LayoutSession> session = LayoutSession.Open(jobPath);
        say.Findings(session.Findings);
        if (!session.Ok)
        {
            return MakeCommand.Refuse(say, Path.GetFileNameWithoutExtension(jobPath), [], json);
        }
        WorkFolder work = new(Path.GetDirectoryName(Path.GetFullPath(jobPath))!, Path.GetFileName(jobPath));
        work.Keep(jobPath, session.Value!);
        return await PageRun
            .ServeAsync(say, work, port, open, json, warm: s => session.Value!.Warm(s), stop)
            .ConfigureAwait(false);
    }
}
