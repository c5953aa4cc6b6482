using FixtureGen.Drawing.Chaining;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Dxf;

/// <summary>Round curves against their closed forms; codes by the DXF Reference (ARC, CIRCLE, ELLIPSE, LWPOLYLINE, arbitrary axes).</summary>
public sealed class CurvesTest
{
    [Fact]
    public void Arc_through_zero_degrees_keeps_its_short_way()
    {
        OpenChain arc = Assert.Single(Sketch.Drawing("0 ARC 10 0 20 0 40 10 50 350 51 10").Open);
        Assert.Equal(10 * 20 * Math.PI / 180, arc.LengthMm, 1e-9);
    }

    [Fact]
    public void Arc_of_equal_angles_is_a_circle() =>
        Assert.Equal(100 * Math.PI, Sketch.OneLoop("0 ARC 10 0 20 0 40 10 50 45 51 45").AreaMm2, 1e-9);

    // worked by the arbitrary-axis algorithm: with N = (0, 0, -1) world X is -x, so the centre is (-10, 5), the ends
    // (-12, 5) and (-10, 7)
    [Fact]
    public void Arc_seen_from_below_is_mirrored()
    {
        OpenChain arc = Assert.Single(Sketch.Drawing("0 ARC 10 10 20 5 40 2 50 0 51 90 210 0 220 0 230 -1").Open);
        Segment s = Assert.Single(arc.Path.Segments);
        Assert.True(s.Centre.DistanceTo(new(-10, 5)) < 1e-12);
        Assert.True(s.Start.DistanceTo(new(-12, 5)) < 1e-12);
        Assert.True(s.End.DistanceTo(new(-10, 7)) < 1e-12);
        Assert.Equal(Math.PI, s.Length, 1e-9);
    }

    // R / chord = (1 + b^2) / (4 b) and sagitta / chord = b / 2: the table of DXF Reference bulges
    [Theory]
    [InlineData(0.131652498, 30, 1.931852, 0.065826)]
    [InlineData(0.198912367, 45, 1.306563, 0.099456)]
    [InlineData(0.267949192, 60, 1.000000, 0.133975)]
    [InlineData(0.414213562, 90, 0.707107, 0.207107)]
    [InlineData(0.577350269, 120, 0.577350, 0.288675)]
    [InlineData(1, 180, 0.500000, 0.500000)]
    [InlineData(2.414213562, 270, 0.707107, 1.207107)]
    public void Bulge_gives_angle_radius_and_rise(double bulge, double degrees, double radius, double rise)
    {
        OpenChain chain = Assert.Single(
            Sketch.Drawing(FormattableString.Invariant($"0 LWPOLYLINE 90 2 70 0 10 0 20 0 42 {bulge} 10 1 20 0")).Open
        );
        Segment arc = Assert.Single(chain.Path.Segments);
        Assert.Equal(degrees, arc.Sweep * 180 / Math.PI, 1e-5);
        Assert.Equal(radius, arc.Radius, 1e-6);
        // a positive bulge runs counter-clockwise, so it sags to the right of the chord
        Assert.Equal(-rise, LoopMath.Bounds(chain.Path.Segments).MinY, 1e-6);
    }

    [Fact]
    public void Bulge_on_the_closing_segment_counts() =>
        Assert.Equal(
            (20 * 10) + (Math.PI * 25 / 2),
            Sketch.OneLoop("0 LWPOLYLINE 90 4 70 1 10 0 20 10 10 0 20 0 10 20 20 0 42 1 10 20 20 10").AreaMm2,
            1e-9
        );

    [Fact]
    public void Two_half_circles_make_a_circle() =>
        Assert.Equal(
            25 * Math.PI,
            Sketch.OneLoop("0 LWPOLYLINE 90 2 70 1 10 0 20 0 42 1 10 10 20 0 42 1").AreaMm2,
            1e-9
        );

    [Fact]
    public void Polyline_below_the_plane_is_mirrored_with_its_bulge()
    {
        DrawnLoop loop = Sketch.OneLoop("0 LWPOLYLINE 90 2 70 1 210 0 220 0 230 -1 10 0 20 0 42 1 10 10 20 0");
        Assert.Equal(new Box2(-10, -5, 0, 0), Rounded(loop.Bounds));
    }

