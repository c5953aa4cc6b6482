using FixtureGen.Model;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Tests.Support;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>
/// Speeds and feeds against the shop's data: the chart has 0.03 to 0.12 mm a tooth at 3 mm and 0.08 to 0.3 mm at 10 mm; the machine's
/// spindle turns 1000 to 24000, its feed ends at 6000 mm/min.
/// </summary>
public sealed class FeedTest
{
    private static string Good { get; } = TestShop.Program(PocketTest.Rings);

    [Theory]
    [InlineData(3, 0.03, 0.12)]
    [InlineData(10, 0.08, 0.3)]
    [InlineData(6.5, 0.055, 0.21)]
    [InlineData(1.5, 0.015, 0.06)]
    [InlineData(20, 0.08, 0.3)]
    public void The_chart_is_read_between_its_rows(double diameter, double least, double most)
    {
        (double low, double high) = FeedChart.Range(TestShop.Material, diameter);
        Assert.Equal(least, low, 12);
        Assert.Equal(most, high, 12);
    }

    [Fact]
    public void A_material_without_a_chart_refuses_no_feed() =>
        Assert.Equal((0, double.MaxValue), FeedChart.Range(TestShop.Material with { ChipLoads = [] }, 6));

    [Theory]
    [InlineData("S24000", 24000, false)]
    [InlineData("S24001", 0, true)]
    [InlineData("S24001", 30000, true)]
    [InlineData("S12001", 12000, true)]
    [InlineData("S12000", 12000, false)]
    [InlineData("S1000", 24000, false)]
    [InlineData("S999", 24000, true)]
    public void The_spindle_keeps_to_the_machines_and_the_tools_speeds(string speed, double toolMost, bool told)
    {
        Job job = TestShop.Job(TestShop.EndMill(1, 6) with { MaxRpm = toolMost });
        Assert.Equal(told, Has(job, Good.Replace("S8000", speed, StringComparison.Ordinal), "spindle-speed"));
    }

    [Theory]
    [InlineData("F6000", false)]
    [InlineData("F6001", true)]
    public void A_feed_keeps_to_the_machines(string feed, bool told) =>
        Assert.Equal(told, Has(PocketTest.Job, Good.Replace("F800", feed, StringComparison.Ordinal), "feed-limit"));

    /// <summary>At 6 mm the chart says 0.0514 to 0.1971: rubbing is under three tenths of the least, 0.0154 mm, which is still a chip; two teeth, 8000 a minute.</summary>
    [Theory]
    [InlineData("F248", false)]
    [InlineData("F245", true)]
    [InlineData("F3210", false)]
    [InlineData("F3230", true)]
    public void A_chip_is_neither_dust_nor_too_thick(string feed, bool told) =>
        Assert.Equal(told, Has(PocketTest.Job, Good.Replace("F800", feed, StringComparison.Ordinal), "chip-load"));

    [Fact]
    public void Over_ground_that_is_cut_already_no_feed_is_too_slow() =>
        Assert.False(Has(PocketTest.Job, TestShop.Program(PocketTest.Rings + "\nG1 Y50. F100."), "chip-load"));

    /// <summary>The tool's own figures come before the chart, in their own kind of material only.</summary>
    [Theory]
    [InlineData(true, 0.06, 0.5, true)]
    [InlineData(true, 0.001, 0.5, false)]
    [InlineData(true, 0.001, 0.04, true)]
    [InlineData(false, 0.06, 0.5, false)]
    public void A_tools_own_chip_load_comes_first(bool plastic, double least, double most, bool told)
    {
        Tool tool = TestShop.EndMill(1, 6) with { ChipLoads = [new OwnChipLoad(plastic, least, most)] };
        string slower = Good.Replace("F800", least > 0.01 ? "F280" : "F800", StringComparison.Ordinal);
        Assert.Equal(told, Has(TestShop.Job(tool), slower, "chip-load"));
    }

    /// <summary>A face mill is asked by the facing chart: its chip where the end mills' chart has another, and its own greatest speed.</summary>
    [Theory]
    [InlineData(0.04, 0.06, 400, false)]
    [InlineData(0.01, 0.03, 400, true)]
    [InlineData(0.04, 0.06, 140, true)]
    public void A_face_mill_runs_by_the_facing_chart(double least, double most, double speed, bool told)
    {
        Tool face = TestShop.EndMill(1, 6) with { Kind = ToolKind.FaceMill };
        Job job = TestShop.Job(face);
        Material facing = job.BlockMaterial with { Facing = new FaceChart(10, speed, least, most) };
        bool found =
            Has(job with { BlockMaterial = facing }, Good, "chip-load")
            || Has(job with { BlockMaterial = facing }, Good, "surface-speed");
        Assert.Equal(told, found);
    }

    /// <summary>Down a ramp or straight down the tool's and the material's steepest hold, whichever is less; 0 says none.</summary>
    [Theory]
    [InlineData(4.09, 30, false)]
    [InlineData(4.05, 30, true)]
    [InlineData(30, 4.05, true)]
    [InlineData(0, 4.09, false)]
    [InlineData(0, 4.05, true)]
    [InlineData(4.09, 0, false)]
    public void A_ramp_keeps_to_the_tools_and_the_materials_angle(double tool, double material, bool told)
    {
        // 1.5 mm down over 20 mm, less what heights are rounded by: 4.272 degrees, of which 0.2 are slack
        Job job = TestShop.Job(TestShop.EndMill(1, 6) with { MaxRampDeg = tool }) with
        {
            BlockMaterial = TestShop.Material with { MaxRampDeg = material },
        };
        Assert.Equal(told, Has(job, Good, "ramp-steep"));
    }

    [Theory]
    [InlineData(true, 90, false)]
    [InlineData(false, 90, true)]
    [InlineData(true, 88, true)]
    public void Only_a_centre_cutter_that_may_go_straight_down_does(bool centre, double ramp, bool told)
    {
        Job job = TestShop.Job(TestShop.EndMill(1, 6, centre) with { MaxRampDeg = ramp });
        string text = Good.Replace("G1 X60. Z18.5", "G1 Z18.5", StringComparison.Ordinal);
        Assert.Equal(told, Has(job, text, "plunge"));
    }

    private static bool Has(Job job, string text, string code) =>
        TestShop.Judge(job, PocketTest.Design, text).Findings.Any(f => f.Code == code);
}
