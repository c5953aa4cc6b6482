using Deque.AxeCore.Commons;
using Deque.AxeCore.Playwright;
using Microsoft.Playwright;
using Xunit;

namespace FixtureGen.Browser.Tests;

/// <summary>WCAG 2.1 A and AA as axe-core, a general accessibility checker, reads them, with its rules of best practice; contrast AA is among them.</summary>
public sealed class AccessibilityTest
{
    [Theory]
    [InlineData(ColorScheme.Light, 1280, 720)]
    [InlineData(ColorScheme.Dark, 1280, 720)]
    [InlineData(ColorScheme.Light, 820, 1180)]
    [InlineData(ColorScheme.Dark, 390, 844)]
    public async Task A_scan_finds_nothing_of_any_grade(ColorScheme scheme, int width, int height)
    {
        await using LayoutPage page = await LayoutPage.OpenAsync("pruner-sheath", scheme, width, height);
        await page.DoAsync(() => page.Page.ClickAsync("#add-port"));
        await page.Page.ClickAsync("#keep");
        await page.DoAsync(() => page.Page.FillAndLeaveAsync("#magnet-0-x", "8"));
        await page.ShotAsync(FormattableString.Invariant($"scan-{scheme}-{width}").ToLowerInvariant());
        Assert.True(await page.Page.EvaluateAsync<int>("document.scrollingElement.scrollWidth") <= width);
        AxeResult result = await page.Page.RunAxe();
        string[] bad =
        [
            .. result.Violations.Select(v => $"{v.Id}: {v.Help}: {string.Join("; ", v.Nodes.Select(n => n.Html))}"),
        ];
        Assert.True(bad.Length == 0, string.Join("\n", bad));
        Assert.Contains(result.Passes, p => p.Id == "color-contrast");
    }
}

internal static class Filling
{
    /// <summary>Types into a field and leaves it, which is when the page takes it.</summary>
    public static async Task FillAndLeaveAsync(this IPage page, string field, string text)
    {
        await page.FillAsync(field, text);
        await page.PressAsync(field, "Tab");
    }
}
