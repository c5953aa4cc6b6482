using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Output.Papers;
using Xunit;

namespace FixtureGen.Tests.Output;

public sealed class FirstArticleTest
{
    /// <summary>ISO 2768-1:1989, table 1, class m; the values as five secondary tables print them.</summary>
    [Theory]
    [InlineData(4, 0.1)]
    [InlineData(6, 0.1)]
    [InlineData(6.01, 0.2)]
    [InlineData(30, 0.2)]
    [InlineData(84.93, 0.3)]
    [InlineData(120.5, 0.5)]
    [InlineData(400, 0.5)]
    [InlineData(443, 0.8)]
    public void Tolerances_are_the_standards(double size, double tolerance) =>
        Assert.Equal(tolerance, FirstArticle.Tolerance(size));

    [Fact]
    public void A_plate_with_a_hole_and_a_slot_lists_what_a_caliper_measures()
    {
        Part part = DemoPart(Box(10, 20, 110, 80), [Contours.Circle(new(30, 40), 2.5), Box(60, 30, 80, 36)]);
        Assert.Equal(
            [
                new("outline wide", 100, 0.3),
                new("outline high", 60, 0.3),
                new("hole 1 diameter", 5, 0.1),
                new("hole 1 at X", 20, 0.2),
                new("hole 1 at Y", 20, 0.2),
                new("cutout 2 wide", 20, 0.2),
                new("cutout 2 high", 6, 0.1),
                new("cutout 2 at X", 60, 0.3),
                new("cutout 2 at Y", 13, 0.2),
            ],
            FirstArticle.Sizes(part)
        );
    }

    private static Contour Box(double x0, double y0, double x1, double y1) =>
        Contours.FromPoints([new(x0, y0), new(x1, y0), new(x1, y1), new(x0, y1)]);

    private static Part DemoPart(Contour outer, Contour[] cutouts) => new(outer, [.. cutouts], [], [], [], []);
}
