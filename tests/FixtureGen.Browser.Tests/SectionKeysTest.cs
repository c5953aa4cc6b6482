using System.Globalization;
using Microsoft.Playwright;
using Xunit;

namespace FixtureGen.Browser.Tests;

public sealed class SectionKeysTest
{
    [Fact]
    public async Task The_ends_of_the_section_move_by_keyboard()
    {
        await using LayoutPage page = await LayoutPage.OpenAsync("pruner-sheath");
        ILocator end = page.Page.Locator("[data-end='0']");
        await end.FocusAsync();
        double y = Number(await page.Page.InputValueAsync("#section-y0"));
        await page.Page.Keyboard.PressAsync("Shift+ArrowUp");
        Assert.Equal(y + 5, Number(await page.Page.InputValueAsync("#section-y0")), 2);
        Assert.Equal("0", await page.Page.EvaluateAsync<string>("document.activeElement.dataset.end"));
        await page.Page.Locator("#section polygon").First.WaitForAsync(new() { State = WaitForSelectorState.Attached });
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
