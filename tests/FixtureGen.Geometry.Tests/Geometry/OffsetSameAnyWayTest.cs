using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Geometry;

/// <summary>Every closed-form case again: from every start segment, shifted far, turned, mirrored, holes in another order.</summary>
public sealed class OffsetSameAnyWayTest
{
    private static readonly (string Name, Region Region, double Distance)[] Cases =
    [
        ("rounded rectangle in", Region.From(Contours.RoundedRectangle(new(0, 0, 203.2, 152.4), 19.05)), -30),
        ("rounded rectangle out", Region.From(Contours.RoundedRectangle(new(0, 0, 203.2, 152.4), 19.05)), 7),
        ("slot in", Region.From(Contours.Slot(new(3, 4), new(60, 30), 8)), -3.5),
        ("slot out", Region.From(Contours.Slot(new(3, 4), new(60, 30), 8)), 3.5),
        ("lens in", Region.From(Lens()), -2),
        ("lens out", Region.From(Lens()), 2),
        ("ring in", new(Contours.Circle(new(5, 5), 30), [Contours.Reverse(Contours.Circle(new(8, 5), 12))]), -4),
        ("ring out", new(Contours.Circle(new(5, 5), 30), [Contours.Reverse(Contours.Circle(new(8, 5), 12))]), 4),
        ("two that join", new(Contours.Rectangle(new(0, 0, 80, 40)), [Hole(20), Hole(44)]), -3),
    ];

    public static TheoryData<string> Names => new(Cases.Select(c => c.Name));

    [Theory]
    [MemberData(nameof(Names))]
    public void Area_and_length_do_not_depend_on_how_the_shape_was_drawn(string name)
    {
        (_, Region region, double distance) = Cases.First(c => c.Name == name);
        (double area, double length, int loops) = Figures(region, distance);

        foreach (Region other in Ways(region))
        {
            (double otherArea, double otherLength, int otherLoops) = Figures(other, distance);
            Assert.Equal(area, otherArea, 1e-7);
            Assert.Equal(length, otherLength, 1e-8);
            Assert.Equal(loops, otherLoops);
        }
    }

    [Fact]
    public void Drawn_the_wrong_way_round_it_is_put_right_by_nesting()
    {
        Contour outer = Contours.Reverse(Contours.Rectangle(new(0, 0, 80, 40)));

        Region region = Assert.Single(Nesting.Regions([Contours.Circle(new(20, 20), 6), outer]));

        Assert.Equal((80 * 40) - (36 * Math.PI), Measure.Area(region), 1e-9);
    }

    private static IEnumerable<Region> Ways(Region region)
    {
        for (int i = 0; i < region.Outer.Segments.Length; i++)
        {
            yield return region with
            {
                Outer = Contours.StartAt(region.Outer, i),
            };
        }
        foreach (double degrees in (double[])[0, 30, 45, 90, 123.4, 180, 270])
        {
            yield return Transform.Apply(new Pose(0, 0, degrees), region);
            yield return Transform.Apply(new Pose(1234.5, -876.5, degrees), region);
        }
        yield return Transform.Apply(new Pose(10_000, 10_000, 0), region);
        yield return Transform.Apply(new Flip(3.25), region);
        yield return region with
        {
            Holes = [.. region.Holes.Reverse().Select(h => Contours.StartAt(h, 1))],
        };
    }

    private static (double Area, double Length, int Loops) Figures(Region region, double distance)
    {
        var kernel = new Kernel(Tolerances.House);
        var result = kernel.Offset(region, distance);
        Assert.Empty(kernel.Repairs);
        return (Measure.Area(result), result.Sum(r => Measure.Length(r)), result.Sum(r => 1 + r.Holes.Length));
    }

    private static Contour Hole(double x) => Contours.Reverse(Contours.RoundedRectangle(new(x, 10, x + 20, 30), 4));

    private static Contour Lens() =>
        new([
            Segment.Arc(new(6, -8), new(6, 8), default, ccw: true),
            Segment.Arc(new(6, 8), new(6, -8), new(12, 0), ccw: true),
        ]);
}
