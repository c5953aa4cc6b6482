using FixtureGen.Browser.Tests;
using Microsoft.Playwright;
using Xunit;

[assembly: AssemblyFixture(typeof(SharedBrowser))]

namespace FixtureGen.Browser.Tests;

/// <summary>One Chromium for all tests: each test has a context of its own in it, with its own storage, size and colours.</summary>
public sealed class SharedBrowser : IAsyncDisposable
{
    private static readonly string[] Flags =
    [
        "--no-sandbox",
        "--disable-gpu",
        "--disable-quic",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
    ];

    private static readonly Lazy<Task<(IPlaywright Playwright, IBrowser Browser)>> Started = new(StartAsync);

    /// <summary>Launched when it is asked for first.</summary>
    public static async Task<IBrowser> LaunchedAsync() => (await Started.Value).Browser;

    /// <summary>Ends it with the last test.</summary>
    public async ValueTask DisposeAsync()
    {
        if (Started.IsValueCreated)
        {
            (IPlaywright playwright, IBrowser browser) = await Started.Value;
            await browser.DisposeAsync();
            playwright.Dispose();
        }
    }

    private static async Task<(IPlaywright Playwright, IBrowser Browser)> StartAsync()
    {
        IPlaywright playwright = await Playwright.CreateAsync();
        IBrowser browser = await playwright.Chromium.LaunchAsync(
            new()
            {
                ExecutablePath = LayoutPage.Chromium,
                Args = Flags,
                Timeout = LayoutPage.PatienceMs,
            }
        );
        return (playwright, browser);
    }
}
