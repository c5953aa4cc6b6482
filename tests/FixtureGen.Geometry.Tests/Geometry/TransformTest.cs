using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Geometry;

/// <summary>Moves and turns, worked by hand.</summary>
public sealed class TransformTest
{
    [Theory]
    [InlineData(0, 11, 22)]
    [InlineData(90, 8, 21)]
    [InlineData(180, 9, 18)]
    [InlineData(-90, 12, 19)]
    [InlineData(450, 8, 21)]
    public void Square_turns_are_exact(double degrees, double x, double y) =>
        Assert.Equal(new Point2(x, y), Transform.Apply(new Pose(10, 20, degrees), new Point2(1, 2)));

    [Fact]
    public void A_turn_is_counter_clockwise_and_before_the_shift()
    {
        Point2 p = Transform.Apply(new Pose(10, 20, 30), new Point2(2, 0));

        Assert.Equal(0, p.DistanceTo(new(10 + Math.Sqrt(3), 21)), 1e-12);
    }

    [Theory]
    [InlineData(33)]
    [InlineData(-120)]
    [InlineData(90)]
    public void The_inverse_brings_every_point_back(double degrees)
    {
        Pose pose = new(-7, 12, degrees);
        Point2 p = new(3, -5);

        Assert.Equal(0, Transform.Apply(Transform.Inverse(pose), Transform.Apply(pose, p)).DistanceTo(p), 1e-12);
    }

    [Fact]
    public void A_region_turned_over_keeps_its_material_on_the_left()
    {
        Region region = new(
            Contours.RoundedRectangle(new Box2(0, 0, 30, 20), 5),
            [Contours.Cw(Contours.Circle(new(8, 10), 3))]
        );

        Region mirrored = Transform.Apply(new Flip(20), region);

        Box2 box = Measure.Bounds(mirrored);
        Assert.Equal((10, 0, 40, 20), (box.MinX, box.MinY, box.MaxX, box.MaxY));
        Assert.Equal(Measure.Area(region), Measure.Area(mirrored), 1e-9);
        Assert.Equal(-9 * Math.PI, Measure.Area(Assert.Single(mirrored.Holes)), 1e-9);
        Assert.Equal(0, Measure.Distance(new(32 + 3, 10), mirrored.Holes[0]), 1e-12);
        Assert.Equal(Measure.Length(region), Measure.Length(mirrored), 1e-9);
    }
}
