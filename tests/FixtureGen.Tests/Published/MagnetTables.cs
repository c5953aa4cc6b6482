using FixtureGen.Holding.Magnets;
using Xunit;

namespace FixtureGen.Tests.Published;

public sealed class MagnetTables
{
    private static readonly Disc Half = new(6.35, 6.35, 1.3);

    // Numeric references of a public academic test suite (magcode, testcyl01): Br 1.3 T, middles 50 mm apart.
    [Theory]
    [InlineData(20, 40, 20, 40, 265.537)]
    [InlineData(20, 40, 15, 30, 111.490)]
    [InlineData(20, 20, 20, 10, 18.953)]
    public void Published_pairs(double r1, double h1, double r2, double h2, double newton)
    {
        double gap = 50 - ((h1 + h2) / 2);
        double pull = MagnetPair.CoaxialN(new Disc(r1, h1, 1.3), new Disc(r2, h2, 1.3), gap);
        Assert.Equal(newton, pull, newton * 1e-4);
    }

    // Surface-charge integration of equal pairs, Br 1.3 T, agreeing with the Bessel form of Vokoun et al, JMMM 321 (2009)
    // 3758; rows: diameter, length, gap, N.
    [Theory]
    [InlineData(12.7, 6.35, 0, 53.586)]
    [InlineData(12.7, 6.35, 0.25, 45.7704)]
    [InlineData(12.7, 6.35, 0.5, 40.8289)]
    [InlineData(12.7, 6.35, 1, 33.6565)]
    [InlineData(12.7, 6.35, 2, 24.2867)]
    [InlineData(12.7, 6.35, 3, 18.2179)]
    [InlineData(12.7, 6.35, 4, 13.9761)]
    [InlineData(12.7, 6.35, 6, 8.6002)]
    [InlineData(12.7, 6.35, 10, 3.6819)]
    [InlineData(10, 5, 0, 33.224)]
    [InlineData(10, 5, 1, 18.9990)]
    [InlineData(10, 5, 3, 9.1003)]
    [InlineData(10, 5, 10, 1.3826)]
    [InlineData(12.7, 3.175, 0.25, 26.6723)]
    [InlineData(12.7, 3.175, 2.5, 10.4675)]
    [InlineData(12.7, 3.175, 8, 2.4204)]
    [InlineData(10, 3, 0.5, 15.8950)]
    [InlineData(10, 3, 2, 7.8978)]
    [InlineData(10, 3, 6, 2.0847)]
    [InlineData(6.35, 6.35, 0.5, 12.0610)]
    [InlineData(6.35, 6.35, 2, 5.5027)]
    [InlineData(6.35, 6.35, 6, 1.1804)]
    public void Equal_pairs_over_the_gap(double diameter, double length, double gap, double newton)
    {
        Disc disc = new(diameter / 2, length, 1.3);
        Assert.Equal(newton, MagnetPair.CoaxialN(disc, disc, gap), newton * 1e-3);
    }

    // The image of a disc in thick steel stands twice the gap away.
    [Theory]
    [InlineData(0.5, 33.656)]
    [InlineData(1, 24.287)]
    [InlineData(1.5, 18.218)]
    [InlineData(3, 8.600)]
    public void Thick_steel(double gap, double newton) =>
        Assert.Equal(newton, MagnetPair.CoaxialN(Half, Half, 2 * gap), newton * 1e-3);

    // Lateral offset of the 12.7 x 6.35 pair at a 2 mm gap (numeric surface-charge integration): pull and restoring force.
    [Theory]
    [InlineData(0, 24.287, 0)]
    [InlineData(0.5, 24.095, 1.822)]
    [InlineData(1, 23.541, 3.556)]
    [InlineData(2, 21.587, 6.526)]
    [InlineData(3, 18.935, 8.705)]
    [InlineData(6.35, 8.948, 11.107)]
    public void Offset_pair(double offset, double pull, double restoring)
    {
        (double z, double x) = MagnetPair.OffsetN(Half, Half, 2, offset);
        Assert.Equal(pull, z, 0.012);
        Assert.Equal(-restoring, x, 0.012);
    }

