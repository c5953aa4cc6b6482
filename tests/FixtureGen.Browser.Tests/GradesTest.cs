using System.Globalization;
using Microsoft.Playwright;
using Xunit;

namespace FixtureGen.Browser.Tests;

/// <summary>
/// The grades of the path by the relative luminance and contrast of WCAG 2.1 (definitions; 1.4.11 asks 3 : 1 of graphics):
/// they can be told on a grey print, and none is lost against the paper.
/// </summary>
public sealed class GradesTest
{
    [Theory]
    [InlineData(ColorScheme.Light)]
    [InlineData(ColorScheme.Dark)]
    public async Task Grades_fade_evenly_in_grey_and_thickness_and_stay_visible(ColorScheme scheme)
    {
        await using LayoutPage page = await LayoutPage.OpenAsync("label-clip", scheme);
        string[] colours = await page.Page.EvaluateAsync<string[]>(
            "[...document.querySelectorAll('#legend .grade')].map((e) => getComputedStyle(e).stroke)"
        );
        double[] widths = await page.Page.EvaluateAsync<double[]>(
            "[...document.querySelectorAll('#legend .grade')].map((e) => Number(e.getAttribute('stroke-width')))"
        );
        double paper = Luminance(
            await page.Page.EvaluateAsync<string>("getComputedStyle(document.body).backgroundColor")
        );
        double[] contrasts = [.. colours.Select(c => Contrast(Luminance(c), paper))];
        Assert.Equal(8, contrasts.Length);
        Assert.All(contrasts, c => Assert.InRange(c, 3, 21));
        for (int i = 1; i < contrasts.Length; i++)
        {
            Assert.InRange(contrasts[i - 1] / contrasts[i], 1.15, 2);
            Assert.True(widths[i] < widths[i - 1]);
        }
    }

    private static double Contrast(double a, double b) => (Math.Max(a, b) + 0.05) / (Math.Min(a, b) + 0.05);

    private static double Luminance(string rgb)
    {
        double[] parts =
        [
            .. rgb[(rgb.IndexOf('(', StringComparison.Ordinal) + 1)..^1]
                .Split(',')
                .Select(p => double.Parse(p, CultureInfo.InvariantCulture) / 255)
                .Select(c => c <= 0.03928 ? c / 12.92 : Math.Pow((c + 0.055) / 1.055, 2.4)),
        ];
        return (0.2126 * parts[0]) + (0.7152 * parts[1]) + (0.0722 * parts[2]);
    }
}
