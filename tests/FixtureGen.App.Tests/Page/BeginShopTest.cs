using System.Net;
using System.Text.Json.Nodes;
using FixtureGen.App.Tests.Support;
using Xunit;

namespace FixtureGen.App.Tests.Page;

/// <summary>A folder without a shop: the page is served, offers one, and lays it only when asked.</summary>
public sealed class BeginShopTest
{
    [Fact]
    public async Task A_shop_is_laid_once_and_only_when_asked()
    {
        await using PageServer page = await PageServer.StartAsync("label-clip", static _ => { });
        string templates = Path.Combine(page.Library.Folder, "templates");
        Directory.Delete(templates, recursive: true);
        JsonNode home = (await page.AskAsync("home", null)).Answer;
        Assert.False((bool)home["shop"]!);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await page.AskAsync("shop", null)).Status);
        Assert.False(Directory.Exists(templates));
        Assert.Equal(HttpStatusCode.OK, (await page.AskAsync("shop-begin", "{}")).Status);
        string laid = Path.Combine(page.Library.Jobs, "templates");
        string[] files = [.. Directory.EnumerateFiles(laid, "*.toml", SearchOption.AllDirectories)];
        Assert.Equal(
            Directory.GetFiles(Path.Combine(Cli.Root, "templates"), "*.toml", SearchOption.AllDirectories).Length,
            files.Length
        );
        Assert.True((bool)(await page.AskAsync("home", null)).Answer["shop"]!);
        Assert.Equal(HttpStatusCode.Conflict, (await page.AskAsync("shop-begin", "{}")).Status);
    }

    [Fact]
    public void A_folder_that_is_not_there_is_said_so()
    {
        using TempLibrary library = new("label-clip");
        Ran ran = Cli.Run(library.Folder, "serve", "nowhere");
        Assert.Equal(1, ran.Exit);
        Assert.Contains("folder-missing", ran.Error, StringComparison.Ordinal);
    }
}
