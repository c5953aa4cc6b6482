using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Geometry;

public sealed class StrokeTest
{
    private readonly Kernel _kernel = new(Tolerances.House);

    [Fact]
    public void A_line_becomes_a_slot()
    {
        var swept = _kernel.Stroke(new OpenPath([Segment.Line(new(1, 2), new(31, 42))]), 6);

        Assert.Equal((50 * 6) + (9 * Math.PI), Measure.Area(swept), 1e-9);
        Assert.Equal(4, Assert.Single(swept).Outer.Segments.Length);
    }

    [Fact]
    public void A_circle_becomes_a_ring()
    {
        var swept = _kernel.Stroke(Contours.Circle(new(7, -3), 20), 4);

        Assert.Single(Assert.Single(swept).Holes);
        Assert.Equal(2 * Math.PI * 20 * 4, Measure.Area(swept), 1e-9);
    }

    [Fact]
    public void A_bent_path_keeps_its_inner_corner_sharp_and_its_outer_corner_round()
    {
        OpenPath bent = new([Segment.Line(new(0, 0), new(30, 0)), Segment.Line(new(30, 0), new(30, 20))]);

        var swept = _kernel.Stroke(bent, 6);

        // Two arms, two half discs, a quarter disc outside the corner, the overlap inside taken once.
        Assert.Equal((50 * 6) + (9 * Math.PI) + (9 * Math.PI / 4) - 9, Measure.Area(swept), 1e-9);
    }

    [Fact]
    public void A_path_that_runs_back_over_itself_is_swept_once()
    {
        OpenPath path = new([
            Segment.Line(new(0, 0), new(40, 0)),
            Segment.Line(new(40, 0), new(10, 0)),
            Segment.Line(new(10, 0), new(10, 20)),
        ]);

        // A slot 40 long, one arm from y = 2 to 20, half a disc at its end.
        Assert.Equal((40 * 4) + (4 * Math.PI) + (18 * 4) + (2 * Math.PI), Measure.Area(_kernel.Stroke(path, 4)), 1e-9);
        Assert.Empty(_kernel.Repairs);
    }

    [Fact]
    public void A_path_with_an_arc_is_swept_exactly()
    {
        OpenPath path = new([
            Segment.Line(new(0, 0), new(10, 0)),
            Segment.Arc(new(10, 0), new(10, 20), new(10, 10), ccw: true),
        ]);

        Assert.Equal(((10 + (10 * Math.PI)) * 3) + (2.25 * Math.PI), Measure.Area(_kernel.Stroke(path, 3)), 1e-9);
    }

    [Fact]
    public void Rings_run_from_the_source_until_nothing_is_left()
    {
        var rings = _kernel.Rings([Region.From(Contours.Rectangle(new(0, 0, 100, 100)))], 3.175, 2.54);

        Assert.Equal(19, rings.Length);
        Assert.Equal(Math.Pow(100 - (2 * (3.175 + (18 * 2.54))), 2), Measure.Area(rings[18]), 1e-9);
    }
}
