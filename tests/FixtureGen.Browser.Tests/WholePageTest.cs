using System.Diagnostics;
using System.IO.Compression;
using System.Text.Json.Nodes;
using Microsoft.Playwright;
using Xunit;

namespace FixtureGen.Browser.Tests;

/// <summary>The work of a day as stories, with the page's own content policy in force: the same files and the same answers as the command line.</summary>
public sealed class WholePageTest
{
    private const string Job = "pruner-sheath";
    private const string Other = "label-clip";

    [Fact]
    public async Task The_library_is_searched_made_noted_and_taken_back()
    {
        await using LayoutPage page = await LayoutPage.ServeAsync(Job, AddOther);
        IPage p = page.Page;
        ILocator rows = p.Locator("#library-table tbody tr");
        await Assertions.Expect(rows).ToHaveCountAsync(2);
        Assert.Contains("2 never made", await p.InnerTextAsync("#library-count"), StringComparison.Ordinal);
        await p.FillAsync("#search", "pruner");
        await Assertions.Expect(rows).ToHaveCountAsync(1);
        await p.FillAsync("#search", "");
        await p.ClickAsync("#dry-run");
        await page.SaysAsync("2 would be made");
        Assert.False(Directory.Exists(Path.Combine(page.Folder, "out")));
        await p.ClickAsync("#regenerate");
        await page.SaysAsync("2 made");
        await page.ScanAsync("library");
        JsonNode report = Report(page, Job);
        ILocator row = p.Locator($"tr[data-job='outlines/{Job}.toml']");
        double vacuum = (double)report["holding"]!["vacuumOnly"]!["factor"]!;
        string two = (Math.Floor(vacuum * 10) / 10).ToString("0.0", System.Globalization.CultureInfo.InvariantCulture);
        await Assertions.Expect(row.Locator("td[data-label='Vacuum alone']")).ToHaveTextAsync(two);
        await Assertions.Expect(row.Locator(".of-state")).ToContainTextAsync("made");
        await p.WaitForFunctionAsync(
            "() => [...document.querySelectorAll('.thumb img')].every((i) => i.naturalWidth > 0)"
        );
        await p.ClickAsync($"[aria-label='Block of {Job}']");
        await p.ClickAsync("text=A block was cut");
        await page.SaysAsync("Noted");
        await Assertions.Expect(row.Locator(".of-state")).ToContainTextAsync("cut");
        Assert.Contains("state = \"cut\"", Register(page), StringComparison.Ordinal);
        await page.ScanAsync("shelf");
        await p.ClickAsync("text=Take back the last note");
        await page.SaysAsync("taken back");
        await Assertions.Expect(row.Locator(".of-state")).ToContainTextAsync("made");
        await p.ClickAsync("#shelf >> text=Close");
        await File.AppendAllTextAsync(page.JobPath, "# later\n", TestContext.Current.CancellationToken);
        await Assertions
            .Expect(row.Locator(".of-state"))
            .ToContainTextAsync($"outlines/{Job}.toml changed", new() { Timeout = LayoutPage.PatienceMs });
        Assert.Empty(page.Errors);
    }

    [Fact]
    public async Task A_dropped_drawing_becomes_the_job_that_new_writes_and_its_form_keeps_the_file()
    {
        await using LayoutPage page = await LayoutPage.ServeAsync(Job);
        IPage p = page.Page;
        string drawing = Path.Combine(LayoutPage.Root, "outlines", Other + ".dxf");
        await p.ClickAsync("a[data-view=new]");
        await p.SetInputFilesAsync("#drawing-file", drawing);
        await page.SaysAsync("can be used as it is");
        Assert.Equal(1, await p.Locator("#drawn-picture .loop.outline").CountAsync());
        await p.SelectOptionAsync("#ask-shell", "pvc-acrylic");
        await p.FillAsync("#ask-thickness", "1.5 mm");
        await p.FillAsync("#ask-slack", "0.3 mm");
        await p.SelectOptionAsync("#ask-locator", "auto");
        await page.ScanAsync("new");
        await p.ClickAsync("#write-job");
        await page.SaysAsync("Wrote outlines/label-clip.toml");
        string job = Path.Combine(page.Folder, "outlines", Other + ".toml");
        string written = await File.ReadAllTextAsync(job, TestContext.Current.CancellationToken);
        string twin = LayoutPage.Library(Job);
        string beside = Path.Combine(twin, "outlines", Other + ".dxf");
        File.Copy(drawing, beside);
        string[] answers =
        [
            "--shell",
            "pvc-acrylic",
            "--thickness",
            "1.5 mm",
            "--slack",
            "0.3 mm",
            "--locator",
            "auto",
        ];
        Run(twin, ["new", beside, .. answers]);
        string byCommand = await File.ReadAllTextAsync(
            Path.ChangeExtension(beside, ".toml"),
            TestContext.Current.CancellationToken
        );
        Assert.Equal(byCommand, written);
        Directory.Delete(twin, recursive: true);
        await p.WaitForFunctionAsync("() => /vacuum alone|Refused/.test(document.getElementById('come').textContent)");
        await FormAsync(page, job, written);
        Assert.Empty(page.Errors);
    }

