using System.Globalization;
using Microsoft.Playwright;
using Xunit;

namespace FixtureGen.Browser.Tests;

/// <summary>What a layout has beyond single magnets: several at once, the part itself, the ground, the path, layouts that are kept.</summary>
public sealed class LayoutExtrasTest
{
    [Fact]
    public async Task Several_magnets_the_part_the_path_and_kept_layouts()
    {
        await using LayoutPage page = await LayoutPage.OpenAsync("prism-pouch");
        IPage p = page.Page;
        int magnets = await p.Locator("[data-magnet]").CountAsync();
        await Assertions.Expect(p.Locator("#fate")).ToHaveTextAsync("would be made so");
        await p.FillAsync("#kept-name", "as it was");
        await p.ClickAsync("#keep-named");
        await page.SaysAsync("Kept beside the job");
        Assert.True(File.Exists(Path.ChangeExtension(page.JobPath, ".layouts.json")));

        foreach (int i in new[] { 0, 1 })
        {
            await p.UncheckAsync(Id(i, "lock"));
            await page.DoAsync(() => p.CheckAsync(Id(i, "pick")));
        }
        double[] x = [await XAsync(p, 0), await XAsync(p, 1)];
        await p.FocusAsync("[data-magnet='1']");
        await page.DoAsync(() => p.Keyboard.PressAsync("ArrowRight"));
        Assert.Equal(x[0] + 0.5, await XAsync(p, 0), 2);
        Assert.Equal(x[1] + 0.5, await XAsync(p, 1), 2);
        await page.DoAsync(() => p.ClickAsync("#align-x"));
        Assert.Equal(await XAsync(p, 0), await XAsync(p, 1), 2);
        await page.DoAsync(() => p.ClickAsync("#undo"));
        await page.DoAsync(() => p.CheckAsync(Id(0, "pick")));
        await page.DoAsync(() => p.ClickAsync("#twin-y"));
        Assert.Equal(magnets + 1, await p.Locator("[data-magnet]").CountAsync());
        await p.FocusAsync(FormattableString.Invariant($"[data-magnet='{magnets}']"));
        await p.Keyboard.PressAsync("Space");
        await p.WaitForFunctionAsync("() => document.querySelector('.allowed').getAttribute('d')");
        await page.DoAsync(() => p.FillAndLeaveAsync(FormattableString.Invariant($"#magnet-{magnets}-x"), "0"));
        await Assertions.Expect(p.Locator("#fate")).ToHaveTextAsync("would be moved");
        await page.DoAsync(() => p.ClickAsync("#snap"));
        await page.SaysAsync("was moved by");

        await p.CheckAsync("#part-mode");
        double before = await PartAsync(p, "angleDeg");
        await p.FocusAsync("[data-part=turn]");
        await page.DoAsync(() => p.Keyboard.PressAsync("ArrowLeft"));
        Assert.Equal(before + 1, await PartAsync(p, "angleDeg"), 2);
        double at = await PartAsync(p, "x");
        await p.FocusAsync("[data-part=move]");
        await page.DoAsync(() => p.Keyboard.PressAsync("ArrowRight"));
        Assert.Equal(at + 0.5, await PartAsync(p, "x"), 2);
        await p.ClickAsync("#along-worst");
        await Assertions.Expect(p.Locator("#hover")).ToContainTextAsync(" N, ");
        await page.ScanAsync("layout-extras");

        await page.DoAsync(() => p.ClickAsync("[aria-label='Restore as it was']"));
        Assert.Equal(magnets, await p.Locator("[data-magnet]").CountAsync());
        Assert.Equal(before, await PartAsync(p, "angleDeg"), 2);
        await Assertions.Expect(p.Locator("#fate")).ToHaveTextAsync("would be made so");
        Assert.Empty(page.Errors);
    }

    private static string Id(int magnet, string what) =>
        string.Create(CultureInfo.InvariantCulture, $"#magnet-{magnet}-{what}");

    private static async Task<double> XAsync(IPage p, int magnet) => await NumberAsync(p, Id(magnet, "x"));

    private static async Task<double> PartAsync(IPage p, string key) => await NumberAsync(p, "#part-" + key);

    private static async Task<double> NumberAsync(IPage p, string field) =>
        double.Parse(await p.InputValueAsync(field), CultureInfo.InvariantCulture);
}
