using Microsoft.Playwright;
using Xunit;

namespace FixtureGen.Browser.Tests;

/// <summary>The shop's owner on the page: a folder without a shop, a value typed wrong and right, what it would change, the save.</summary>
public sealed class ShopPageTest
{
    private const string Job = "label-clip";

    [Fact]
    public async Task A_shop_is_laid_a_cutter_is_changed_tried_and_saved()
    {
        await using LayoutPage page = await LayoutPage.ServeAsync(
            Job,
            job => Directory.Move(Templates(Up(Up(job))), Path.Combine(Up(Up(job)), "elsewhere"))
        );
        IPage p = page.Page;
        await p.Locator("#view-begin").WaitForAsync();
        await page.ScanAsync("begin");
        Assert.False(Directory.Exists(Templates(page.Folder)));
        await p.ClickAsync("#shop-begin");
        await p.ClickAsync("a[data-view=shop]");
        await p.ClickAsync("[data-file='tools/rack']");
        string path = Path.Combine(Templates(page.Folder), "tools", "rack.toml");
        string before = await File.ReadAllTextAsync(path, TestContext.Current.CancellationToken);
        await p.FillAsync("[id='shop-tool[0].max_rpm']", "9");
        await Assertions.Expect(p.Locator("#shop-findings")).ToContainTextAsync("'tool[0].max_rpm'");
        await Assertions.Expect(p.Locator("[data-key='tool[0].max_rpm']")).ToHaveClassAsync("bad");
        await p.FillAsync("[id='shop-tool[0].max_rpm']", "9000");
        await p.Keyboard.PressAsync("Tab");
        await Assertions.Expect(p.Locator("#shop-saved")).ToHaveTextAsync("unsaved changes");
        await p.ClickAsync("#shop-undo");
        await Assertions.Expect(p.Locator("[id='shop-tool[0].max_rpm']")).ToHaveValueAsync("24000");
        await p.ClickAsync("#shop-redo");
        await Assertions.Expect(p.Locator("[id='shop-tool[0].max_rpm']")).ToHaveValueAsync("9000");
        p.Dialog += async (_, leaving) => await leaving.AcceptAsync();
        await p.ReloadAsync();
        await page.SaysAsync("taken up again");
        await p.ClickAsync("#shop-try");
        await page.SaysAsync("1 would be made");
        await Assertions.Expect(p.Locator("#run-title")).ToHaveTextAsync("What tools/rack would change");
        await page.ShotAsync("shop");
        Assert.Equal(before, await File.ReadAllTextAsync(path, TestContext.Current.CancellationToken));
        await p.ClickAsync("#shop-save");
        await page.SaysAsync("Saved to templates/tools/rack.toml");
        string saved = await File.ReadAllTextAsync(path, TestContext.Current.CancellationToken);
        Assert.Equal("max_rpm = 9000", Assert.Single(saved.Split('\n').Except(before.Split('\n'))));
        await File.WriteAllTextAsync(path, before, TestContext.Current.CancellationToken);
        Assert.Contains(
            "nothing can be saved over it",
            await page.AlarmAsync("shop-changed"),
            StringComparison.Ordinal
        );
        await p.ClickAsync("[data-alarm=shop-changed] button");
        await page.AlarmAsync("shop-changed", stands: false);
        await Assertions.Expect(p.Locator("[id='shop-tool[0].max_rpm']")).ToHaveValueAsync("24000");
        await p.ClickAsync("[data-file='plates/master']");
        await p.Locator("#shop-picture svg").WaitForAsync();
        await page.ScanAsync("plate");
        Assert.Empty(page.Errors);
    }

    private static string Templates(string folder) => Path.Combine(folder, "templates");

    private static string Up(string path) => Path.GetDirectoryName(path)!;
}