    private static async Task FormAsync(LayoutPage page, string job, string written)
    {
        IPage p = page.Page;
        Assert.Equal(written, await p.EvaluateAsync<string>("() => document.getElementById('job-text').textContent"));
        string about = await p.InnerTextAsync("[id='key-shell.thickness-about']");
        Assert.Contains("0.2 to 12 mm", about, StringComparison.Ordinal);
        await p.FillAsync("[id='key-shell.thickness']", "99");
        await Assertions.Expect(p.Locator("#job-findings")).ToContainTextAsync("shell.thickness");
        await Assertions.Expect(p.Locator("#come")).ToContainTextAsync("Refused");
        await p.FillAsync("[id='key-shell.thickness']", "1.6");
        await p.FillAsync("[id='key-quantity']", "25");
        await p.WaitForFunctionAsync("() => document.getElementById('job-text').textContent.includes('quantity = 25')");
        await page.ScanAsync("job");
        await p.ClickAsync("#job-save");
        await page.SaysAsync("Saved to label-clip.toml");
        string saved = await File.ReadAllTextAsync(job, TestContext.Current.CancellationToken);
        string[] changed = [.. saved.Split('\n').Except(written.Split('\n'))];
        Assert.Equal(2, changed.Length);
        Assert.Contains(changed, l => l.StartsWith("quantity = 25 ", StringComparison.Ordinal) && l.Contains('#'));
        await p.FillAsync("[id='key-quantity']", "30");
        await File.WriteAllTextAsync(
            job,
            saved.Replace("quantity = 25", "quantity = 40", StringComparison.Ordinal),
            TestContext.Current.CancellationToken
        );
        string alarm = await page.AlarmAsync("form-changed");
        Assert.Contains("quantity is 40 there, 30 here", alarm, StringComparison.Ordinal);
        await p.ClickAsync("#job-save");
        await page.SaysAsync("nothing was written");
        Assert.Contains(
            "quantity = 40",
            await File.ReadAllTextAsync(job, TestContext.Current.CancellationToken),
            StringComparison.Ordinal
        );
        await p.ClickAsync("[data-alarm=form-changed] button");
        await page.AlarmAsync("form-changed", stands: false);
        Assert.Equal("30", await p.InputValueAsync("[id='key-quantity']"));
        await p.ClickAsync("#job-discard");
        await Assertions.Expect(p.Locator("[id='key-quantity']")).ToHaveValueAsync("40");
    }

    [Fact]
    public async Task Papers_and_files_are_shown_and_taken_along()
    {
        await using LayoutPage page = await LayoutPage.ServeAsync(Job, job => Run(Up(Up(job)), ["make", job]));
        IPage p = page.Page;
        await p.ClickAsync($"[aria-label='Papers and files of {Job}']");
        string folder = Path.Combine(page.Folder, "out", Job);
        string[] made =
        [
            .. Directory.EnumerateFiles(folder).Select(f => Path.GetFileName(f)!).Order(StringComparer.Ordinal),
        ];
        await Assertions.Expect(p.Locator(".files li")).ToHaveCountAsync(made.Length);
        IDownload all = await p.RunAndWaitForDownloadAsync(() => p.ClickAsync("#files-all"));
        string zip = Path.Combine(page.Folder, "all.zip");
        await all.SaveAsAsync(zip);
        using (ZipArchive archive = await ZipFile.OpenReadAsync(zip, TestContext.Current.CancellationToken))
        {
            Assert.Equal(made, archive.Entries.Select(e => e.Name).Order(StringComparer.Ordinal));
        }
        await p.ClickAsync($"[aria-label='Show {Job}.trim.nc']");
        string program = await File.ReadAllTextAsync(
            Path.Combine(folder, Job + ".trim.nc"),
            TestContext.Current.CancellationToken
        );
        await p.WaitForFunctionAsync("t => document.querySelector('#preview pre')?.textContent === t", program);
        await page.ScanAsync("files");
        await PlayAsync(page, program);
        await p.ClickAsync("a[data-view=files]");
        await File.AppendAllTextAsync(page.JobPath, "# later\n", TestContext.Current.CancellationToken);
        Assert.Contains("not what would be made now", await page.AlarmAsync("old-files"), StringComparison.Ordinal);
        Assert.Empty(page.Errors);
    }

