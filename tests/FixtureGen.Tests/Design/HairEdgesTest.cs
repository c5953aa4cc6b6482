using FixtureGen.Design.Seals;
using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Design;

public sealed class HairEdgesTest
{
    /// <summary>A square whose lower side has so many corners in four micrometres, each so far off the side, mm.</summary>
    private static Region Square(int corners, double off)
    {
        IEnumerable<Point2> hairs = Enumerable
            .Range(0, corners)
            .Select(i => new Point2(50 + (0.004 * i / corners), i % 2 == 0 ? off : -off));
        return Region.From(Contours.FromPoints([new(0, 0), .. hairs, new(100, 0), new(100, 100), new(0, 100)]));
    }

    [Fact]
    public void A_hundred_hairs_are_one_line()
    {
        Region joined = HairEdges.Join([Square(100, 1e-5)])[0];
        Assert.InRange(joined.Outer.Segments.Length, 5, 7);
        Assert.Equal(Measure.Area(Square(100, 1e-5)), Measure.Area(joined), 1e-6);
        Assert.Empty(new Kernel(Tolerances.House).Faults([joined]));
    }

    /// <summary>A corner farther off than a tenth of a micrometre stays.</summary>
    [Fact]
    public void What_sticks_out_stays()
    {
        Region given = Square(8, 4e-4);
        Assert.Equal(given.Outer.Segments.Length, HairEdges.Join([given])[0].Outer.Segments.Length);
    }

    [Fact]
    public void Joined_twice_is_joined_once()
    {
        Region[] once = [.. HairEdges.Join([Square(60, 3e-5)])];
        Assert.Equal(once[0].Outer.Segments, HairEdges.Join(once)[0].Outer.Segments);
    }

    [Fact]
    public void Whole_edges_and_circles_are_left_alone()
    {
        Region plate = new(
            Contours.Rectangle(new Box2(0, 0, 50, 40)),
            [Contours.Reverse(Contours.Circle(new(20, 20), 5))]
        );
        Region joined = HairEdges.Join([plate])[0];
        Assert.Equal(plate.Outer.Segments, joined.Outer.Segments);
        Assert.Equal(plate.Holes[0].Segments, joined.Holes[0].Segments);
    }

    /// <summary>The parallel of such a boundary is proven at once; of the hairs themselves it took minutes or was not.</summary>
    [Fact]
    public void A_parallel_of_what_is_joined_is_proven()
    {
        Kernel kernel = new(Tolerances.House);
        Region grown = kernel.Offset(HairEdges.Join([Square(120, 2e-5)]), 27)[0];
        // J. Steiner: area + length d + pi d^2 for a convex source
        Assert.Equal(10_000 + (400 * 27) + (Math.PI * 27 * 27), Measure.Area(grown), 0.01);
    }
}
