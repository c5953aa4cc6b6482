using System.Net;
using System.Text.Json.Nodes;
using Microsoft.Playwright;
using Xunit;

namespace FixtureGen.Browser.Tests;

public sealed class LayoutPageTest
{
    private const string Job = "pruner-sheath";

    [Fact]
    public async Task Page_opens_with_the_numbers_that_check_prints()
    {
        await using LayoutPage page = await LayoutPage.OpenAsync(Job);
        JsonNode check = page.Check();
        foreach (string key in new[] { "vacuumOnly", "magnetsStopping", "magnetsOnly", "both" })
        {
            Assert.Equal((double)check["holding"]![key]!["factor"]!, await page.FactorAsync(key), 4);
            Assert.Equal((double)check["holding"]![key]!["stays"]!, await page.StaysAsync(key), 4);
        }
        await page.ShotAsync("opened");
    }

    [Fact]
    public async Task A_dragged_magnet_saved_gives_the_factor_that_check_prints_for_that_place()
    {
        await using LayoutPage page = await LayoutPage.OpenAsync(Job);
        double before = await page.FactorAsync("magnetsStopping");
        ILocator legal = page.Page.Locator("#violations li.none");
        (int X, int Y)[] ways = [(-10, 4), (14, -4), (-4, -14), (4, 20), (-8, -10), (6, 2)];
        for (int i = 0; i < ways.Length && (i == 0 || await legal.CountAsync() == 0); i++)
        {
            await DragAsync(page, ways[i].X, ways[i].Y);
        }
        Assert.Equal(1, await legal.CountAsync());
        double after = await page.FactorAsync("magnetsStopping");
        Assert.NotEqual(before, after);
        await page.SaveAsync();
        Assert.Equal((double)page.Check()["holding"]!["magnetsStopping"]!["factor"]!, after, 4);
        await page.ShotAsync("dragged");
    }

    private static async Task DragAsync(LayoutPage page, int right, int down)
    {
        LocatorBoundingBoxResult box = (await page.Page.Locator("[data-magnet='0'] circle").First.BoundingBoxAsync())!;
        float x = box.X + (box.Width / 2);
        float y = box.Y + (box.Height / 2);
        await page.Page.Mouse.MoveAsync(x, y);
        await page.Page.Mouse.DownAsync();
        for (int step = 1; step <= 4; step++)
        {
            float share = step / 4f;
            await page.DoAsync(() => page.Page.Mouse.MoveAsync(x + (right * share), y + (down * share)));
        }
        await page.Page.Mouse.UpAsync();
    }

    [Fact]
    public async Task A_feed_of_nought_takes_the_stated_feed_out_of_the_job()
    {
        await using LayoutPage page = await LayoutPage.OpenAsync(Job);
        Assert.Contains("\nfeed = ", page.Text(), StringComparison.Ordinal);
        double stated = await page.FactorAsync("vacuumOnly");
        await page.DoAsync(() => page.Page.FillAndLeaveAsync("#set-feed", "0"));
        double ruled = await page.FactorAsync("vacuumOnly");
        Assert.NotEqual(stated, ruled);
        await page.SaveAsync();
        Assert.DoesNotContain("\nfeed = ", page.Text(), StringComparison.Ordinal);
        Assert.Equal((double)page.Check()["holding"]!["vacuumOnly"]!["factor"]!, ruled, 4);
    }

    [Fact]
    public async Task Keyboard_alone_moves_undoes_removes_and_locks()
    {
        await using LayoutPage page = await LayoutPage.OpenAsync(Job);
        int magnets = await page.Page.Locator("[data-magnet]").CountAsync();
        string x = await page.Page.InputValueAsync("#magnet-0-x");
        await page.Page.Locator("[data-magnet='0']").FocusAsync();
        int answers = await page.AnswersAsync();
        await page.Page.Keyboard.PressAsync("ArrowLeft");
        await page.AnsweredAsync(answers + 1);
        double moved = Number(await page.Page.InputValueAsync("#magnet-0-x"));
        Assert.Equal(Number(x) - 0.5, moved, 2);
        await page.Page.Keyboard.PressAsync("Control+z");
        await page.AnsweredAsync(answers + 2);
        Assert.Equal(x, await page.Page.InputValueAsync("#magnet-0-x"));
        await page.Page.Keyboard.PressAsync("Control+y");
        await page.AnsweredAsync(answers + 3);
        Assert.Equal(moved, Number(await page.Page.InputValueAsync("#magnet-0-x")), 2);
        await page.Page.Locator("[data-magnet='0']").FocusAsync();
        await page.Page.Keyboard.PressAsync("l");
        await page.AnsweredAsync(answers + 4);
        Assert.True(await page.Page.IsCheckedAsync("#magnet-0-lock"));
        await page.Page.Locator("[data-magnet='1']").FocusAsync();
        await page.Page.Keyboard.PressAsync("Delete");
        await page.AnsweredAsync(answers + 5);
        Assert.Equal(magnets - 1, await page.Page.Locator("[data-magnet]").CountAsync());
    }

