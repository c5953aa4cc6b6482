using System.Text;
using FixtureGen.Drawing;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Dxf;

/// <summary>Drawings made to blow up: each is refused by name, within 2 s and 1 GB.</summary>
[Collection(Alone.Name)]
public sealed class BombTest
{
    [Fact]
    public void Array_of_a_thousand_million() =>
        Refused(
            "drawing-block-bomb",
            Sketch.Text("0 INSERT 2 A 10 0 20 0 70 32000 71 32000 44 1 45 1", Block("A", ""))
        );

    [Fact]
    public void Blocks_that_double_thirty_times()
    {
        string blocks = Block("B0", Sketch.Circle(0, 0, 1));
        for (int i = 1; i <= 30; i++)
        {
            blocks += Block(B(i), $"0 INSERT 2 {B(i - 1)} 10 0 20 0 0 INSERT 2 {B(i - 1)} 10 1 20 0");
        }
        Refused("drawing-too-many|drawing-block-bomb", Sketch.Text("0 INSERT 2 B30 10 0 20 0", blocks));
    }

    [Fact]
    public void Empty_blocks_that_double_thirty_times()
    {
        string blocks = Block("B0", "");
        for (int i = 1; i <= 30; i++)
        {
            blocks += Block(B(i), $"0 INSERT 2 {B(i - 1)} 10 0 20 0 0 INSERT 2 {B(i - 1)} 10 1 20 0");
        }
        Refused("drawing-too-many|drawing-block-bomb", Sketch.Text("0 INSERT 2 B30 10 0 20 0", blocks));
    }

    [Fact]
    public void Block_in_itself() =>
        Refused("drawing-block-recursion", Sketch.Text("0 INSERT 2 A 10 0 20 0", Block("A", "0 INSERT 2 A 10 1 20 0")));

    [Fact]
    public void Blocks_in_a_ring() =>
        Refused(
            "drawing-block-recursion",
            Sketch.Text(
                "0 INSERT 2 A 10 0 20 0",
                Block("A", "0 INSERT 2 B 10 1 20 0") + Block("B", "0 INSERT 2 a 10 1 20 0")
            )
        );

    [Fact]
    public void Blocks_nested_a_thousand_deep()
    {
        var blocks = new StringBuilder(Block("B0", Sketch.Circle(0, 0, 1)));
        for (int i = 1; i <= 1000; i++)
        {
            blocks.Append(Block(B(i), $"0 INSERT 2 {B(i - 1)} 10 0 20 0"));
        }
        Refused("drawing-block-depth", Sketch.Text("0 INSERT 2 B1000 10 0 20 0", blocks.ToString()));
    }

    [Fact]
    public void File_beyond_the_bound() => Refused("drawing-too-large", new byte[DxfReader.MostBytes + 1]);

    [Fact]
    public void Line_of_sixty_megabytes()
    {
        var bytes = new byte[DxfReader.MostBytes];
        bytes.AsSpan().Fill((byte)'7');
        "0\nSECTION\n2\nENTITIES\n0\nTEXT\n1\n"u8.CopyTo(bytes);
        Refused("drawing-line-too-long", bytes);
    }

    [Fact]
    public void More_entities_than_any_part()
    {
        byte[] one = "0\nPOINT\n10\n1\n20\n1\n"u8.ToArray();
        var bytes = new byte[DxfReader.MostBytes];
        "0\nSECTION\n2\nENTITIES\n"u8.CopyTo(bytes);
        for (int at = 22; at + one.Length < bytes.Length; at += one.Length)
        {
            one.CopyTo(bytes, at);
        }
        Refused("drawing-too-many", bytes);
    }

    [Fact]
    public void One_polyline_of_millions_of_vertices()
    {
        byte[] one = "10\n1\n20\n1\n"u8.ToArray();
        var bytes = new byte[DxfReader.MostBytes];
        "0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n70\n1\n"u8.CopyTo(bytes);
        for (int at = 40; at + one.Length < bytes.Length; at += one.Length)
        {
            one.CopyTo(bytes, at);
        }
        Refused("drawing-too-many|drawing-group-code", bytes);
    }

    [Fact]
    public void Array_of_splines_counts_its_arcs()
    {
        const string spline =
            "0 SPLINE 70 8 71 3 40 0 40 0 40 0 40 0 40 1 40 1 40 1 40 1 10 0 20 0 10 900000 20 900000 10 -900000 20 900000 10 100 20 0";
        Refused(
            "drawing-too-many|drawing-block-bomb",
            Sketch.Text("0 INSERT 2 A 10 0 20 0 70 999 71 999", Block("A", spline))
        );
    }

    // every line crosses every other: too many to compare, so the drawing is not believed, in bounded time
    [Fact]
    public void Hedgehog_of_crossing_lines()
    {
        var lines = new StringBuilder();
        for (int i = 0; i < 10_000; i++)
        {
            double a = i * 0.7;
            lines.Append(Sketch.Line(100 * Math.Cos(a), 100 * Math.Sin(a), -99 * Math.Cos(a), -99 * Math.Sin(a)));
        }
        Stage<DrawingContent> stage = Timed(Sketch.Bytes(Sketch.Text(lines.ToString())));
        Assert.True(stage.Has("drawing-tangled"), string.Join('\n', stage.Findings));
    }

