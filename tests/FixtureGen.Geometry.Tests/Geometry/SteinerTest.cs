using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Geometry;

/// <summary>
/// Steiner's formula for the parallel body of a convex shape, A(d) = A + L d + pi d2 and L(d) = L + 2 pi d (J. Steiner, Ueber
/// parallele Flaechen, 1840; any text on convex geometry), and what opening and closing must do to corners.
/// </summary>
public sealed class SteinerTest
{
    private readonly Kernel _kernel = new(Tolerances.House);

    public static TheoryData<double> Distances => new(0.01, 0.5, 3.175, 12.7, 60);

    [Theory]
    [MemberData(nameof(Distances))]
    public void Convex_shapes_grow_by_the_formula(double d)
    {
        Contour[] convex =
        [
            Contours.Rectangle(new(-3, 2, 40, 31)),
            Contours.Circle(new(4, 4), 9),
            Contours.Slot(new(0, 0), new(13, 21), 3),
            Contours.FromPoints([new(0, 0), new(31, 4), new(37, 22), new(12, 40), new(-5, 18)]),
            new([
                Segment.Arc(new(6, -8), new(6, 8), default, ccw: true),
                Segment.Arc(new(6, 8), new(6, -8), new(12, 0), ccw: true),
            ]),
        ];
        foreach (Contour c in convex)
        {
            Region grown = Assert.Single(_kernel.Offset(Region.From(c), d));
            Assert.Equal(Measure.Area(c) + (Measure.Length(c) * d) + (Math.PI * d * d), Measure.Area(grown), 1e-8);
            Assert.Equal(Measure.Length(c) + (2 * Math.PI * d), Measure.Length(grown), 1e-9);
        }
        Assert.Empty(_kernel.Repairs);
    }

    [Theory]
    [InlineData(1)]
    [InlineData(3.175)]
    [InlineData(9.5)]
    public void Opening_takes_the_corners_of_a_square_and_closing_leaves_them(double r)
    {
        Region square = Region.From(Contours.Rectangle(new(0, 0, 40, 40)));

        Assert.Equal(1600 - ((4 - Math.PI) * r * r), Measure.Area(_kernel.Open([square], r)), 1e-9);
        Assert.Equal(1600, Measure.Area(_kernel.Close([square], r)), 1e-9);
        Assert.Equal(4, _kernel.Close([square], r)[0].Outer.Segments.Length);
    }

    [Fact]
    public void Closing_fills_the_inner_corner_of_an_angle()
    {
        Region angle = Region.From(
            Contours.FromPoints([new(0, 0), new(40, 0), new(40, 15), new(15, 15), new(15, 40), new(0, 40)])
        );

        var closed = _kernel.Close([angle], 4);

        Assert.Equal(Measure.Area(angle) + ((1 - (Math.PI / 4)) * 16), Measure.Area(closed), 1e-9);
    }

    [Fact]
    public void An_open_shape_is_left_alone_by_opening()
    {
        Region rounded = new(
            Contours.RoundedRectangle(new(0, 0, 60, 40), 5),
            [Contours.Reverse(Contours.Circle(new(30, 20), 6))]
        );

        Region same = Assert.Single(_kernel.Open([rounded], 5));

        Assert.Equal(8, same.Outer.Segments.Length);
        Assert.Equal(Measure.Area(rounded), Measure.Area(same), 1e-9);
        foreach (Segment s in same.Contours.SelectMany(c => c.Segments))
        {
            Assert.Equal(0, Measure.Distance(Measure.PointAt(s, 0.3), rounded), 1e-9);
        }
    }
}
