using FixtureGen.Drawing;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Dxf;

/// <summary>Ends that nearly meet, curves drawn twice, spikes and junctions: put right with a count, or named with the place.</summary>
public sealed class ChainingTest
{
    private const string U = "0 LWPOLYLINE 90 4 70 0 10 0 20 10 10 0 20 0 10 20 20 0 10 20 20 10";

    [Theory]
    [InlineData(0.02, true)]
    [InlineData(0.049, true)]
    [InlineData(0.06, false)]
    [InlineData(0.5, false)]
    public void Gap_within_the_join_tolerance_closes(double gap, bool closes)
    {
        DrawingContent drawing = Sketch.Drawing(U + Sketch.Line(20, 10, gap, 10));
        Assert.Equal(closes ? 1 : 0, drawing.Loops.Length);
        if (closes)
        {
            Assert.Equal(200, drawing.Loops[0].AreaMm2, 0.2);
            Repair repair = Assert.Single(drawing.Repairs);
            Assert.Equal(("gap-joined", 1), (repair.Code, repair.Count));
            Assert.Contains(FormattableString.Invariant($"the widest {gap}"), repair.Message, StringComparison.Ordinal);
        }
        else
        {
            OpenChain open = Assert.Single(drawing.Open);
            Assert.Equal(gap, open.GapMm, 1e-12);
            Assert.Equal(60 - gap, open.LengthMm, 1e-9);
        }
    }

