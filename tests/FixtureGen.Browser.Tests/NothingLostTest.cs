using System.Diagnostics;
using System.Runtime.Versioning;
using System.Text;
using System.Text.Json.Nodes;
using Xunit;

namespace FixtureGen.Browser.Tests;

/// <summary>What could once lose or falsify a toolmaker's work on the layout page; each of these failed before.</summary>
public sealed class NothingLostTest
{
    private const string Job = "pruner-sheath";

    [Fact]
    public async Task A_job_with_a_blocked_magnet_shows_all_of_them_and_a_save_keeps_them()
    {
        int stated = 0;
        await using LayoutPage page = await LayoutPage.OpenAsync(
            Job,
            prepare: job =>
            {
                string text = File.ReadAllText(job);
                File.WriteAllText(
                    job,
                    text + "\n[[magnet]]\nat = [0, 5]\nlocked = true\n\n[[magnet]]\nat = [60, 20]\n"
                );
                stated = Count(File.ReadAllText(job));
            }
        );
        Assert.True(stated >= 2);
        Assert.Equal(stated, await page.Page.Locator("[data-magnet]").CountAsync());
        Assert.Contains("cannot be made", await page.AlarmAsync("blocked"), StringComparison.Ordinal);
        Assert.Equal("-", await page.Page.InnerTextAsync("[data-factor=both]"));
        page.Page.Dialog += (_, dialog) => _ = dialog.AcceptAsync();
        await page.SaveAsync();
        Assert.Equal(stated, Count(page.Text()));
    }

    private static int Count(string text) => text.Split("[[magnet]]").Length - 1;

    [Fact]
    public async Task Make_makes_what_is_on_the_screen()
    {
        await using LayoutPage page = await LayoutPage.OpenAsync(Job);
        Assert.Equal("as saved", await page.Page.InnerTextAsync("#saved"));
        Assert.Equal("Make all files", await page.Page.InnerTextAsync("#make"));
        await page.DoAsync(() => page.Page.FillAndLeaveAsync("#set-altitude", "350"));
        Assert.Equal("unsaved changes", await page.Page.InnerTextAsync("#saved"));
        Assert.Equal("Save and make all files", await page.Page.InnerTextAsync("#make"));
        double shown = await page.FactorAsync("vacuumOnly");
        await page.Page.ClickAsync("#make");
        await page.SaysAsync("Made ");
        string report = Path.Combine(page.Folder, "out", Job, Job + ".report.json");
        JsonNode made = JsonNode.Parse(await File.ReadAllTextAsync(report, TestContext.Current.CancellationToken))!;
        Assert.Equal(shown, (double)made["holding"]!["vacuumOnly"]!["factor"]!, 4);
        Assert.Equal("as saved", await page.Page.InnerTextAsync("#saved"));
    }