    // area pi a b; ratio 1 is a circle, above 1 the "major" axis is the shorter
    [Theory]
    [InlineData(20, 0, 0.5)]
    [InlineData(20, 0, 1)]
    [InlineData(5, 0, 3)]
    [InlineData(12, 5, 0.25)]
    [InlineData(0.3, 0, 0.5)]
    public void Ellipse_has_its_area_and_perimeter(double x, double y, double ratio)
    {
        DrawnLoop loop = Sketch.OneLoop(
            FormattableString.Invariant($"0 ELLIPSE 10 1 20 2 11 {x} 21 {y} 40 {ratio} 41 0 42 6.283185307179586")
        );
        double a = Math.Sqrt((x * x) + (y * y));
        double b = a * ratio;
        Assert.Equal(Math.PI * a * b, loop.AreaMm2, 3e-4 * Math.PI * a * b);
        Assert.Equal(Perimeter(a, b), loop.PerimeterMm, 3e-4 * Perimeter(a, b));
        Assert.True(loop.Clean);
    }

    [Fact]
    public void Circle_of_ratio_one_stays_two_arcs() =>
        Assert.Equal(2, Sketch.OneLoop("0 ELLIPSE 10 0 20 0 11 7 21 0 40 1 41 0 42 6.283185").Contour.Segments.Length);

    // half of an ellipse by its parameter, closed by its axis
    [Fact]
    public void Ellipse_arc_goes_by_parameter() =>
        Assert.Equal(
            Math.PI * 20 * 8 / 2,
            Sketch
                .OneLoop("0 ELLIPSE 10 0 20 0 11 20 21 0 40 0.4 41 0 42 3.141592653589793" + Sketch.Line(-20, 0, 20, 0))
                .AreaMm2,
            0.05
        );

    [Fact]
    public void Ellipse_seen_from_below_runs_the_other_way_round()
    {
        OpenChain arc = Assert.Single(
            Sketch.Drawing("0 ELLIPSE 10 0 20 0 11 20 21 0 40 0.5 41 0 42 1.5707963267948966 210 0 220 0 230 -1").Open
        );
        Assert.True(arc.Path.End.DistanceTo(new(0, -10)) < 1e-9);
    }

    [Fact]
    public void Curve_fit_polyline_uses_its_points_and_skips_the_frame()
    {
        string vertices =
            " 0 VERTEX 10 0 20 0 70 8 0 VERTEX 10 5 20 50 70 16 0 VERTEX 10 10 20 0 70 8 0 VERTEX 10 10 20 10 70 8"
            + " 0 VERTEX 10 0 20 10 70 8 0 SEQEND";
        Assert.Equal(100, Sketch.OneLoop("0 POLYLINE 66 1 70 5" + vertices).AreaMm2, 1e-9);
    }

    [Fact]
    public void Polyline_without_its_end_is_closed_by_the_next_entity()
    {
        DrawingContent drawing = Sketch.Drawing(
            "0 POLYLINE 66 1 70 1 0 VERTEX 10 0 20 0 0 VERTEX 10 9 20 0 0 VERTEX 10 0 20 9" + Sketch.Circle(50, 0, 2)
        );
        Assert.Equal([40.5, 4 * Math.PI], drawing.Loops.Select(l => Math.Round(l.AreaMm2, 9)).Select(a => a), Near);
    }

    [Fact]
    public void Circle_of_radius_zero_is_nothing()
    {
        DrawingContent drawing = Sketch.Drawing(Sketch.Circle(0, 0, 0) + Sketch.Circle(0, 0, 3));
        Assert.Single(drawing.Loops);
        Assert.Contains(drawing.Repairs, r => r is { Code: "short-removed", Count: 1 });
    }

    // tilted by 60 degrees about X a circle of radius 10 looks 20 wide and 10 high
    [Fact]
    public void Tilted_circle_is_seen_from_above_with_a_warning()
    {
        Stage<DrawingContent> stage = Sketch.Stage("0 CIRCLE 10 0 20 0 40 10 210 0 220 -0.8660254037844386 230 0.5");
        Assert.True(stage.Has("drawing-tilted"));
        Assert.Equal(Math.PI * 10 * 5, Assert.Single(stage.Value!.Loops).AreaMm2, 0.05);
    }

    private static bool Near(double a, double b) => Math.Abs(a - b) < 1e-6;

    private static Box2 Rounded(Box2 b) =>
        new(Math.Round(b.MinX, 9), Math.Round(b.MinY, 9), Math.Round(b.MaxX, 9) + 0.0, Math.Round(b.MaxY, 9) + 0.0);

    // exact perimeter by the arithmetic-geometric mean (Abramowitz and Stegun 17.6.3: 4 a E(m))
    private static double Perimeter(double p, double q)
    {
        double a = Math.Max(p, q);
        double b = Math.Min(p, q);
        double sum = ((a * a) - (b * b)) / 2;
        (double x, double y) = (a, b);
        for (double power = 0.5; Math.Abs(x - y) > 1e-15 * x; )
        {
            double c = (x - y) / 2;
            (x, y) = ((x + y) / 2, Math.Sqrt(x * y));
            power *= 2;
            sum += power * c * c;
        }
        return 2 * Math.PI * ((a * a) - sum) / x;
    }
}
