using FixtureGen.Model;
using FixtureGen.Shop.Files;
using FixtureGen.Shop.Jobs;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Shop;

/// <summary>Shop files that are each well written and cannot go together.</summary>
public sealed class ShopFitTest
{
    [Theory]
    [InlineData("bolt = \"screw-1-4-20\"", "bolt = \"screw-m6\"", "6 mm does not fit 'bolt-1'", "6.35 mm")]
    [InlineData("pin = \"pin-1-4\"", "pin = \"pin-6mm\"", "6.008 mm does not fit 'pin-round'", "6.35 mm")]
    public void A_fastener_that_does_not_go_into_the_plate_is_refused(
        string right,
        string wrong,
        string says,
        string size
    )
    {
        string text = DemoShop.PlainJob().Replace(right, wrong, StringComparison.Ordinal);

        Finding f = JobReader.Read(text, "outlines/x.toml", DemoShop.Files).Findings.Single();

        Assert.Equal("shop-contradiction", f.Code);
        Assert.StartsWith("outlines/x.toml:", f.Where, StringComparison.Ordinal);
        Assert.Contains(says, f.Message, StringComparison.Ordinal);
        Assert.Contains(size, f.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("thickness = 1.0", "thickness = 0.4", "The relief of 'main' is 12.7 mm deep, the plate 10.16 mm thick")]
    [InlineData("thickness = 1.0", "thickness = 0.375", "A groove of port 'main' is 9.525 mm deep")]
    [InlineData("relief_diameter = 0.42", "relief_diameter = 0.2", "5.08 mm wide, less than its hole of 6.35 mm")]
    public void A_plate_thinner_than_its_own_bores_is_refused(string right, string wrong, string says)
    {
        string text = Master().Replace(right, wrong, StringComparison.Ordinal);

        Stage<PlateFile> stage = PlateReader.Read(text, "plates/p.toml", "p");

        Assert.Null(stage.Value);
        Assert.Contains(
            stage.Findings,
            f => f.Code == "shop-contradiction" && f.Message.Contains(says, StringComparison.Ordinal)
        );
    }

    /// <summary>300 lbf.in on a 1/4-20 screw: 6000 lbf (T = K F d), 1301 N/mm2 in 0.0318 in2, past the proof stress of class 12.9.</summary>
    [Fact]
    public void A_torque_that_strains_the_screw_is_refused()
    {
        string text = DemoShop
            .Files.Find("fasteners", "screw-1-4-20")!
            .Value.Text.Replace("torque = 10 ", "torque = 300 ", StringComparison.Ordinal);

        Stage<Screw> stage = FastenerReader.ReadScrew(text, "fasteners/s.toml", "s");

        Finding f = Assert.Single(stage.Findings);
        Assert.Null(stage.Value);
        Assert.Contains("26689 N, 1301 N/mm2", f.Message, StringComparison.Ordinal);
        Assert.Contains("at most 19 N.m", f.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void A_bare_length_in_a_job_without_units_is_asked_about_and_a_stated_one_is_not()
    {
        string text = DemoShop.PlainJob(more: "[rules]\nland = 3\nwall = \"3 mm\"");
        string without = text.Replace("units = \"mm\"", "", StringComparison.Ordinal);

        Stage<Job> stage = JobReader.Read(without, "outlines/x.toml", DemoShop.Files);

        Assert.NotEqual(text, without);
        Assert.Null(stage.Value);
        Assert.All(stage.Findings, f => Assert.Equal("toml-no-unit", f.Code));
        Assert.Contains(stage.Findings, f => f.Message.Contains("'rules.land' is a bare 3", StringComparison.Ordinal));
        Assert.DoesNotContain(stage.Findings, f => f.Message.Contains("wall", StringComparison.Ordinal));
    }

    private static string Master() => DemoShop.Files.Find("plates", "master")!.Value.Text;
}