    [Fact]
    public async Task A_program_that_stands_still_or_is_gone_is_shown_as_such_and_comes_back()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "a program is stopped by a signal");
        await using LayoutPage page = await LayoutPage.OpenAsync(Job);
        page.Signal("STOP");
        Assert.Contains("has not answered since", await page.AlarmAsync("lost"), StringComparison.Ordinal);
        await page.Page.WaitForFunctionAsync("document.getElementById('save').disabled");
        string x = await page.Page.InputValueAsync("#magnet-0-x");
        await page.Page.Locator("[data-magnet='0']").FocusAsync();
        await page.Page.Keyboard.PressAsync("ArrowLeft");
        page.Signal("CONT");
        await page.AlarmAsync("lost", stands: false);
        await page.Page.WaitForFunctionAsync("!document.getElementById('save').disabled");
        Assert.NotEqual(x, await page.Page.InputValueAsync("#magnet-0-x"));
        await page.AnsweredAsync(2);
        page.Signal("KILL");
        await page.AlarmAsync("lost");
        await page.Page.Keyboard.PressAsync("ArrowLeft");
        Assert.Equal("unsaved changes", await page.Page.InnerTextAsync("#saved"));
        await page.ShotAsync("program-gone");
    }

    [Fact]
    public async Task A_shop_file_that_changed_is_told_and_a_save_does_not_override_it()
    {
        await using LayoutPage page = await LayoutPage.OpenAsync(Job);
        double before = await page.FactorAsync("vacuumOnly");
        await page.DoAsync(() => page.Page.FillAndLeaveAsync("#set-altitude", "350"));
        string material = Path.Combine(page.Folder, "templates", "materials", "hdpe.toml");
        string text = await File.ReadAllTextAsync(material, TestContext.Current.CancellationToken);
        await File.WriteAllTextAsync(
            material,
            text.Replace("shell_friction_from = 0.10", "shell_friction_from = 0.09", StringComparison.Ordinal),
            TestContext.Current.CancellationToken
        );
        Assert.Contains(
            "templates/materials/hdpe.toml changed",
            await page.AlarmAsync("changed"),
            StringComparison.Ordinal
        );
        string job = page.Text();
        await page.Page.ClickAsync("#save");
        await page.SaysAsync("changed on disk");
        Assert.Equal(job, page.Text());
        await page.ShotAsync("shop-changed");
        await page.DoAsync(() => page.Page.ClickAsync("[data-alarm=changed] button"));
        await page.AlarmAsync("changed", stands: false);
        Assert.Equal(
            (double)page.Check()["holding"]!["vacuumOnly"]!["factor"]!,
            await page.FactorAsync("vacuumOnly"),
            4
        );
        Assert.Equal("as saved", await page.Page.InnerTextAsync("#saved"));
        Assert.True(before > await page.FactorAsync("vacuumOnly"));
        await File.WriteAllTextAsync(material, "friction = = 1\n", TestContext.Current.CancellationToken);
        await page.AlarmAsync("changed");
        await page.Page.ClickAsync("[data-alarm=changed] button");
        await page.SaysAsync("hdpe.toml");
        string told = await page.Page.InnerTextAsync("#findings");
        Assert.Contains("templates/materials/hdpe.toml:1:", told, StringComparison.Ordinal);
        Assert.DoesNotContain("error :", told, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_layout_that_cannot_be_cut_has_no_factor_and_is_spoken_and_survives_a_reload()
    {
        await using LayoutPage page = await LayoutPage.OpenAsync(Job);
        int count = await page.Page.Locator("[data-magnet]").CountAsync();
        await page.DoAsync(() => page.Page.FillAndLeaveAsync("#magnet-0-x", "5"));
        foreach (string key in new[] { "vacuumOnly", "magnetsStopping", "magnetsOnly", "both" })
        {
            Assert.Equal("-", await page.Page.InnerTextAsync($"[data-factor={key}]"));
        }
        Assert.True(await page.Page.IsVisibleAsync("#impossible"));
        await page.Page.WaitForFunctionAsync(
            "document.getElementById('spoken').textContent.includes('There is no hold factor')"
        );
        page.Page.Dialog += (_, dialog) => _ = dialog.AcceptAsync();
        await page.Page.ReloadAsync();
        await page.AnsweredAsync(1);
        await page.SaysAsync("taken up again");
        Assert.Equal("5.00", await page.Page.InputValueAsync("#magnet-0-x"));
        await page.DoAsync(() => page.Page.ClickAsync("#undo"));
        Assert.Equal("as saved", await page.Page.InnerTextAsync("#saved"));
        await page.Page.Locator("[data-magnet='0']").FocusAsync();
        await page.DoAsync(() => page.Page.Keyboard.PressAsync("ArrowLeft"));
        await page.Page.WaitForFunctionAsync(
            "/Magnet 1 at X .* Hold factor on vacuum alone/.test(document.getElementById('spoken').textContent)"
        );
        await page.DoAsync(() => page.Page.ClickAsync("#add"));
        await page.DoAsync(() => page.Page.ClickAsync("#best"));
        await page.SaysAsync("magnets placed");
        Assert.Equal(count + 1, await page.Page.Locator("[data-magnet]").CountAsync());
    }

    [Fact]
    [UnsupportedOSPlatform("windows")]
    public async Task A_save_keeps_link_permissions_mark_and_line_ends()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "links and permissions are another matter there");
        const UnixFileMode mode = UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.GroupRead;
        string real = "";
        await using LayoutPage page = await LayoutPage.OpenAsync(
            Job,
            prepare: job =>
            {
                real = Path.Combine(Path.GetDirectoryName(Path.GetDirectoryName(job))!, "shared.toml");
                string text = File.ReadAllText(job).Replace("\n", "\r\n", StringComparison.Ordinal);
                File.WriteAllBytes(real, [0xEF, 0xBB, 0xBF, .. Encoding.UTF8.GetBytes(text)]);
                File.SetUnixFileMode(real, mode);
                File.Delete(job);
                File.CreateSymbolicLink(job, real);
            }
        );
        await page.DoAsync(() => page.Page.ClickAsync("#add-port"));
        await page.SaveAsync();
        Assert.Equal(real, File.ResolveLinkTarget(page.JobPath, true)?.FullName);
        Assert.Equal(mode, File.GetUnixFileMode(real));
        byte[] bytes = await File.ReadAllBytesAsync(real, TestContext.Current.CancellationToken);
        Assert.Equal([0xEF, 0xBB, 0xBF], bytes[..3]);
        string saved = Encoding.UTF8.GetString(bytes);
        Assert.Contains("[[port]]\r\n", saved, StringComparison.Ordinal);
        Assert.DoesNotContain('\n', saved.Replace("\r\n", "", StringComparison.Ordinal));
    }

    [Fact]
    [UnsupportedOSPlatform("windows")]
    public async Task The_browser_is_started_without_the_token_among_its_words()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "the browser's starter is a script on the path here");
        LayoutPage.NeedsChromium();
        string folder = LayoutPage.Library(Job);
        string starter = Path.Combine(folder, "xdg-open");
        await File.WriteAllTextAsync(
            starter,
            "#!/bin/sh\nprintf '%s' \"$*\" > \"$0.words\"\n",
            TestContext.Current.CancellationToken
        );
        File.SetUnixFileMode(starter, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
        ProcessStartInfo start = LayoutPage.Start(folder, "layout", Path.Combine("outlines", Job + ".toml"), "--open");
        start.Environment["PATH"] = folder + ":" + Environment.GetEnvironmentVariable("PATH");
        using Process program = Process.Start(start)!;
        string line = (await program.StandardOutput.ReadLineAsync(TestContext.Current.CancellationToken))!;
        string token = line[(line.IndexOf("token=", StringComparison.Ordinal) + 6)..].Trim();
        string words = starter + ".words";
        while (!File.Exists(words) || new FileInfo(words).Length == 0)
        {
            await Task.Delay(50, TestContext.Current.CancellationToken);
        }
        string opened = await File.ReadAllTextAsync(words, TestContext.Current.CancellationToken);
        Assert.DoesNotContain(token, opened, StringComparison.Ordinal);
        Assert.Equal(UnixFileMode.UserRead | UnixFileMode.UserWrite, File.GetUnixFileMode(opened));
        Assert.Contains(
            token,
            await File.ReadAllTextAsync(opened, TestContext.Current.CancellationToken),
            StringComparison.Ordinal
        );
        program.Kill(entireProcessTree: true);
        await program.WaitForExitAsync(TestContext.Current.CancellationToken);
        Directory.Delete(folder, recursive: true);
    }
}
