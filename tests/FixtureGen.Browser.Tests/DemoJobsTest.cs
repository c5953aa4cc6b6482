using System.Globalization;
using System.Text.Json.Nodes;
using Microsoft.Playwright;
using Xunit;

namespace FixtureGen.Browser.Tests;

public sealed class DemoJobsTest
{
    private const int DragSteps = 24;
    private static readonly string[] Factors = ["vacuumOnly", "magnetsStopping", "magnetsOnly", "both"];

    public static TheoryData<string> Jobs =>
        [
            .. Directory
                .EnumerateFiles(Path.Combine(LayoutPage.Root, "outlines"), "*.toml")
                .Select(f => Path.GetFileNameWithoutExtension(f)!)
                .Order(StringComparer.Ordinal),
        ];

    /// <summary>Also keeps the page's own times of a drag, from the question to the drawing, in updates.txt beside the screenshots.</summary>
    [Theory]
    [MemberData(nameof(Jobs))]
    public async Task Page_shows_the_factors_that_check_prints_and_follows_a_drag(string job)
    {
        await using LayoutPage page = await LayoutPage.OpenAsync(job);
        JsonNode check = page.Check();
        foreach (string key in Factors)
        {
            Assert.Equal((double)check["holding"]![key]!["factor"]!, await page.FactorAsync(key), 4);
        }
        double[] times = await DragAsync(page);
        Assert.True(times.Length > 1, "the page follows while the magnet moves");
        string folder = Path.Combine(AppContext.BaseDirectory, "screenshots");
        Directory.CreateDirectory(folder);
        await File.AppendAllTextAsync(
            Path.Combine(folder, "updates.txt"),
            string.Create(
                CultureInfo.InvariantCulture,
                $"{job}: {times.Length} updates, median {At(times, 0.5):0} ms, 95th percentile {At(times, 0.95):0} ms\n"
            ),
            TestContext.Current.CancellationToken
        );
    }

    private static async Task<double[]> DragAsync(LayoutPage page)
    {
        ILocator free = page.Page.Locator("[data-magnet]:not(.locked):not(.drawn)");
        if (await free.CountAsync() == 0)
        {
            await page.DoAsync(() => page.Page.ClickAsync("#add"));
        }
        await page.Page.Locator("#drawing").ScrollIntoViewIfNeededAsync();
        int before = await page.AnswersAsync();
        LocatorBoundingBoxResult box = (await free.First.BoundingBoxAsync())!;
        float x = box.X + (box.Width / 2);
        float y = box.Y + (box.Height / 2);
        await page.Page.Mouse.MoveAsync(x, y);
        await page.Page.Mouse.DownAsync();
        for (int i = 1; i <= DragSteps; i++)
        {
            await page.DoAsync(() => page.Page.Mouse.MoveAsync(x - (i * 0.5f), y + (i * 0.25f)));
        }
        await page.Page.Mouse.UpAsync();
        double[] all = await page.Page.EvaluateAsync<double[]>("import('./state.js').then((m) => m.state.updates)");
        return [.. all.Skip(before).Order()];
    }

    private static double At(double[] sorted, double share) => sorted[(int)((sorted.Length - 1) * share)];
}