    /// <summary>What is played is what the judge reads: its last line, its minutes, and the finding of a program that was spoilt by hand.</summary>
    private static async Task PlayAsync(LayoutPage page, string program)
    {
        IPage p = page.Page;
        await p.ClickAsync("a[data-view=play]");
        await page.SaysAsync($"The judge passes {Job}.top.nc");
        double minutes = (double)
            Report(page, Job)["programs"]!.AsArray().First(f => (string?)f!["setup"] == "top")!["minutes"]!;
        string said = minutes.ToString("0.0", System.Globalization.CultureInfo.InvariantCulture);
        Assert.Contains($"{said} min", await page.StatusAsync(), StringComparison.Ordinal);
        await p.SelectOptionAsync("#play-program", Job + ".trim.nc");
        await page.SaysAsync($"The judge passes {Job}.trim.nc");
        await p.FocusAsync("#time");
        await p.Keyboard.PressAsync("Home");
        await p.Keyboard.PressAsync("ArrowRight");
        string now = await p.InnerTextAsync("#now");
        string line = now.Split(' ')[1];
        Assert.Contains("rapid", now, StringComparison.Ordinal);
        string shown = await p.InnerTextAsync("#lines .here");
        Assert.Equal(
            program.Split('\n')[int.Parse(line, System.Globalization.CultureInfo.InvariantCulture) - 1].Trim(),
            shown.Trim()
        );
        await p.PressAsync("#time", "End");
        await p.CheckAsync("#cut-away");
        await p.WaitForFunctionAsync("n => Number(document.body.dataset.carved) >= n", minutes > 0 ? 20 : 0);
        await page.ScanAsync("play");
        string spoilt = Path.Combine(page.Folder, "spoilt.trim.nc");
        int last = program.LastIndexOf("G1", StringComparison.Ordinal);
        await File.WriteAllTextAsync(
            spoilt,
            program[..last] + "G7" + program[(last + 2)..],
            TestContext.Current.CancellationToken
        );
        await p.SetInputFilesAsync("#play-own", spoilt);
        await page.SaysAsync("The judge refuses spoilt.trim.nc");
        Assert.Contains("Go to line", await p.InnerTextAsync("#play-findings"), StringComparison.Ordinal);
    }

    private static void AddOther(string job)
    {
        string folder = Up(job);
        File.Copy(Path.Combine(LayoutPage.Root, "outlines", Other + ".dxf"), Path.Combine(folder, Other + ".dxf"));
        File.Copy(
            Path.Combine(LayoutPage.Root, "tests", "stated", Other + ".toml"),
            Path.Combine(folder, Other + ".toml")
        );
    }

    private static string Up(string path) => Path.GetDirectoryName(path)!;

    private static void Run(string folder, string[] words)
    {
        using Process run = Process.Start(LayoutPage.Start(folder, words))!;
        Task<string> error = run.StandardError.ReadToEndAsync();
        string output = run.StandardOutput.ReadToEnd();
        run.WaitForExit();
        Assert.True(run.ExitCode == 0, output + error.GetAwaiter().GetResult());
    }

    private static JsonNode Report(LayoutPage page, string job) =>
        JsonNode.Parse(File.ReadAllText(Path.Combine(page.Folder, "out", job, job + ".report.json")))!;

    private static string Register(LayoutPage page) =>
        File.ReadAllText(Path.Combine(page.Folder, "outlines", "library.toml"));
}
