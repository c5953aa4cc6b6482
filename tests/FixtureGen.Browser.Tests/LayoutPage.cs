using System.Diagnostics;
using System.Runtime.CompilerServices;
using System.Text.Json.Nodes;
using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using FixtureGen.App.Tests.Support;
using Microsoft.Playwright;
using Xunit;

namespace FixtureGen.Browser.Tests;

/// <summary>A library in a temporary folder, the program's layout command on one of its jobs, and a real Chromium on the page.</summary>
public sealed class LayoutPage : IAsyncDisposable
{
    /// <summary>Five minutes: no bound on the page's speed, only an end for one that hangs beside whatever else the machine does.</summary>
    public const float PatienceMs = 300_000;

    private readonly Process _program;

    private LayoutPage(string folder, string job, Process program, string address, IPage page)
    {
        Folder = folder;
        Job = job;
        _program = program;
        Address = address;
        Page = page;
    }

    public string Folder { get; }

    public string Job { get; }

    public string Address { get; }

    public IPage Page { get; }

    public string JobPath => Path.Combine(Folder, "outlines", Job + ".toml");

    public static string Root { get; } = FindRoot();

    public static string Chromium { get; } =
        new[] { "/usr/bin/chromium", "/usr/bin/chromium-browser", "/usr/bin/google-chrome" }.FirstOrDefault(File.Exists)
        ?? "/usr/bin/chromium";

    /// <summary>Skips with one line where there is no Chromium; in CI on a system that could have installed it that is a failure.</summary>
    public static void NeedsChromium()
    {
        if (!File.Exists(Chromium))
        {
            bool installed = Environment.GetEnvironmentVariable("CI") == "true" && File.Exists("/usr/bin/apt-get");
            Assert.False(installed, "CI must install chromium");
            Assert.Skip("the page tests need Debian's chromium at /usr/bin/chromium");
        }
    }

    /// <summary>The demo's templates and one of its jobs in a temporary folder.</summary>
    /// <summary>A library of one demo job: as it is, leaving open what can be chosen, or with everything stated, as most tests here take it.</summary>
    public static string Library(string job, bool open = false)
    {
        string folder = Directory.CreateTempSubdirectory("fixturegen-page-").FullName;
        CopyTree(Path.Combine(Root, "templates"), Path.Combine(folder, "templates"));
        Directory.CreateDirectory(Path.Combine(folder, "outlines"));
        string text = open ? Path.Combine("outlines", job) : Path.Combine("tests", "stated", job);
        File.Copy(Path.Combine(Root, "outlines", job + ".dxf"), Path.Combine(folder, "outlines", job + ".dxf"));
        File.Copy(Path.Combine(Root, text + ".toml"), Path.Combine(folder, "outlines", job + ".toml"));
        return folder;
    }

    /// <summary>The whole library's page, with the page's own content policy in force.</summary>
    public static Task<LayoutPage> ServeAsync(string job, Action<string>? prepare = null) =>
        StartAsync(job, ColorScheme.Light, 1280, 720, prepare, serve: true);

    public static async Task<LayoutPage> OpenAsync(
        string job,
        ColorScheme scheme = ColorScheme.Light,
        int width = 1280,
        int height = 720,
        Action<string>? prepare = null
    )
    {
        LayoutPage open = await StartAsync(job, scheme, width, height, prepare, serve: false);
        await open.AnsweredAsync(1);
        return open;
    }

    private static async Task<LayoutPage> StartAsync(
        string job,
        ColorScheme scheme,
        int width,
        int height,
        Action<string>? prepare,
        bool serve
    )
    {
        NeedsChromium();
        string folder = Library(job);
        prepare?.Invoke(Path.Combine(folder, "outlines", job + ".toml"));
        string[] words = serve ? ["serve", "."] : ["layout", Path.Combine("outlines", job + ".toml")];
        Process program = Process.Start(Start(folder, [.. words, "--port", "0"]))!;
        string line =
            await program.StandardOutput.ReadLineAsync()
            ?? throw new InvalidOperationException(await program.StandardError.ReadToEndAsync());
        string address = line[line.IndexOf("http://", StringComparison.Ordinal)..].Trim();
        IBrowser browser = await SharedBrowser.LaunchedAsync();
        IPage page = await browser.NewPageAsync(
            new()
            {
                ViewportSize = new() { Width = width, Height = height },
                ColorScheme = scheme,
                BypassCSP = !serve,
            }
        );
        page.SetDefaultTimeout(PatienceMs);
        LayoutPage open = new(folder, job, program, address, page);
        page.Console += (_, said) =>
        {
            // a refusal is an answer, which the browser notes as a resource that failed
            if (said.Type == "error" && !said.Text.StartsWith("Failed to load resource", StringComparison.Ordinal))
            {
                open.Errors.Add(said.Text);
            }
        };
        page.PageError += (_, error) => open.Errors.Add(error);
        await page.GotoAsync(address);
        return open;
    }

    /// <summary>What the page's scripts broke on, or its content policy refused.</summary>
    public List<string> Errors { get; } = [];

