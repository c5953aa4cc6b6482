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

    /// <summary>Keeps a picture of each for the eye.</summary>
    [Theory]
    [InlineData("auger-cradle", ColorScheme.Light)]
    [InlineData("stake-holder", ColorScheme.Dark)]
    public async Task The_figures_of_a_section_stand_clear_of_each_other(string job, ColorScheme scheme)
    {
        await using LayoutPage page = await LayoutPage.OpenAsync(job, scheme);
        await page.Page.Locator("#section .figure").First.WaitForAsync(new() { State = WaitForSelectorState.Attached });
        await page.ShotAsync("section-" + job);
        double[][] boxes = await page.Page.EvaluateAsync<double[][]>(
            "[...document.querySelectorAll('#section .figure')].map((t) => t.getBBox()).map((b) => [b.x, b.y + b.height / 2, b.x + b.width])"
        );
        Assert.True(boxes.Length > 3, "the section passes several cuts");
        for (int i = 0; i < boxes.Length; i++)
        {
            for (int j = 0; j < i; j++)
            {
                bool sameRow = Math.Abs(boxes[i][1] - boxes[j][1]) < 4;
                Assert.False(
                    sameRow && boxes[i][0] < boxes[j][2] && boxes[j][0] < boxes[i][2],
                    FormattableString.Invariant($"{i} on {j}")
                );
            }
        }
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);
}