    [Fact]
    public async Task Illegal_places_are_shown_and_not_saved_without_saying_so()
    {
        await using LayoutPage page = await LayoutPage.OpenAsync(Job);
        string before = await File.ReadAllTextAsync(page.JobPath, TestContext.Current.CancellationToken);
        int answers = await page.AnswersAsync();
        await page.Page.FillAsync("#magnet-0-x", "5");
        await page.Page.PressAsync("#magnet-0-x", "Tab");
        await page.AnsweredAsync(answers + 1);
        await page.Page.WaitForFunctionAsync("document.querySelector('#violations li:not(.none)') !== null");
        Assert.Contains(
            "Magnet 1 is",
            await page.Page.Locator("#violations").InnerTextAsync(),
            StringComparison.Ordinal
        );
        string asked = "";
        page.Page.Dialog += (_, dialog) =>
        {
            asked = dialog.Message;
            _ = dialog.DismissAsync();
        };
        await page.Page.ClickAsync("#save");
        await page.Page.WaitForFunctionAsync("document.getElementById('status').textContent.includes('not kept')");
        Assert.Contains("not kept", asked, StringComparison.Ordinal);
        Assert.Equal(before, await File.ReadAllTextAsync(page.JobPath, TestContext.Current.CancellationToken));
        await page.ShotAsync("illegal");
    }

    [Fact]
    public async Task A_job_changed_on_disk_is_noticed_and_not_overwritten()
    {
        await using LayoutPage page = await LayoutPage.OpenAsync(Job);
        string changed =
            await File.ReadAllTextAsync(page.JobPath, TestContext.Current.CancellationToken)
            + "\n# somebody else was here\n";
        await File.WriteAllTextAsync(page.JobPath, changed, TestContext.Current.CancellationToken);
        await page.Page.ClickAsync("#save");
        await page.Page.WaitForFunctionAsync(
            "document.getElementById('status').textContent.includes('changed on disk')"
        );
        Assert.Equal(changed, await File.ReadAllTextAsync(page.JobPath, TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task Saving_keeps_the_comments_of_the_job()
    {
        await using LayoutPage page = await LayoutPage.OpenAsync(Job);
        string before = await File.ReadAllTextAsync(page.JobPath, TestContext.Current.CancellationToken);
        await page.Page.ClickAsync("#save");
        await page.Page.WaitForFunctionAsync("document.getElementById('status').textContent.startsWith('Saved')");
        string after = await File.ReadAllTextAsync(page.JobPath, TestContext.Current.CancellationToken);
        foreach (string line in before.Split('\n').Where(l => l.TrimStart().StartsWith('#')))
        {
            Assert.Contains(line, after, StringComparison.Ordinal);
        }
        Assert.Contains("[[magnet]]", after, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Strangers_and_paths_outside_are_refused()
    {
        await using LayoutPage page = await LayoutPage.OpenAsync(Job);
        using HttpClient client = new();
        Uri root = new(page.Address);
        async Task<HttpStatusCode> Ask(string path, string? host, string? origin)
        {
            using HttpRequestMessage request = new(HttpMethod.Get, new Uri(root, path));
            if (host is not null)
            {
                request.Headers.Host = host;
            }
            if (origin is not null)
            {
                request.Headers.Add("Origin", origin);
            }
            using HttpResponseMessage response = await client.SendAsync(request, TestContext.Current.CancellationToken);
            return response.StatusCode;
        }
        string token = root.Query;
        Assert.Equal(HttpStatusCode.OK, await Ask("/" + token, null, null));
        Assert.Equal(HttpStatusCode.Forbidden, await Ask("/" + token, "stranger.example", null));
        Assert.Equal(HttpStatusCode.Forbidden, await Ask("/api/state" + token, null, "http://stranger.example"));
        Assert.Equal(HttpStatusCode.Forbidden, await Ask("/api/state?token=guess", null, null));
        Assert.Equal(HttpStatusCode.Forbidden, await Ask("/", null, null));
        foreach (
            string path in new[]
            {
                "/%2e%2e/%2e%2e/etc/passwd",
                "/..%2ftemplates/plates/master.toml",
                "/outlines/" + Job + ".toml",
            }
        )
        {
            Assert.Equal(HttpStatusCode.NotFound, await Ask(path + token, null, null));
        }
        using HttpContent large = new StringContent(
            "{\"magnets\":\"" + new string('x', 400_000) + "\"}",
            System.Text.Encoding.UTF8,
            "application/json"
        );
        using HttpResponseMessage refused = await client.PostAsync(
            new Uri(root, "/api/try" + token),
            large,
            TestContext.Current.CancellationToken
        );
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, refused.StatusCode);
    }

    private static double Number(string text) => double.Parse(text, System.Globalization.CultureInfo.InvariantCulture);
}
