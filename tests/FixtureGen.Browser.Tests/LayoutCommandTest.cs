using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using FixtureGen.App.Tests.Support;
using Xunit;

namespace FixtureGen.Browser.Tests;

public sealed class LayoutCommandTest
{
    private const string Job = "twine-lid";

    [Fact]
    public async Task A_busy_port_is_a_clear_message()
    {
        string folder = LayoutPage.Library(Job);
        using TcpListener taken = new(IPAddress.Loopback, 0);
        taken.Start();
        string port = ((IPEndPoint)taken.LocalEndpoint).Port.ToString(CultureInfo.InvariantCulture);
        using Process program = Process.Start(
            LayoutPage.Start(folder, "layout", Path.Combine("outlines", Job + ".toml"), "--port", port)
        )!;
        Task<string> output = program.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        string error = await program.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        string said = await output + error;
        await program.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.NotEqual(0, program.ExitCode);
        Assert.Contains("port-busy", said, StringComparison.Ordinal);
        Assert.Contains("127.0.0.1:" + port, said, StringComparison.Ordinal);
        Assert.Contains("--port", said, StringComparison.Ordinal);
        Directory.Delete(folder, recursive: true);
    }

    [Fact]
    public async Task Interrupt_ends_it()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "an interrupt is sent by kill");
        string folder = LayoutPage.Library(Job);
        using Process program = Process.Start(
            Interrupt.Heeded(LayoutPage.Start(folder, "layout", Path.Combine("outlines", Job + ".toml"), "--port", "0"))
        )!;
        Assert.Contains(
            "http://127.0.0.1:",
            await program.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken),
            StringComparison.Ordinal
        );
        using Process kill = Process.Start("kill", ["-INT", program.Id.ToString(CultureInfo.InvariantCulture)]);
        using CancellationTokenSource late = new(TimeSpan.FromMilliseconds(LayoutPage.PatienceMs));
        await program.WaitForExitAsync(late.Token);
        Assert.True(program.HasExited);
        Directory.Delete(folder, recursive: true);
    }
}