    /// <summary>Circles round one middle, each a third loop deep in the next: their boxes all lie in each other.</summary>
    [Fact]
    public void Twenty_thousand_circles_round_one_middle()
    {
        var circles = new StringBuilder();
        for (int i = 0; i < 20_000; i++)
        {
            circles.Append(Sketch.Circle(0, 0, 5 + (i * 0.02)));
        }
        Stage<DrawingContent> stage = Timed(Sketch.Bytes(Sketch.Text(circles.ToString())));
        Assert.True(stage.Has("drawing-tangled"), string.Join('\n', stage.Findings));
    }

    [Theory]
    [InlineData(20_000)]
    [InlineData(40_000)]
    public void Circles_that_overlap(int count)
    {
        var circles = new StringBuilder();
        for (int i = 0; i < count; i++)
        {
            circles.Append(Sketch.Circle(i % 200, i / 200, 5));
        }
        Timed(Sketch.Bytes(Sketch.Text(circles.ToString())));
    }

    /// <summary>Holes side by side, touching or not: each was asked against each, 46 s for 50,000.</summary>
    [Theory]
    [InlineData(2)]
    [InlineData(1.5)]
    public void Forty_thousand_holes_make_a_part_in_time(double radius)
    {
        var circles = new StringBuilder(
            Sketch.Line(0, 0, 1000, 0)
                + Sketch.Line(1000, 0, 1000, 1000)
                + Sketch.Line(1000, 1000, 0, 1000)
                + Sketch.Line(0, 1000, 0, 0)
        );
        for (int i = 0; i < 40_000; i++)
        {
            circles.Append(Sketch.Circle((i % 240 * 4) + 4, (i / 240 * 4) + 4, radius));
        }
        byte[] bytes = Sketch.Bytes(Sketch.Text(circles.ToString()));
        DrawingContent drawing = Timed(bytes).Value!;
        TimeSpan start = Environment.CpuUsage.TotalTime;
        Stage<Part> part = FixtureGen.Drawing.Roles.PartBuilder.Build(drawing with { Unit = LengthUnit.Millimetre });
        Assert.True(Environment.CpuUsage.TotalTime - start < TimeSpan.FromSeconds(5));
        Assert.Equal(radius < 2, part.Ok);
        Assert.True(part.Ok || part.Findings.Any(f => f.Code == "loops-cross"));
    }

    /// <summary>Squared paper: every line ends where three others do, so every end is asked whether it is a junction.</summary>
    [Fact]
    public void Squared_paper()
    {
        var lines = new StringBuilder();
        for (int i = 0; i < 120; i++)
        {
            for (int j = 0; j < 120; j++)
            {
                lines.Append(Sketch.Line(i, j, i + 1, j)).Append(Sketch.Line(i, j, i, j + 1));
            }
        }
        Assert.True(Timed(Sketch.Bytes(Sketch.Text(lines.ToString()))).Has("junction"));
    }

    [Theory]
    [InlineData(10)]
    [InlineData(11)]
    public void Spline_of_a_hundred_thousand_points(int code)
    {
        var points = new StringBuilder("0 SPLINE 8 0 70 0 71 3");
        for (int i = 0; i < 100_000; i++)
        {
            points.Append(FormattableString.Invariant($" {code} {i * 7919 % 1000} {code + 10} {i * 104729 % 1000}"));
        }
        Stage<DrawingContent> stage = Timed(Sketch.Bytes(Sketch.Text(points.ToString())));
        Assert.Contains(
            "100000 points; at most 20000",
            Assert.Single(stage.Findings, f => f.Severity == Severity.Error).Message,
            StringComparison.Ordinal
        );
    }

    /// <summary>A slip in a bulge makes a circle of hundreds of kilometres: read, but no part, whatever unit the job states.</summary>
    [Theory]
    [InlineData("1e5")]
    [InlineData("1e7")]
    [InlineData("1e12")]
    public void Bulge_beyond_all_sense(string bulge)
    {
        byte[] bytes = Sketch.Bytes(
            Sketch.Text($"0 LWPOLYLINE 8 0 90 4 70 1 10 0 20 0 42 {bulge} 10 100 20 0 10 100 20 80 10 0 20 80")
        );
        Timed(bytes);
        Stage<Part> part = FixtureGen.Drawing.Roles.PartBuilder.Build(
            Sketch.Read(bytes, LengthUnit.Millimetre).Value!,
            DemoShop.Job(DemoShop.PlainJob())
        );
        Assert.Null(part.Value);
        Assert.Contains(part.Findings, f => f.Code == "size-impossible" && f.Severity == Severity.Error);
    }

    private static string B(int i) => FormattableString.Invariant($"B{i}");

    private static string Block(string name, string entities) =>
        $" 0 BLOCK 2 {name} 10 0 20 0 70 0 {entities} 0 ENDBLK";

    private static void Refused(string codes, string groups) => Refused(codes, Sketch.Bytes(groups));

    private static void Refused(string codes, byte[] bytes)
    {
        Stage<DrawingContent> stage = Timed(bytes);
        Assert.Null(stage.Value);
        Finding finding = Assert.Single(stage.Findings, f => f.Severity == Severity.Error);
        Assert.Contains(finding.Code, codes.Split('|'));
    }

    private static Stage<DrawingContent> Timed(byte[] bytes)
    {
        // processor time, and alone: what else the machine does must not count; allocated in all, not held at once
        long before = GC.GetAllocatedBytesForCurrentThread();
        TimeSpan start = Environment.CpuUsage.TotalTime;
        Stage<DrawingContent> stage = Sketch.Read(bytes);
        TimeSpan taken = Environment.CpuUsage.TotalTime - start;
        Assert.True(taken < TimeSpan.FromSeconds(2), taken.ToString());
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 1L << 30);
        return stage;
    }
}
