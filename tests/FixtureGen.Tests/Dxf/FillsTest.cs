using FixtureGen.Drawing.Chaining;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Dxf;

/// <summary>Hatches, solids, multi-lines and helices are the drawing where it has no curves, and passed over where it has. Areas by closed form.</summary>
public sealed class FillsTest
{
    private const string Head = "0 HATCH 8 0 10 0 20 0 30 0 210 0 220 0 230 1 2 SOLID 70 1 71 0";
    private const string Tail = "97 0 75 1 76 1 98 1 10 5 20 5";

    [Theory]
    [InlineData("91 1 92 2 72 1 73 1 93 2 10 0 20 0 42 1 10 20 20 0 42 1 " + Tail, 100 * Math.PI)]
    [InlineData("91 1 92 2 72 0 73 1 93 4 10 0 20 0 10 30 20 0 10 30 20 20 10 0 20 20 " + Tail, 600)]
    [InlineData(
        "91 1 92 1 93 3 72 1 10 -10 20 0 11 10 21 0 72 2 10 0 20 0 40 10 50 0 51 90 73 1 72 2 10 0 20 0 40 10 50 180 51 270 73 0 "
            + Tail,
        50 * Math.PI
    )]
    [InlineData("91 1 92 1 93 1 72 3 10 0 20 0 11 20 21 0 40 0.5 50 0 51 360 73 1 " + Tail, 200 * Math.PI)]
    [InlineData(
        "91 1 92 1 93 1 72 4 94 1 73 0 74 0 95 6 96 4 40 0 40 0 40 1 40 2 40 3 40 3 10 0 20 0 10 30 20 0 10 0 20 40 10 0 20 0 97 0 "
            + Tail,
        600
    )]
    public void A_hatch_is_its_boundary(string boundary, double area)
    {
        Stage<DrawingContent> stage = Sketch.Stage($"{Head} {boundary}");
        DrawnLoop loop = Assert.Single(stage.Value!.Loops);
        Assert.Equal(area, loop.AreaMm2, 1e-4 * area);
        Finding finding = Assert.Single(stage.Findings, f => f.Code == "drawing-of-fills");
        Assert.Contains("1 HATCH", finding.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("SOLID", 0, 20)]
    [InlineData("TRACE", 0, 20)]
    [InlineData("SOLID", 30, 20)]
    public void A_solids_corners_come_crosswise(string type, double x, double y)
    {
        DrawingContent drawing = Sketch.Drawing(
            FormattableString.Invariant($"0 {type} 8 0 10 0 20 0 11 30 21 0 12 {x} 22 {y} 13 30 23 20")
        );
        Assert.Equal(x == 30 ? 300 : 600, Assert.Single(drawing.Loops).AreaMm2, 1e-9);
    }

    /// <summary>A frame of 30 x 20 with lines 0 and 1 to the left of its vertices.</summary>
    [Fact]
    public void A_multi_line_is_each_of_its_lines()
    {
        string vertices = string.Concat(
            new[] { (0, 0, 1, 1), (30, 0, -1, 1), (30, 20, -1, -1), (0, 20, 1, -1) }.Select(v =>
                FormattableString.Invariant(
                    $" 11 {v.Item1} 21 {v.Item2} 12 1 22 0 13 {v.Item3} 23 {v.Item4} 74 1 41 0 75 0 74 1 41 1 75 0"
                )
            )
        );
        DrawingContent drawing = Sketch.Drawing("0 MLINE 8 0 2 S 40 1 70 0 71 3 72 4 73 2 10 0 20 0" + vertices);
        Assert.Equal([600.0, 28.0 * 18], drawing.Loops.Select(l => Math.Round(l.AreaMm2, 9)));
    }

    /// <summary>The spline of a flat helix; the axis, radius and turns after it are no part of it.</summary>
    [Fact]
    public void A_helix_is_its_spline()
    {
        DrawingContent drawing = Sketch.Drawing(
            "0 HELIX 8 0 70 8 71 1 72 4 73 2 74 0 40 0 40 0 40 1 40 1 10 0 20 0 30 0 10 30 20 40 30 0 90 29 91 63 10 0 20 0 30 0 11 9 21 0 31 0 40 9 41 1 42 0 290 1 280 1"
        );
        Assert.Equal(50, Assert.Single(drawing.Open).LengthMm, 1e-9);
    }

    [Fact]
    public void Beside_curves_they_are_passed_over()
    {
        Stage<DrawingContent> stage = Sketch.Stage(
            Sketch.Rectangle(0, 0, 50, 40) + $" {Head} 91 1 92 2 72 0 73 1 93 3 10 0 20 0 10 30 20 0 10 30 20 20 {Tail}"
        );
        Assert.Equal(2000, Assert.Single(stage.Value!.Loops).AreaMm2, 1e-9);
        Assert.True(stage.Has("drawing-passed-over"));
        Assert.False(stage.Has("drawing-of-fills"));
    }

    [Theory]
    [InlineData("0 HATCH 8 0 91 1 92 2 72 0 73 1 93 3 10 0 20 x")]
    [InlineData("0 HATCH 8 0 91 1 92 1 93 1 72 9 10 0 20 0")]
    [InlineData("0 HATCH 8 0")]
    [InlineData("0 SOLID 8 0 10 0 20 0")]
    [InlineData("0 MLINE 8 0")]
    public void What_cannot_be_read_is_passed_over(string entity) =>
        Assert.True(Sketch.Stage(entity).Has("drawing-passed-over"));
}
