using FixtureGen.Drawing.Chaining;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Dxf;

/// <summary>Blocks unfolded: P = OCS[insert + turn (scale (p - base)) + steps], by the DXF Reference, INSERT.</summary>
public sealed class InsertTest
{
    private const string L =
        "0 BLOCK 2 L 10 1 20 1 70 0 0 LWPOLYLINE 8 0 90 6 70 1 10 1 20 1 10 4 20 1 10 4 20 2 10 2 20 2 10 2 20 5 10 1 20 5 0 ENDBLK";

    [Fact]
    public void Base_point_goes_to_the_insertion_point() =>
        Assert.Equal(new Box2(10, 20, 13, 24), Box("0 INSERT 2 L 10 10 20 20"));

    [Fact]
    public void Scaled_then_turned() =>
        Assert.Equal(new Box2(-8, 0, 0, 9), Box("0 INSERT 2 L 10 0 20 0 41 3 42 2 50 90"));

    [Fact]
    public void Mirrored_by_a_negative_scale() =>
        Assert.Equal(new Box2(-3, 0, 0, 4), Box("0 INSERT 2 L 10 0 20 0 41 -1"));

    [Fact]
    public void Seen_from_below() =>
        Assert.Equal(new Box2(-13, 20, -10, 24), Box("0 INSERT 2 L 10 10 20 20 210 0 220 0 230 -1"));

    [Fact]
    public void Height_scale_of_zero_means_nothing() =>
        Assert.Equal(new Box2(0, 0, 3, 4), Box("0 INSERT 2 L 10 0 20 0 41 1 42 1 43 0"));

    [Fact]
    public void Scale_of_zero_is_read_as_one_and_said()
    {
        DrawingContent drawing = Sketch.Drawing("0 INSERT 2 L 10 0 20 0 41 0 42 2", L);
        Assert.Equal(12, Assert.Single(drawing.Loops).AreaMm2, 1e-9);
        Assert.Contains(drawing.Repairs, r => r.Message.Contains("scale 0", StringComparison.Ordinal));
    }

    [Fact]
    public void Array_steps_are_turned_but_not_scaled()
    {
        DrawingContent drawing = Sketch.Drawing("0 INSERT 2 L 10 0 20 0 41 2 42 2 50 90 70 3 71 2 44 100 45 50", L);
        Assert.Equal(6, drawing.Loops.Length);
        Assert.All(drawing.Loops, l => Assert.Equal(6 * 4, l.AreaMm2, 1e-9));
        // columns go up, rows to the left
        Assert.Equal(new Box2(-58, 0, 0, 206), Rounded(drawing.Loops.Select(l => l.Bounds).Aggregate(LoopMath.Around)));
    }

    [Fact]
    public void Nested_mirrors_cancel()
    {
        const string blocks = L + " 0 BLOCK 2 OUTER 10 0 20 0 0 INSERT 2 l 10 10 20 0 41 -1 0 ENDBLK";
        Assert.Equal(
            new Box2(-10, 0, -7, 4),
            Rounded(Assert.Single(Sketch.Drawing("0 INSERT 2 OUTER 10 0 20 0 41 -1", blocks).Loops).Bounds)
        );
    }

    [Fact]
    public void Uneven_scale_makes_an_ellipse()
    {
        const string blocks = "0 BLOCK 2 C 10 0 20 0 0 CIRCLE 8 0 10 0 20 0 40 10 0 ENDBLK";
        DrawnLoop loop = Assert.Single(Sketch.Drawing("0 INSERT 2 C 10 0 20 0 41 2 42 0.5", blocks).Loops);
        Assert.Equal(Math.PI * 20 * 5, loop.AreaMm2, 0.05);
    }

    [Fact]
    public void Uneven_scale_of_a_turned_block_shears_rightly()
    {
        // a square of side 10 turned by 45 degrees, then stretched twofold in X: a rhombus of twice the area
        const string blocks =
            "0 BLOCK 2 Q 10 0 20 0 0 LWPOLYLINE 90 4 70 1 10 0 20 0 10 10 20 0 10 10 20 10 10 0 20 10 0 ENDBLK "
            + "0 BLOCK 2 T 10 0 20 0 0 INSERT 2 Q 10 0 20 0 50 45 0 ENDBLK";
        DrawnLoop loop = Assert.Single(Sketch.Drawing("0 INSERT 2 T 10 0 20 0 41 2", blocks).Loops);
        Assert.Equal(200, loop.AreaMm2, 1e-9);
        Assert.Equal(4 * Math.Sqrt((200 + 50) * 1.0), loop.PerimeterMm, 1e-9);
    }

    [Fact]
    public void Layer_zero_takes_the_layer_of_the_insert()
    {
        DrawingContent drawing = Sketch.Drawing("0 INSERT 8 CUTOUT 2 L 10 0 20 0", L);
        Assert.Equal("CUTOUT", Assert.Single(drawing.Loops).Layer);
    }

    [Fact]
    public void Attributes_and_their_end_are_no_curves()
    {
        DrawingContent drawing = Sketch.Drawing(
            "0 INSERT 66 1 2 L 10 0 20 0 0 ATTRIB 10 0 20 0 40 2 1 A17 2 TAG 0 SEQEND" + Sketch.Circle(99, 0, 1),
            L
        );
        Assert.Equal(2, drawing.Loops.Length);
        Assert.Equal(["CIRCLE", "INSERT"], drawing.Entities.Keys);
    }

    [Fact]
    public void Missing_block_is_an_error_by_name()
    {
        Finding finding = Assert.Single(
            Sketch.Stage("0 INSERT 2 GHOST 10 0 20 0 0 INSERT 2 GHOST 10 5 20 0").Findings,
            f => f.Severity == Severity.Error
        );
        Assert.Equal("drawing-block-missing", finding.Code);
        Assert.Contains("'GHOST' is inserted 2 times", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Block_of_another_drawing_is_an_error_by_name() =>
        Assert.True(
            Sketch.Stage("0 INSERT 2 X 10 0 20 0", "0 BLOCK 2 X 70 4 10 0 20 0 0 ENDBLK").Has("drawing-block-external")
        );

    private static Box2 Box(string insert) => Rounded(Assert.Single(Sketch.Drawing(insert, L).Loops).Bounds);

    private static Box2 Rounded(Box2 b) =>
        new(
            Math.Round(b.MinX, 9) + 0.0,
            Math.Round(b.MinY, 9) + 0.0,
            Math.Round(b.MaxX, 9) + 0.0,
            Math.Round(b.MaxY, 9) + 0.0
        );
}
