using System.Globalization;
using System.Text.Json.Nodes;
using Xunit;

namespace FixtureGen.Browser.Tests;

public sealed class PortsOnThePageTest
{
    private const string Job = "pruner-sheath";

    [Fact]
    public async Task A_port_is_fixed_moved_saved_and_there_again()
    {
        string saved;
        string x;
        await using (LayoutPage page = await LayoutPage.OpenAsync(Job))
        {
            string before = page.Text();
            await page.Page.Locator("#drawing").FocusAsync();
            await page.DoAsync(() => page.Page.Keyboard.PressAsync("p"));
            Assert.Equal(1, await page.Page.Locator("[data-port]").CountAsync());
            double stood = Number(await page.Page.InputValueAsync("#port-0-x"));
            await page.DoAsync(() => page.Page.Keyboard.PressAsync("ArrowRight"));
            x = await page.Page.InputValueAsync("#port-0-x");
            Assert.Equal(stood + 0.5, Number(x), 2);
            await page.SaveAsync();
            saved = page.Text();
            Assert.Contains("[[port]]", saved, StringComparison.Ordinal);
            foreach (string line in before.Split('\n'))
            {
                Assert.Contains(line, saved, StringComparison.Ordinal);
            }
            await page.Page.ReloadAsync();
            await page.AnsweredAsync(1);
            Assert.Equal(1, await page.Page.Locator("[data-port]").CountAsync());
            Assert.Equal(x, await page.Page.InputValueAsync("#port-0-x"));
            JsonNode check = page.Check();
            Assert.Equal((double)check["holding"]!["both"]!["factor"]!, await page.FactorAsync("both"), 4);
        }
    }

    [Fact]
    public async Task A_port_where_none_can_be_is_told_with_its_amount_and_marked()
    {
        await using LayoutPage page = await LayoutPage.OpenAsync(Job);
        await page.DoAsync(() => page.Page.ClickAsync("#add-port"));
        await page.DoAsync(() => page.Page.FillAndLeaveAsync("#port-0-x", "3"));
        string told = await page.Page.Locator("#violations").InnerTextAsync();
        Assert.Matches(@"Port 1 is \d+\.\d+ mm too near", told);
        Assert.Equal(1, await page.Page.Locator(".offence").CountAsync());
        Assert.Contains(
            "port-outside-zones",
            await page.Page.Locator("#findings").InnerTextAsync(),
            StringComparison.Ordinal
        );
        await page.DoAsync(() => page.Page.ClickAsync("[aria-label='remove port 1']"));
        Assert.Equal(0, await page.Page.Locator("[data-port]").CountAsync());
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
