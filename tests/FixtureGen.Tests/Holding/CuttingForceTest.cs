using FixtureGen.Cutting;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

/// <summary>Directions of an edge's force and what dullness and helix do to it, worked by hand.</summary>
public sealed class CuttingForceTest
{
    private static CutForce Peak(HelixDirection helix, double dull) =>
        CuttingForce.Peak(
            HoldingShop.Cutter(6) with
            {
                Helix = helix,
                HelixAngleDeg = 30,
            },
            HoldingShop.Plastic with
            {
                SpecificForceMax = 80,
            },
            2,
            6,
            0.1,
            dull
        );

    // 80 N/mm2 on 2 mm times 0.1 mm, half as much again for a dull edge; a helix of 30 deg pulls with 1/sqrt 3 of it.
    [Theory]
    [InlineData(HelixDirection.Up, 1, 16, 9.237604)]
    [InlineData(HelixDirection.Down, 1, 16, -9.237604)]
    [InlineData(HelixDirection.Straight, 1, 16, 0)]
    [InlineData(HelixDirection.Up, 1.5, 24, 13.856406)]
    public void Force_goes_with_dullness_and_its_axial_part_with_the_helix(
        HelixDirection helix,
        double dull,
        double tangential,
        double axial
    )
    {
        CutForce force = Peak(helix, dull);
        Assert.Equal(tangential, force.Tangential, 1e-9);
        Assert.Equal(tangential / 2, force.Radial, 1e-9);
        Assert.Equal(axial, force.Axial, 1e-6);
        Assert.Equal(tangential * Math.Sqrt(1.25), force.Shear, 1e-9);
    }

    // Travel along X, clockwise seen from above: the front edge moves to -Y, and pushes the work ahead of it to +X.
    [Theory]
    [InlineData(0, 8, -16)]
    [InlineData(60, 8.928203, -0.535898)]
    [InlineData(-60, -4.928203, -7.464102)]
    [InlineData(90, 0, 0)]
    [InlineData(150, 0, 0)]
    public void An_edge_pushes_along_its_motion_and_outwards(double deg, double x, double y)
    {
        Point2 on = Peak(HelixDirection.Straight, 1).On(new Point2(1, 0), deg * Math.PI / 180);
        Assert.Equal(x, on.X, 1e-6);
        Assert.Equal(y, on.Y, 1e-6);
    }
}
