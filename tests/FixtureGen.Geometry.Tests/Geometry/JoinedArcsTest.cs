using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Geometry.Tests;

/// <summary>Arcs that continue each other on one circle but for the last digits of its centre, as drawing programs write ellipses.</summary>
public sealed class JoinedArcsTest
{
    [Theory]
    [InlineData(5)]
    [InlineData(-3)]
    [InlineData(0.7)]
    public void They_are_offset_the_plain_way(double distance)
    {
        const double R = 40;
        double[] turns = [0, 20, 100, 130, 180];
        Point2[] at = [.. turns.Select(t => Point2At(t * Math.PI / 180, R))];
        Segment[] arcs =
        [
            .. Enumerable
                .Range(0, 4)
                .Select(i => Segment.Arc(at[i], at[i + 1], new Point2(i * 4e-13, i * -3e-13), true)),
        ];
        // begun within the round, so that its last arc goes on into its first
        Contour half = new([arcs[1], arcs[2], arcs[3], Segment.Line(at[4], at[0]), arcs[0]]);
        Kernel kernel = new(Tolerances.House);

        Region grown = Assert.Single(kernel.Offset(Region.From(half), distance));

        Assert.Empty(kernel.Repairs);
        double area =
            (Math.PI * R * R / 2)
            + (distance * ((Math.PI * R) + (2 * R)))
            + (distance > 0 ? Math.PI * distance * distance : 0);
        double inner = R + distance;
        double shrunk =
            (inner * inner * Math.Acos(-distance / inner))
            + (distance * Math.Sqrt((inner * inner) - (distance * distance)));
        Assert.Equal(distance > 0 ? area : shrunk, Measure.Area(grown), 1e-6);
    }

    private static Point2 Point2At(double angle, double radius) =>
        new(radius * Math.Cos(angle), radius * Math.Sin(angle));
}
