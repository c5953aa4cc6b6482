using System.CommandLine;
using System.Diagnostics;
using System.Globalization;
using System.Net.Sockets;
using FixtureGen.App.Files;
using FixtureGen.App.Page;
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
        Option<int> port = new("--port")
        {
            HelpName = "N",
            Description = "the port on 127.0.0.1 (0 picks a free one)",
            DefaultValueFactory = _ => 0,
        };
        port.Validators.Add(r =>
        {
            if (
                r.Tokens.Count > 0
                && (
                    !int.TryParse(r.Tokens[0].Value, NumberStyles.None, CultureInfo.InvariantCulture, out int n)
                    || n > 65535
                )
            )
            {
                r.AddError("--port takes a whole number from 0 to 65535");
            }
        });
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
        LayoutServer server = new(session.Value!, port, new FaultLog([jobPath]), static _ => { });
        await using (server.ConfigureAwait(false))
        {
            try
            {
                await server.StartAsync().ConfigureAwait(false);
            }
            catch (Exception e) when (e is IOException or SocketException)
            {
                string at = port.ToString(CultureInfo.InvariantCulture);
                return MakeCommand.Refuse(
                    say,
                    "",
                    [
                        new Finding(
                            "port-busy",
                            Severity.Error,
                            $"127.0.0.1:{at}",
                            $"the port cannot be used: {e.Message}",
                            "name another with --port, or 0 for any free one"
                        ),
                    ],
                    json
                );
            }
            say.Line(
                json ? $$"""{"ok":true,"address":"{{server.Address}}"}""" : $"The layout page is at {server.Address}"
            );
            Console.Out.Flush();
            if (open)
            {
                using Process? browser = Process.Start(new ProcessStartInfo(server.Address) { UseShellExecute = true });
            }
            Task warm = Task.Run(() => session.Value!.Warm(stop), CancellationToken.None);
            await server.WaitAsync(stop).ConfigureAwait(false);
            await warm.ConfigureAwait(false);
        }
        return ExitCode.Made;
    }
}
