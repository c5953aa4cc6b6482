using FixtureGen.Cutting;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Published;

public sealed class CuttingTables
{
    // Machinery's Handbook chain worked in inches: D, teeth, chip load, ap, ae; kc N/mm2; peak tangential force N.
    [Theory]
    [InlineData(0.25, 1, 0.006, 0.093, 0.25, 100, 36.00)]
    [InlineData(0.125, 1, 0.003, 0.060, 0.125, 100, 11.61)]
    [InlineData(0.25, 2, 0.008, 0.25, 0.125, 75, 96.77)]
    [InlineData(0.25, 2, 0.002, 0.125, 0.125, 700, 112.90)]
    [InlineData(0.375, 3, 0.003, 0.1875, 0.15, 700, 248.90)]
    public void Worked_chain(double diameter, int teeth, double fz, double ap, double ae, double kc, double peak)
    {
        Tool tool = HoldingShop.Cutter(diameter * 25.4) with { Flutes = teeth };
        Material material = HoldingShop.Plastic with { SpecificForceMax = kc };
        CutForce force = CuttingForce.Peak(tool, material, ap * 25.4, ae * 25.4, fz * 25.4, 1);
        Assert.Equal(peak, force.Tangential, 0.006);
    }

    // Radial chip thinning by a = ae/D.
    [Theory]
    [InlineData(0.02, 3.5714)]
    [InlineData(0.05, 2.2942)]
    [InlineData(0.10, 1.6667)]
    [InlineData(0.20, 1.2500)]
    [InlineData(0.30, 1.0911)]
    [InlineData(0.40, 1.0206)]
    [InlineData(0.50, 1.0000)]
    public void Chip_thinning(double a, double factor)
    {
        Assert.Equal(factor, CuttingForce.ChipThinning(a), 6e-5);
        Tool tool = HoldingShop.Cutter(10);
        CutForce force = CuttingForce.Peak(tool, HoldingShop.Plastic, 1, 10 * a, 0.1, 1);
        Assert.Equal(0.1 / factor, force.ChipThickness, 1e-5);
    }
}
