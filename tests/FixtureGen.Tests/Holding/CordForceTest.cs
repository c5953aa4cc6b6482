using FixtureGen.Holding.Seal;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Holding;

/// <summary>The ends of a cord's push, worked by hand from the formulas that CordForce names: section and grade at the end that counts.</summary>
public sealed class CordForceTest
{
    private static Gasket Cord(CordKind kind) =>
        new()
        {
            Name = "cord",
            Kind = kind,
            Section = 4,
            SectionTolerance = 0.3,
            SqueezeRatio = 0.25,
            GrooveWidth = 4.2,
            GrooveDepth = 3,
            InsideBendRadius = 8,
            ShoreA = kind == CordKind.Solid ? 50 : 0,
            P25MinKPa = 35,
            P25MaxKPa = 63,
            CutAllowanceRatio = 0.02,
            FrictionShellOnCord = 0.6,
            Source = "test",
        };

    // Sponge: p25 times section times 3 c / (1 - c), c = 1 - depth / section. Solid of 50 Shore A: 2.4558 MPa times Lindley's factor.
    [Theory]
    [InlineData(CordKind.Sponge, 0, 0.35217)]
    [InlineData(CordKind.Sponge, 0.5, 0.18576)]
    [InlineData(CordKind.Solid, 0, 2.597414)]
    [InlineData(CordKind.Solid, 0.5, 1.081164)]
    [InlineData(CordKind.Solid, 1.3, 0)]
    public void The_hardest_is_the_thickest_cord_of_the_upper_grade(CordKind kind, double lift, double push) =>
        Assert.Equal(push, CordForce.HardestNPerMm(Cord(kind), lift), 1e-6);

    [Theory]
    [InlineData(CordKind.Sponge, 0.09065)]
    [InlineData(CordKind.Solid, 0.955488)]
    public void The_softest_is_the_thinnest_cord_of_the_lower_grade(CordKind kind, double push) =>
        Assert.Equal(push, CordEnd.Softest(Cord(kind)).PushNPerMm(0), 1e-6);
}