    // Field on the axis, Br 1.3 T, mT: the standard closed form.
    [Theory]
    [InlineData(12.7, 6.35, 0, 459.619)]
    [InlineData(12.7, 6.35, 1, 390.744)]
    [InlineData(12.7, 6.35, 6, 131.650)]
    [InlineData(12.7, 6.35, 30, 4.393)]
    [InlineData(12.7, 6.35, 100, 0.151)]
    [InlineData(10, 5, 0, 459.619)]
    [InlineData(10, 5, 3, 216.777)]
    [InlineData(10, 5, 20, 6.785)]
    [InlineData(10, 5, 50, 0.556)]
    public void Field_on_the_axis(double diameter, double length, double z, double millitesla)
    {
        Disc disc = new(diameter / 2, length, 1.3);
        Assert.Equal(millitesla, 1000 * MagnetField.OnAxisT(disc, z), 6e-4);
        Assert.Equal(millitesla, 1000 * MagnetField.AtT(disc, 1e-6, z + (length / 2)).Axial, 6e-4);
    }

    // No current runs above the disc, so its field goes on smoothly over the radius; within it the rim's current makes it jump.
    [Theory]
    [InlineData(1)]
    [InlineData(4)]
    [InlineData(40)]
    public void Field_over_the_rim_is_the_mean_of_both_sides(double height)
    {
        (double radial, double axial) = MagnetField.AtT(Half, Half.Radius, height);
        (double radialIn, double axialIn) = MagnetField.AtT(Half, Half.Radius - 1e-4, height);
        (double radialOut, double axialOut) = MagnetField.AtT(Half, Half.Radius + 1e-4, height);
        Assert.Equal((axialIn + axialOut) / 2, axial, 1e-6);
        Assert.Equal((radialIn + radialOut) / 2, radial, 1e-6);
    }

    // Distance to 0.5 mT (5 G, the limit of no concern with implanted electronics, FDA as quoted) and 1 mT; mm.
    [Theory]
    [InlineData(12.7, 6.35, 0.5, 65.9)]
    [InlineData(12.7, 6.35, 1.0, 51.6)]
    [InlineData(10, 5, 0.5, 51.9)]
    [InlineData(10, 5, 1.0, 40.6)]
    public void Implant_distance(double diameter, double length, double millitesla, double mm) =>
        Assert.Equal(mm, MagnetField.DistanceTo(new Disc(diameter / 2, length, 1.3), millitesla / 1000, 1), 0.06);

    [Fact]
    public void Eight_magnets_reach_twice_as_far() => Assert.Equal(132, MagnetField.DistanceTo(Half, 0.0005, 8), 0.5);

    // Far away two discs are point dipoles: F = 3 mu0 m1 m2 / (2 pi z^4), and side by side they push with half of that.
    [Fact]
    public void Far_pairs_are_dipoles()
    {
        double moment = 1.3 / (4e-7 * Math.PI) * Math.PI * 6.35 * 6.35 * 6.35 * 1e-9;
        double axial = 3 * 4e-7 * Math.PI * moment * moment / (2 * Math.PI * Math.Pow(0.2, 4));
        Assert.Equal(axial, MagnetPair.CoaxialN(Half, Half, 200 - 6.35), axial * 0.01);
        (double pull, double push) = MagnetPair.OffsetN(Half, Half, -6.35, 200);
        Assert.Equal(axial / 2, push, axial * 0.01);
        Assert.Equal(0, pull, axial * 0.001);
    }

    // Stand-alone permeance of discs by length over diameter (Sato and Ishii).
    [Theory]
    [InlineData(0.25, 0.56)]
    [InlineData(0.5, 1.13)]
    [InlineData(0.7, 1.58)]
    [InlineData(1.0, 2.26)]
    public void Permeance(double ratio, double coefficient) =>
        Assert.Equal(coefficient, new Disc(5, 10 * ratio, 1.3).Permeance, 0.006);
}
