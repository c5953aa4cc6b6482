using System.Globalization;
using System.Text.Json.Nodes;
using Xunit;

namespace FixtureGen.Browser.Tests;

public sealed class OptimiserAndMakeTest
{
    private const string Job = "pruner-sheath";

    [Fact]
    public async Task Best_places_keep_the_count_the_clearances_and_do_no_worse()
    {
        await using LayoutPage page = await LayoutPage.OpenAsync(Job);
        int count = await page.Page.Locator("[data-magnet]").CountAsync();
        double stated = await page.StaysAsync("magnetsStopping");
        await page.DoAsync(() => page.Page.FillAndLeaveAsync("#magnet-0-x", "8"));
        Assert.Equal("-", await page.Page.InnerTextAsync("[data-factor=magnetsStopping]"));
        await page.DoAsync(() => page.Page.ClickAsync("#best"));
        await page.SaysAsync("magnets placed");
        Assert.Equal(count, await page.Page.Locator("[data-magnet]").CountAsync());
        Assert.Equal(1, await page.Page.Locator("#violations li.none").CountAsync());
        Assert.True(await page.StaysAsync("magnetsStopping") >= stated - 1e-3);
    }

    [Fact]
    public async Task Fewest_for_the_limit_reach_it_and_one_less_does_not()
    {
        await using LayoutPage page = await LayoutPage.OpenAsync(Job);
        double limit = double.Parse(
            await page.Page.Locator("#factor-magnetsStopping td:nth-of-type(2)").InnerTextAsync(),
            CultureInfo.InvariantCulture
        );
        await page.DoAsync(() => page.Page.ClickAsync("#fewest"));
        await page.SaysAsync("magnets placed");
        int fewest = await page.Page.Locator("[data-magnet]").CountAsync();
        Assert.True(await page.StaysAsync("magnetsStopping") >= limit);
        await page.DoAsync(() =>
            page.Page.FillAndLeaveAsync("#set-count", (fewest - 1).ToString(CultureInfo.InvariantCulture))
        );
        await page.DoAsync(() => page.Page.ClickAsync("#best"));
        await page.SaysAsync((fewest - 1).ToString(CultureInfo.InvariantCulture) + " magnets placed");
        Assert.True(await page.StaysAsync("magnetsStopping") < limit);
    }

    [Fact]
    public async Task A_refused_make_is_shown_with_its_remedy_and_writes_nothing()
    {
        await using LayoutPage page = await LayoutPage.OpenAsync(Job);
        await page.DoAsync(() => page.Page.CheckAsync("#magnet-0-lock"));
        await page.DoAsync(() => page.Page.FillAndLeaveAsync("#magnet-0-x", "3"));
        page.Page.Dialog += (_, dialog) => _ = dialog.AcceptAsync();
        await page.Page.ClickAsync("#make");
        await page.SaysAsync("Refused");
        JsonNode check = page.Check();
        JsonNode error = check["findings"]!.AsArray().First(f => (string?)f!["severity"] == "error")!;
        string shown = await page.Page.Locator("#findings").InnerTextAsync();
        Assert.Contains((string)error["code"]!, shown, StringComparison.Ordinal);
        Assert.Contains((string)error["remedy"]!, shown, StringComparison.Ordinal);
        Assert.False(Directory.Exists(Path.Combine(page.Folder, "out", Job)));
    }
}
