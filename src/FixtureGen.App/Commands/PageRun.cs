using System.CommandLine;
using System.Globalization;
using System.Net.Sockets;
using FixtureGen.App.Files;
using FixtureGen.App.Page;
using FixtureGen.App.Page.Serving;
using FixtureGen.App.Terminal;
using FixtureGen.Model;

namespace FixtureGen.App.Commands;

/// <summary>What <c>serve</c> and <c>layout</c> share: the port, the line with the address, the browser, and the end on Ctrl-C.</summary>
internal static class PageRun
{
    /// <summary>A new option for the port.</summary>
    public static Option<int> Port()
    {
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
        return port;
    }

    /// <summary>Serves until it is stopped; exit 0 then, 1 where the port cannot be used.</summary>
    public static async Task<int> ServeAsync(
        Say say,
        WorkFolder work,
        int port,
        bool open,
        bool json,
        Action<CancellationToken> warm,
        CancellationToken stop
    )
    {
        WorkPage page = new(work, port, new FaultLog([work.Folder]), static _ => { });
        await using (page.ConfigureAwait(false))
        {
            try
            {
                await page.StartAsync().ConfigureAwait(false);
            }
            catch (Exception e) when (e is IOException or SocketException)
            {
                return MakeCommand.Refuse(say, "", [PortBusy(port, e)], json);
            }
            say.Line(json ? $$"""{"ok":true,"address":"{{page.Address}}"}""" : $"The page is at {page.Address}");
            Console.Out.Flush();
            using BrowserStart browser = new();
            if (open && browser.Open(page.Address) is { } why)
            {
                say.Error($"No browser could be started ({why}): open the address above in one.");
            }
            Task warming = Task.Run(() => warm(stop), CancellationToken.None);
            await page.WaitAsync(stop).ConfigureAwait(false);
            await warming.ConfigureAwait(false);
        }
        return ExitCode.Made;
    }

    private static Finding PortBusy(int port, Exception e) =>
        new(
            "port-busy",
            Severity.Error,
            string.Create(CultureInfo.InvariantCulture, $"127.0.0.1:{port}"),
            $"the port cannot be used: {e.Message}",
            "name another with --port, or 0 for any free one"
        );
}
