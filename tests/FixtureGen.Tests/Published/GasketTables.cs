using FixtureGen.Holding.Seal;
using FixtureGen.Model;
using FixtureGen.Shop.Files;
using Xunit;

namespace FixtureGen.Tests.Published;

public sealed class GasketTables
{
    // O-ring handbook ORD 5700, design chart 4-3 (face seal): section and gland depth limits in inches, squeeze range in %.
    [Theory]
    [InlineData(0.070, 0.003, 0.050, 0.054, 19, 32)]
    [InlineData(0.103, 0.003, 0.074, 0.080, 20, 30)]
    [InlineData(0.139, 0.004, 0.101, 0.107, 20, 30)]
    [InlineData(0.210, 0.005, 0.152, 0.162, 21, 30)]
    [InlineData(0.275, 0.006, 0.201, 0.211, 21, 29)]
    public void Face_seal_squeeze(
        double section,
        double tolerance,
        double depthMin,
        double depthMax,
        double least,
        double most
    )
    {
        Assert.Equal(least, 100 * CordForce.Squeeze(section - tolerance, depthMax), 1.0);
        Assert.Equal(most, 100 * CordForce.Squeeze(section + tolerance, depthMin), 1.0);
    }

    // The same chart's vacuum column: fill at mid limits, (pi W^2 / 4) / (L G), in %.
    [Theory]
    [InlineData(0.070, 0.052, 0.0865, 85.6)]
    [InlineData(0.103, 0.077, 0.1225, 88.3)]
    [InlineData(0.139, 0.104, 0.161, 90.6)]
    [InlineData(0.210, 0.157, 0.2415, 91.4)]
    [InlineData(0.275, 0.206, 0.3115, 92.6)]
    public void Face_seal_fill(double section, double depth, double width, double percent) =>
        Assert.Equal(percent, 100 * GasketReader.Fill(section, depth, width), 0.06);

    // Gent, Rubber Chem. Technol. 31 (1958): modulus from hardness, MPa (values computed from the formula, from memory).
    [Theory]
    [InlineData(30, 1.142)]
    [InlineData(40, 1.690)]
    [InlineData(50, 2.456)]
    [InlineData(60, 3.605)]
    [InlineData(70, 5.521)]
    [InlineData(80, 9.351)]
    public void Modulus_from_hardness(double shoreA, double megapascal) =>
        Assert.Equal(megapascal, CordForce.ModulusMPa(shoreA), 0.0006);

    // Lindley, J. IRI 1 (1967): 1.25 C^1.5 + 50 C^6.
    [Theory]
    [InlineData(0.10, 0.03958)]
    [InlineData(0.15, 0.07319)]
    [InlineData(0.20, 0.11500)]
    [InlineData(0.25, 0.16846)]
    [InlineData(0.30, 0.24185)]
    [InlineData(0.40, 0.52103)]
    public void Line_force_factor(double squeeze, double factor) =>
        Assert.Equal(factor, CordForce.LindleyFactor(squeeze), 6e-6);

    // Published load range of a 0.070 in section of 70 Shore A at 20 %: 5 to 18 lbf/in.
    [Fact]
    public void Solid_cord_lies_in_the_published_load_range() =>
        Assert.InRange(PoundsPerInch(CordForce.SolidNPerMm(0.070 * 25.4, 70, 0.20)), 5, 18);

    // A 1/8 in solid cord at 25 %: 3.5, 5.2, 7.5, 11.0, 16.9 lbf/in from 30 to 70 Shore A (Lindley with Gent).
    [Theory]
    [InlineData(30, 3.5)]
    [InlineData(40, 5.2)]
    [InlineData(50, 7.5)]
    [InlineData(60, 11.0)]
    [InlineData(70, 16.9)]
    public void Eighth_inch_cord(double shoreA, double poundsPerInch) =>
        Assert.Equal(poundsPerInch, PoundsPerInch(CordForce.SolidNPerMm(3.175, shoreA, 0.25)), 0.06);

    // ASTM D1056 grade 2 (5 to 9 psi at 25 %), 1/8 in: 0.63 to 1.1 lbf/in as an upper estimate.
    [Theory]
    [InlineData(5, 0.63)]
    [InlineData(9, 1.13)]
    public void Sponge_cord(double psi, double poundsPerInch) =>
        Assert.Equal(poundsPerInch, PoundsPerInch(CordForce.SpongeNPerMm(3.175, psi * 6.894757, 0.25)), 0.006);

    // 20 in of 1/8 in, 70 Shore A cord at 25 % needs some 337 lbf where 20 inHg on 6 x 4 in gives 235.7: it never seats.
    [Fact]
    public void Solid_cord_can_ask_for_more_than_the_vacuum_has()
    {
        double cord = CordForce.SolidNPerMm(3.175, 70, 0.25) * 20 * Units.MmPerInch;
        double vacuum = Atmosphere.ForceN(20 * Units.KPaPerInHg, 24 * Units.MmPerInch * Units.MmPerInch);
        Assert.Equal(337, cord / 4.4482216, 1.0);
        Assert.True(cord > vacuum);
    }

    private static double PoundsPerInch(double newtonPerMm) => newtonPerMm / 4.4482216 * 25.4;
}
