using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Roles;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Dxf;

/// <summary>A drawing's own check says what a job says: by layers named for roles, else by nesting.</summary>
public sealed class DrawingVerdictTest
{
    private static readonly string Outline = Sketch.Rectangle(0, 0, 120, 80, "OUTLINE");

    /// <summary>A keep-out that ends on the part's edge shares a line with it, and both are still closed.</summary>
    [Fact]
    public void Layers_that_share_an_edge_are_fit()
    {
        Stage<DrawingContent> read = Sketch.Stage(Outline + Sketch.Rectangle(100, 20, 120, 60, "KEEPOUT"));
        Assert.Equal([9600.0, 800.0], read.Value!.Loops.Select(l => Math.Round(l.AreaMm2, 6)));
        Part part = PartBuilder.Build(read.Value).Value!;
        Assert.Single(part.KeepOuts);
    }

    /// <summary>A note that ends on the outline at two places opened it when all layers were chained as one.</summary>
    [Fact]
    public void A_line_of_another_layer_across_the_part_takes_no_loop_away()
    {
        Stage<DrawingContent> read = Sketch.Stage(Outline + Sketch.Line(0, 0, 120, 80, "DIM"));
        Assert.Equal(9600, Assert.Single(read.Value!.Loops).AreaMm2, 1e-6);
        Assert.True(PartBuilder.Build(read.Value).Ok);
    }

    [Theory]
    [InlineData("outline-several", "0 CIRCLE 8 0 10 0 20 0 40 20 0 CIRCLE 8 0 10 90 20 0 40 20")]
    [InlineData(
        "outline-island",
        "0 CIRCLE 8 0 10 0 20 0 40 40 0 CIRCLE 8 0 10 0 20 0 40 20 0 CIRCLE 8 0 10 0 20 0 40 5"
    )]
    [InlineData("outline-layer", "0 CIRCLE 8 A 10 0 20 0 40 40 0 CIRCLE 8 B 10 0 20 0 40 20")]
    [InlineData("size-unlikely", "0 CIRCLE 8 0 10 0 20 0 40 2")]
    [InlineData("outline-open", "0 CIRCLE 8 0 10 0 20 0 40 40 0 ARC 8 0 10 0 20 0 40 10 50 0 51 350")]
    public void Refused_as_the_job_refuses(string code, string entities)
    {
        DrawingContent drawing = Sketch.Stage(entities).Value!;
        Assert.Contains(drawing.Loops, l => l.Clean);
        Stage<Part> alone = PartBuilder.Build(drawing);
        Assert.Null(alone.Value);
        Assert.Contains(alone.Findings, f => f.Code == code && f.Severity == Severity.Error);
        Stage<Part> job = PartBuilder.Build(drawing, DemoShop.Job(DemoShop.PlainJob()));
        Assert.Equal(job.Findings, alone.Findings);
    }

    [Fact]
    public void The_suggestion_is_tried_before_it_is_told()
    {
        DrawingContent good = Sketch.Stage(Sketch.Rectangle(0, 0, 99, 80, "A") + Sketch.Circle(30, 40, 8, "B")).Value!;
        Assert.Contains(
            "outline = \"A\", cutout = \"B\" : tried, that makes one outline with 1 cutouts",
            Assert.Single(PartBuilder.Build(good).Findings).Remedy,
            StringComparison.Ordinal
        );
        DrawingContent crossed = Sketch
            .Stage(Sketch.Rectangle(0, 0, 99, 80, "A") + Sketch.Circle(30, 40, 8, "B") + Sketch.Circle(36, 40, 8, "B"))
            .Value!;
        Assert.Contains(
            "tried, that leaves  Two loops cross",
            Assert.Single(PartBuilder.Build(crossed).Findings).Remedy,
            StringComparison.Ordinal
        );
    }
}
