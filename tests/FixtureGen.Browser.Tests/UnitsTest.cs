using System.Globalization;
using Microsoft.Playwright;
using Xunit;

namespace FixtureGen.Browser.Tests;

public sealed class UnitsTest
{
    [Fact]
    public async Task A_job_in_inches_is_shown_and_saved_in_inches()
    {
        await using LayoutPage page = await LayoutPage.OpenAsync("meter-cradle");
        double mm = await page.Page.EvaluateAsync<double>("import('./state.js').then((m) => m.state.magnets[0].x)");
        Assert.Equal(
            mm / 25.4,
            double.Parse(await page.Page.InputValueAsync("#magnet-0-x"), CultureInfo.InvariantCulture),
            4
        );
        Assert.Contains(
            "in/min",
            await page.Page.Locator("label[for=set-feed]").InnerTextAsync(),
            StringComparison.Ordinal
        );
        Assert.Contains(
            "inHg",
            await page.Page.Locator("label[for=set-alarm]").InnerTextAsync(),
            StringComparison.Ordinal
        );
        string heads = await page.Page.EvaluateAsync<string>(
            "[...document.querySelectorAll('#answers th[scope=col], #section-ends label')].map((t) => t.textContent).join(' ')"
        );
        Assert.Contains("X, in", heads, StringComparison.Ordinal);
        Assert.DoesNotContain("mm", heads, StringComparison.Ordinal);
        await page.Page.Locator("#section polygon").First.WaitForAsync(new() { State = WaitForSelectorState.Attached });
        string[] floors = await page.Page.EvaluateAsync<string[]>(
            "[...document.querySelectorAll('#section text')].map((t) => t.textContent).filter((t) => /^[0-9]/.test(t))"
        );
        Assert.NotEmpty(floors);
        Assert.All(floors, f => Assert.InRange(double.Parse(f, CultureInfo.InvariantCulture), 0, 0.75));
        await page.DoAsync(() => page.Page.FillAndLeaveAsync("#set-feed", "40"));
        await page.DoAsync(() => page.Page.FillAndLeaveAsync("#set-alarm", "19.5"));
        await page.SaveAsync();
        Assert.Contains("feed = \"40 in/min\"", page.Text(), StringComparison.Ordinal);
        Assert.Contains("alarm = \"19.5 inHg\"", page.Text(), StringComparison.Ordinal);
        Assert.Equal((double)page.Check()["holding"]!["both"]!["factor"]!, await page.FactorAsync("both"), 4);
        await page.ShotAsync("inches");
    }
}