    /// <summary>No finding of any grade by axe-core, and nothing wider than the screen: light at 1280 px, dark at 390.</summary>
    public async Task ScanAsync(string name)
    {
        foreach ((ColorScheme scheme, int width) in new[] { (ColorScheme.Light, 1280), (ColorScheme.Dark, 390) })
        {
            await Page.SetViewportSizeAsync(width, 844);
            await Page.EmulateMediaAsync(new() { ColorScheme = scheme });
            await ShotAsync(FormattableString.Invariant($"{name}-{scheme}-{width}").ToLowerInvariant());
            Assert.True(await Page.EvaluateAsync<int>("document.scrollingElement.scrollWidth") <= width, name);
            AxeResult result = await Page.RunAxe();
            string[] bad =
            [
                .. result.Violations.Select(v => $"{v.Id}: {v.Help}: {string.Join("; ", v.Nodes.Select(n => n.Html))}"),
            ];
            Assert.True(
                bad.Length == 0,
                FormattableString.Invariant($"{name} {scheme} {width}: ") + string.Join("\n", bad)
            );
        }
        await Page.SetViewportSizeAsync(1280, 844);
        await Page.EmulateMediaAsync(new() { ColorScheme = ColorScheme.Light });
    }

    public static ProcessStartInfo Start(string folder, params string[] args) => BuiltProgram.Start(Root, folder, args);

    /// <summary>How many answers the page has had.</summary>
    public async Task<int> AnswersAsync() =>
        int.Parse(
            await Page.EvaluateAsync<string>("document.body.dataset.updates ?? '0'"),
            System.Globalization.CultureInfo.InvariantCulture
        );

    /// <summary>Waits until the page has had so many answers.</summary>
    public async Task AnsweredAsync(int count) =>
        await Page.WaitForFunctionAsync(
            "n => Number(document.body.dataset.updates ?? 0) >= n",
            count,
            new() { Timeout = PatienceMs }
        );

    public async Task<double> FactorAsync(string key) =>
        double.Parse(
            await Page.Locator($"[data-factor={key}]").InnerTextAsync(),
            System.Globalization.CultureInfo.InvariantCulture
        );

    /// <summary>The factor once the stops bear.</summary>
    public async Task<double> StaysAsync(string key) =>
        double.Parse(
            await Page.Locator($"[data-stays={key}]").InnerTextAsync(),
            System.Globalization.CultureInfo.InvariantCulture
        );

    /// <summary>Sends the program a signal, as STOP, CONT or KILL.</summary>
    public void Signal(string name)
    {
        using Process kill = Process.Start(
            "kill",
            ["-" + name, _program.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)]
        );
        kill.WaitForExit();
    }

    /// <summary>Waits for the alarm of a name to stand, or to be gone.</summary>
    public async Task<string> AlarmAsync(string name, bool stands = true)
    {
        ILocator alarm = Page.Locator($"[data-alarm={name}] span");
        await alarm.WaitForAsync(
            new() { State = stands ? WaitForSelectorState.Visible : WaitForSelectorState.Detached }
        );
        return stands ? await alarm.InnerTextAsync() : "";
    }

    public async Task<string> StatusAsync() => await Page.Locator("#status").InnerTextAsync();

    /// <summary>Does something and waits until the page has shown its answer.</summary>
    public async Task DoAsync(Func<Task> act)
    {
        int before = await AnswersAsync();
        await act();
        await AnsweredAsync(before + 1);
    }

    /// <summary>Waits until the status line says this.</summary>
    public async Task SaysAsync(string text) =>
        await Page.WaitForFunctionAsync(
            "text => document.getElementById('status').textContent.includes(text)",
            text,
            new() { Timeout = PatienceMs }
        );

    public async Task SaveAsync()
    {
        await Page.ClickAsync("#save");
        await SaysAsync("Saved to");
    }

    /// <summary>The job on disk.</summary>
    public string Text() => File.ReadAllText(JobPath);

    /// <summary>The four factors as <c>check --json</c> says them for the job on disk.</summary>
    public JsonNode Check()
    {
        using Process check = Process.Start(Start(Folder, "check", JobPath, "--json"))!;
        Task<string> error = check.StandardError.ReadToEndAsync();
        string output = check.StandardOutput.ReadToEnd();
        check.WaitForExit();
        Assert.True(output.Length > 0, error.GetAwaiter().GetResult());
        return JsonNode.Parse(output)!;
    }

    /// <summary>Keeps a screenshot under the test output folder.</summary>
    public async Task ShotAsync(string name)
    {
        string folder = Path.Combine(AppContext.BaseDirectory, "screenshots");
        Directory.CreateDirectory(folder);
        await Page.ScreenshotAsync(new() { Path = Path.Combine(folder, name + ".png"), FullPage = true });
    }

    public async ValueTask DisposeAsync()
    {
        await Page.Context.CloseAsync();
        _program.Kill(entireProcessTree: true);
        _program.WaitForExit();
        _program.Dispose();
        Directory.Delete(Folder, recursive: true);
    }

    private static void CopyTree(string from, string to)
    {
        Directory.CreateDirectory(to);
        foreach (string folder in Directory.EnumerateDirectories(from))
        {
            CopyTree(folder, Path.Combine(to, Path.GetFileName(folder)));
        }
        foreach (string file in Directory.EnumerateFiles(from))
        {
            File.Copy(file, Path.Combine(to, Path.GetFileName(file)));
        }
    }

    private static string FindRoot([CallerFilePath] string here = "")
    {
        string? folder = Path.GetDirectoryName(here);
        while (folder is not null && !File.Exists(Path.Combine(folder, "FixtureGen.sln")))
        {
            folder = Path.GetDirectoryName(folder);
        }
        return folder ?? throw new InvalidOperationException("no FixtureGen.sln above the tests");
    }
}
