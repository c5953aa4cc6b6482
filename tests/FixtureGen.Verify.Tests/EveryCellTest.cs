using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>No cell is sampled away, and what a cutter left too high is told with its height, however little.</summary>
public sealed class EveryCellTest
{
    /// <summary>It was told as 0: the cutter had gone over it within the limit.</summary>
    [Theory]
    [InlineData("G1 X40. Z17.05")]
    [InlineData("G1 X40. Z17.09")]
    public void Floor_that_stands_a_little_too_high_is_told_with_its_amount(string spoiled)
    {
        string text = TestShop.Program(PocketTest.Rings.Replace("G1 X40. Z17.", spoiled, StringComparison.Ordinal));
        VerifyResult result = TestShop.Judge(PocketTest.Job, PocketTest.Design, text);
        double high = double.Parse(spoiled[^4..], System.Globalization.CultureInfo.InvariantCulture) - 7;
        Assert.Equal(high, result.MaxLeftoverMm, 1e-4);
    }

    /// <summary>A magnet's pocket sets a height: 0.09 mm too high lifts the disc to the shell, and is no left-over like others.</summary>
    [Fact]
    public void Fit_of_a_floor_is_its_own()
    {
        FixtureDesign pocket = TestShop.Design(
            TestShop.Pocket("m", FeatureKind.MagnetPocket, Setup.Top, TestShop.Rounded(30, 40, 70, 60, 4), 20, 17)
        );
        string high = TestShop.Program(
            PocketTest.Rings.Replace("G1 X40. Z17.", "G1 X40. Z17.09", StringComparison.Ordinal)
        );
        VerifyResult result = TestShop.Judge(PocketTest.Job, pocket, high);
        Finding finding = Assert.Single(result.Findings.Where(f => f.Code == "left-over").Take(1));
        Assert.Contains("0.09 mm stand above the design", finding.Message, StringComparison.Ordinal);
        Assert.Contains("0.05 mm is allowed", finding.Message, StringComparison.Ordinal);
        Assert.True(TestShop.Judge(PocketTest.Job, pocket, TestShop.Program(PocketTest.Rings)).Ok);
    }

    /// <summary>The whole pocket 0.05 mm too deep is 80,000 cells; one plunge of a pointed cutter in it is 0.45 mm deeper still.</summary>
    [Fact]
    public void Deepest_of_very_many_cells_is_told()
    {
        Job job = TestShop.Job(TestShop.EndMill(1, 6), TestShop.Cone(2, ToolKind.Engraver, 6, 60, 0.1));
        string deep = PocketTest.Rings.Replace("G1 X40. Z17.", "G1 X40. Z16.95", StringComparison.Ordinal);
        string text = TestShop.Program(
            deep
                + "\nG0 Z30.\nM5\nG53 G0 Z0.\nT2 M6\nS8000 M3\nG0 G43 H2 Z30.\nG0 X51.05 Y50.05\nG0 Z21.\nG1 Z16.5 F100."
        );
        VerifyResult result = TestShop.Judge(job, PocketTest.Design, text);
        Assert.Equal(0.5, result.MaxGougeDepthMm, 1e-3);
    }
}
