using FixtureGen.Model;
using FixtureGen.Shop.Files;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Published;

/// <summary>The shipped shop files against the published tables; inches times 25.4.</summary>
public sealed class ShopTablesTest
{
    // ASME B18.3 head, ASME B18.2.8 table 1a normal clearance (.281 to .290), B18.21.1-2009 table 1a washer
    // (.625 +.015, .065 at most .080); counterbore takes the washer; stress area .0318 in2 (from memory).
    [Fact]
    public void Quarter_inch_screw()
    {
        Screw s = Read("fasteners", "screw-1-4-20", FastenerReader.ReadScrew);

        Assert.Equal(0.375, s.HeadDiameter / 25.4, 6);
        Assert.Equal(0.250, s.HeadHeight / 25.4, 6);
        Assert.Equal(0.120, s.KeyEngagement / 25.4, 6);
        Assert.InRange(s.ClearanceHole / 25.4, 0.281, 0.290);
        Assert.Equal(0.640, s.WasherDiameter / 25.4, 6);
        Assert.Equal(0.080, s.WasherThickness / 25.4, 6);
        Assert.True(s.Counterbore > s.WasherDiameter);
        Assert.Equal(0.0318, s.StressArea / 645.16, 6);
        // T = K D F (K 0.20): 10 lbf.in gives 200 lbf; HDPE bears that for long under the washer's ring (30 pressed 16 N/mm2, which creeps away)
        double force = s.TorqueNm * 1000 / (s.NutFactor * s.Body);
        double ring = Math.PI / 4 * ((15.875 * 15.875) - (s.ClearanceHole * s.ClearanceHole));
        Assert.Equal(200 * 4.44822, force, 0);
        Assert.True(force / ring < 6);
    }

    // ISO 4762 head 10.22 knurled, 6.0 high, key engagement 3.0; ISO 273 medium 6.6; ISO 7089 washer 12 x 1.8 at most.
    [Fact]
    public void M6_screw()
    {
        Screw s = Read("fasteners", "screw-m6", FastenerReader.ReadScrew);

        Assert.Equal(10.22, s.HeadDiameter, 6);
        Assert.Equal(6.6, s.ClearanceHole, 6);
        Assert.Equal((12.0, 1.8), (s.WasherDiameter, s.WasherThickness));
    }

    // ASME B18.8.2-2000: .2501 to .2503; slip hole .2505 to .2510 (common practice, no source). A .2500 hole takes none.
    [Fact]
    public void Quarter_inch_pin_slips_and_stays_close()
    {
        DowelPin p = Read("fasteners", "pin-1-4", FastenerReader.ReadPin);

        Assert.InRange(p.Diameter / 25.4, 0.2501, 0.2503);
        Assert.InRange(p.SlipHole / 25.4, 0.2505, 0.2510);
    }

    // ISO 8734 m6: 6.004 to 6.012; bored on 10 to 25 um over the pin.
    [Fact]
    public void Six_millimetre_pin_slips()
    {
        DowelPin p = Read("fasteners", "pin-6mm", FastenerReader.ReadPin);

        Assert.InRange(p.Diameter, 6.004, 6.012);
        Assert.InRange(p.SlipHole - p.Diameter, 0.010, 0.025);
    }

    // Sponge: groove 1.15 to 1.3 sections wide, 0.65 to 0.75 deep (common practice, no source); bend radius at least
    // three sections on the inside wall (published general rule); ASTM D1056 grade 1 is 2 to 5 psi at 25 %, grade 2 5 to 9.
    [Theory]
    [InlineData("sponge-3-32", 2, 5)]
    [InlineData("sponge-1-8", 2, 5)]
    [InlineData("sponge-3-16", 5, 9)]
    public void Sponge_cord(string name, double fromPsi, double toPsi)
    {
        Gasket g = Read("gaskets", name, GasketReader.Read);

        Assert.InRange(g.GrooveWidth / g.Section, 1.15, 1.3);
        Assert.InRange(g.GrooveDepth / g.Section, 0.65, 0.75);
        Assert.True(g.InsideBendRadius >= 3 * g.Section);
        Assert.Equal(fromPsi * 6.894757, g.P25MinKPa, 1);
        Assert.Equal(toPsi * 6.894757, g.P25MaxKPa, 1);
    }

    // Solid: 25 % squeeze, fill at most 85 % (design rule): width at least pi d^2 / 4 / (0.85 depth).
    [Fact]
    public void Solid_cord()
    {
        Gasket g = Read("gaskets", "solid-1-8", GasketReader.Read);

        Assert.Equal(0.25, 1 - (g.GrooveDepth / g.Section), 2);
        Assert.True(Math.PI * g.Section * g.Section / 4 / (g.GrooveWidth * g.GrooveDepth) <= 0.85);
    }

    // Three trade grade tables: N42 Br 1280 to 1320 mT, 80 C.
    [Theory]
    [InlineData("disc-12-7x6-35")]
    [InlineData("disc-10x5")]
    [InlineData("disc-10x3")]
    [InlineData("disc-6-35x6-35")]
    public void Disc(string name)
    {
        MagnetSpec m = Read("magnets", name, MagnetReader.Read);

        Assert.Equal((1.28, 1.32, 80.0), (m.BrMinT, m.BrMaxT, m.MaxTemperatureC));
    }

    // Every groove of the shipped cords has a cutter of its width in the rack.
    [Fact]
    public void Rack_has_a_cutter_for_every_groove()
    {
        ToolRack rack = Read("tools", "rack", ToolReader.Read);
        foreach (string cord in DemoShop.Files.List("gaskets"))
        {
            double width = Read("gaskets", cord, GasketReader.Read).GrooveWidth;
            Assert.Contains(rack.Tools, t => t.Kind == ToolKind.EndMill && Math.Abs(t.Diameter - width) < 1e-6);
        }
    }

    private static T Read<T>(string kind, string name, Func<string, string, string, Stage<T>> read)
    {
        (string path, string text) = DemoShop.Files.Find(kind, name)!.Value;
        Stage<T> stage = read(text, path, name);
        Assert.True(stage.Ok, string.Join('\n', stage.Findings));
        return stage.Value!;
    }
}