    [Fact]
    public void Open_outline_is_named_with_its_place()
    {
        Finding finding = Assert.Single(
            Sketch.Stage(U + Sketch.Line(20, 10, 0.5, 10)).Findings,
            f => f.Code == "outline-open"
        );
        Assert.Contains("(0.5, 10)", finding.Message, StringComparison.Ordinal);
        Assert.Contains("gap 0.5", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Arc_moves_over_a_gap_without_two_radii()
    {
        DrawnLoop loop = Sketch.OneLoop(
            "0 ARC 10 0 20 0 40 10 50 0 51 180" + "0 ARC 10 0.03 20 0 40 10 50 180 51 0".Insert(0, " ")
        );
        Assert.All(
            loop.Contour.Segments.Where(s => s.IsArc),
            s => Assert.Equal(s.Start.DistanceTo(s.Centre), s.End.DistanceTo(s.Centre), 1e-9)
        );
        Assert.True(IsClosed(loop.Contour));
    }

    // a curve of 0.02 mm chords must not be swallowed by a join tolerance of 0.05 mm
    [Fact]
    public void Fine_chords_are_kept()
    {
        const int n = 3000;
        string lines = string.Concat(
            Enumerable
                .Range(0, n)
                .Select(i =>
                    Sketch.Line(
                        10 * Math.Cos(2 * Math.PI * i / n),
                        10 * Math.Sin(2 * Math.PI * i / n),
                        10 * Math.Cos(2 * Math.PI * (i + 1) / n),
                        10 * Math.Sin(2 * Math.PI * (i + 1) / n)
                    )
                )
        );
        DrawnLoop loop = Sketch.OneLoop(lines);
        Assert.Equal(n / 2.0 * 100 * Math.Sin(2 * Math.PI / n), loop.AreaMm2, 1e-6);
    }

    [Fact]
    public void Edges_drawn_twice_are_counted_and_dropped()
    {
        DrawingContent drawing = Sketch.Drawing(
            Sketch.Rectangle(0, 0, 20, 10) + Sketch.Line(20, 10, 0, 10) + Sketch.Line(0, 0, 20, 0)
        );
        Assert.Equal(200, Assert.Single(drawing.Loops).AreaMm2, 1e-9);
        Assert.Contains(drawing.Repairs, r => r is { Code: "drawn-twice", Count: 2 });
    }

    [Fact]
    public void Loops_drawn_twice_are_one_whatever_they_are_made_of()
    {
        DrawingContent drawing = Sketch.Drawing(
            Sketch.Rectangle(0, 0, 20, 10)
                + " 0 LWPOLYLINE 90 4 70 1 10 0 20 0 10 0 20 10 10 20 20 10 10 20 20 0"
                + Sketch.Circle(50, 0, 5)
                + " 0 ARC 10 50 20 0 40 5 50 20 51 200 0 ARC 10 50 20 0 40 5 50 200 51 20"
        );
        Assert.Equal(2, drawing.Loops.Length);
        Assert.Contains(drawing.Repairs, r => r is { Code: "drawn-twice", Count: 2 });
    }

    [Theory]
    [InlineData(" 0 LINE 10 0 20 0 11 12 21 0 0 LINE 10 8 20 0 11 20 21 0")]
    [InlineData(" 0 LINE 10 0 20 0 11 20 21 0 0 LINE 10 5 20 0 11 15 21 0")]
    [InlineData(" 0 LINE 10 0 20 0 11 20 21 0 0 LINE 10 10 20 0 11 0 21 0")]
    [InlineData(" 0 LINE 10 20 20 0 11 8 21 0 0 LINE 10 0 20 0 11 12 21 0 0 LINE 10 11 20 0 11 9 21 0")]
    public void Overlapping_lines_become_one_edge(string bottom)
    {
        DrawingContent drawing = Sketch.Drawing(
            bottom + Sketch.Line(20, 0, 20, 10) + Sketch.Line(20, 10, 0, 10) + Sketch.Line(0, 10, 0, 0)
        );
        Assert.Equal((200.0, true), (Math.Round(Assert.Single(drawing.Loops).AreaMm2, 9), drawing.Loops[0].Clean));
        Assert.Empty(drawing.Open);
        Assert.Contains(drawing.Repairs, r => r.Code == "drawn-twice");
    }

    [Fact]
    public void Overlapping_arcs_become_one_circle()
    {
        DrawingContent drawing = Sketch.Drawing("0 ARC 10 0 20 0 40 10 50 0 51 200 0 ARC 10 0 20 0 40 10 50 170 51 0");
        Assert.Equal(100 * Math.PI, Assert.Single(drawing.Loops).AreaMm2, 1e-6);
        Assert.True(drawing.Loops[0].Clean);
    }

    [Fact]
    public void Spike_is_taken_off()
    {
        DrawingContent drawing = Sketch.Drawing(
            "0 LWPOLYLINE 90 6 70 1 10 0 20 0 10 20 20 0 10 20 20 10 10 10 20 10 10 10 20 30 10 10 20 10 10 0 20 10"
        );
        Assert.Equal((200.0, 60.0), (drawing.Loops[0].AreaMm2, drawing.Loops[0].PerimeterMm));
        Assert.Contains(drawing.Repairs, r => r is { Code: "spike-removed", Count: 1 });
        Assert.True(drawing.Loops[0].Clean);
    }

    [Fact]
    public void Hook_of_a_hair_is_taken_off()
    {
        DrawingContent drawing = Sketch.Drawing(
            "0 LWPOLYLINE 90 6 70 1 10 0 20 0 10 20 20 0 10 20 20 10 10 19.99999999 20 10 10 20 20 10.00000001 10 0 20 10"
        );
        Assert.True(Assert.Single(drawing.Loops).Clean);
        Assert.Contains(drawing.Repairs, r => r.Code == "short-removed");
    }

    [Fact]
    public void Stray_line_from_a_corner_is_cut_off_and_named()
    {
        Stage<DrawingContent> stage = Sketch.Stage(Sketch.Rectangle(0, 0, 20, 10) + Sketch.Line(20, 10, 30, 15));
        Assert.Equal(200, Assert.Single(stage.Value!.Loops).AreaMm2, 1e-9);
        Assert.Single(stage.Value.Open);
        Assert.Equal(new Point2(20, 10), Assert.Single(stage.Findings, f => f.Code == "junction").At);
    }

    [Fact]
    public void Line_that_ends_on_an_edge_is_named_with_its_place()
    {
        Stage<DrawingContent> stage = Sketch.Stage(Sketch.Rectangle(0, 0, 20, 10) + Sketch.Line(7, 10, 7, 25));
        Assert.Equal(new Point2(7, 10), Assert.Single(stage.Findings, f => f.Code == "junction").At);
        Assert.Single(stage.Value!.Loops);
    }

    [Fact]
    public void Dividing_line_leaves_no_loop_and_names_both_ends()
    {
        Stage<DrawingContent> stage = Sketch.Stage(
            Sketch.Line(0, 0, 10, 0)
                + Sketch.Line(10, 0, 20, 0)
                + Sketch.Line(20, 0, 20, 10)
                + Sketch.Line(20, 10, 10, 10)
                + Sketch.Line(10, 10, 0, 10)
                + Sketch.Line(0, 10, 0, 0)
                + Sketch.Line(10, 0, 10, 10)
        );
        Assert.Empty(stage.Value!.Loops);
        Assert.Equal(
            [new Point2(10, 0), new Point2(10, 10)],
            stage.Findings.Where(f => f.Code == "junction").Select(f => f.At!.Value)
        );
    }

    [Fact]
    public void Self_crossing_is_named_with_its_place()
    {
        Stage<DrawingContent> stage = Sketch.Stage(
            "0 LWPOLYLINE 90 4 70 1 10 0 20 0 10 20 20 10 10 20 20 0 10 0 20 12"
        );
        DrawnLoop loop = Assert.Single(stage.Value!.Loops);
        Assert.False(loop.Clean);
        Point2 at = Assert.Single(loop.Crossings);
        // y = x / 2 meets y = 12 - 0.6 x
        Assert.Equal(12 / 1.1, at.X, 1e-9);
        Assert.Equal(6 / 1.1, at.Y, 1e-9);
        Assert.False(DrawingReport.Describe("x", stage, null, stage.Findings).HasCleanOutline);
    }

    [Fact]
    public void Loop_that_touches_itself_is_not_clean() =>
        Assert.False(
            Sketch.OneLoop("0 LWPOLYLINE 90 5 70 1 10 0 20 0 10 20 20 0 10 20 20 20 10 10 20 0 10 0 20 20").Clean
        );

    [Fact]
    public void Depths_are_counted_to_any_level()
    {
        string circles = string.Concat(
            Enumerable.Range(1, 9).Select(i => Sketch.Circle(3 + (i * 0.1), 0, 100 - (10 * i)))
        );
        DrawingContent drawing = Sketch.Drawing(circles + Sketch.Circle(500, 0, 20));
        Assert.Equal([0, 1, 2, 3, 4, 5, 6, 7, 0, 8], drawing.Loops.Select(l => l.Depth));
    }

    [Fact]
    public void Loops_that_cross_each_other_are_named()
    {
        Stage<DrawingContent> stage = Sketch.Stage(Sketch.Circle(0, 0, 10) + Sketch.Circle(12, 0, 10));
        Finding finding = Assert.Single(stage.Findings, f => f.Code == "loops-cross");
        Assert.Equal(6, finding.At!.Value.X, 1e-9);
        Assert.All(stage.Value!.Loops, l => Assert.True(l.Clean));
    }

    private static bool IsClosed(Contour contour) =>
        contour
            .Segments.Select(
                (s, i) => s.Start == contour.Segments[(i + contour.Segments.Length - 1) % contour.Segments.Length].End
            )
            .All(b => b);
}
