using System.Collections.Immutable;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Roles;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Dxf;

/// <summary>What a drawing asks to be engraved: strokes chained end to end, texts with their baseline.</summary>
public sealed class EngravingTest
{
    private static readonly Job Job = DemoShop.Job(DemoShop.PlainJob());

    [Fact]
    public void Strokes_are_chained_so_that_the_tool_lifts_less_often()
    {
        EngraveMark mark = Assert.Single(
            Marks(
                Sketch.Line(10, 10, 20, 10, "ENGRAVE")
                    + Sketch.Line(30, 10, 20, 10, "ENGRAVE")
                    + Sketch.Circle(60, 40, 4, "ENGRAVE")
            )
        );
        Assert.Equal([2, 2], mark.Strokes.Select(s => s.Segments.Length));
        Assert.Contains(mark.Strokes, s => s.Start == s.End);
    }

    // TEXT by the DXF Reference: with 72 or 73 set the second point counts; aligned (3) and fit (5) start at the first
    [Theory]
    [InlineData("72 0 73 0", 10, 20, false)]
    [InlineData("72 1 73 0 11 40 21 50", 40, 50, true)]
    [InlineData("72 3 73 0 11 40 21 50", 10, 20, false)]
    [InlineData("72 0 73 2 11 40 21 50", 40, 50, true)]
    public void Text_starts_where_its_alignment_says(string alignment, double x, double y, bool warned)
    {
        Stage<Part> stage = Build($" 0 TEXT 8 ENGRAVE 10 10 20 20 40 5 1 LEFT {alignment}");
        Assert.Equal(new Point2(x, y), Assert.Single(stage.Value!.Engravings).At);
        Assert.Equal(warned, stage.Findings.Any(f => f.Code == "text-alignment"));
    }

    // MTEXT hangs from its top left corner by default: the first baseline lies one letter height lower
    [Theory]
    [InlineData("71 1", 10, 15)]
    [InlineData("71 7", 10, 20)]
    [InlineData("71 1 50 90", 15, 20)]
    [InlineData("71 1 11 0 21 1", 15, 20)]
    public void Paragraph_text_starts_at_its_first_baseline(string placing, double x, double y)
    {
        EngraveMark mark = Assert.Single(Marks($" 0 MTEXT 8 ENGRAVE 10 10 20 20 40 5 1 LEFT {placing}"));
        Assert.True(mark.At.DistanceTo(new(x, y)) < 1e-9);
    }

    [Fact]
    public void Text_in_a_scaled_and_mirrored_block_keeps_its_letters_size()
    {
        const string block = "0 BLOCK 2 B 10 0 20 0 0 TEXT 8 0 10 3 20 0 40 2 1 A 50 0 0 ENDBLK";
        DrawingContent drawing = Sketch.Drawing("0 INSERT 8 ENGRAVE 2 B 10 0 20 0 41 3 42 3 50 90", block);
        DrawnText text = Assert.Single(drawing.Texts);
        Assert.Equal((6.0, 90.0, "ENGRAVE"), (Math.Round(text.Height, 9), Math.Round(text.AngleDeg, 9), text.Layer));
        Assert.True(text.At.DistanceTo(new(0, 9)) < 1e-9);
    }

    private static ImmutableArray<EngraveMark> Marks(string entities)
    {
        Stage<Part> stage = Build(entities);
        Assert.True(stage.Ok, string.Join('\n', stage.Findings));
        return stage.Value!.Engravings;
    }

    private static Stage<Part> Build(string entities) =>
        PartBuilder.Build(Sketch.Drawing(Sketch.Rectangle(0, 0, 120, 80, "OUTLINE") + entities), Job);
}
