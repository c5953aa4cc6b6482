using FixtureGen.Drawing.Roles;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Dxf;

/// <summary>Open curves are told by what they are, with a remedy that fits.</summary>
public sealed class StraysTest
{
    private static readonly string Outline = Sketch.Rectangle(0, 0, 120, 80);

    [Theory]
    [InlineData(20, 40, 40, 40)]
    [InlineData(30, 28, 30, 52)]
    [InlineData(23, 33, 37, 47)]
    public void A_line_through_a_circles_middle_is_a_centre_line(double x0, double y0, double x1, double y1)
    {
        Stage<Part> part = Build(Outline + Sketch.Circle(30, 40, 8) + Sketch.Line(x0, y0, x1, y1));
        Assert.Single(part.Value!.Cutouts);
        Finding finding = Assert.Single(part.Findings);
        Assert.Equal(("centre-line", Severity.Warning), (finding.Code, finding.Severity));
        Assert.Contains("(30, 40)", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void The_parts_own_axes_are_centre_lines()
    {
        Stage<Part> part = Build(Outline + Sketch.Line(-5, 40, 125, 40) + Sketch.Line(60, -5, 60, 85));
        Assert.True(part.Ok, string.Join('\n', part.Findings));
        // one cause, one finding
        Assert.StartsWith("2 straight lines", Assert.Single(part.Findings).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_short_line_over_a_corner_is_a_stub()
    {
        Stage<Part> part = Build(
            Sketch.Line(0, 0, 120, 0)
                + Sketch.Line(120, 0, 120, 80)
                + Sketch.Line(120, 80, 0, 80)
                + Sketch.Line(0, 80, 0, 0)
                + Sketch.Line(120, 80, 121.5, 80)
        );
        Finding finding = Assert.Single(part.Findings);
        Assert.Equal(("stub", Severity.Warning), (finding.Code, finding.Severity));
        Assert.Contains("1 stubs, the longest of 1.5 mm", finding.Message, StringComparison.Ordinal);
        Assert.Contains("(120, 80)", finding.Message, StringComparison.Ordinal);
    }

    /// <summary>An end snap does not help here: both lines run past the corner.</summary>
    [Fact]
    public void A_corner_drawn_past_itself_says_where_to_trim()
    {
        Stage<Part> part = Build(
            Sketch.Line(-1.5, 0, 120, 0)
                + Sketch.Line(120, 0, 120, 80)
                + Sketch.Line(120, 80, 0, 80)
                + Sketch.Line(0, 80, 0, -0.8)
        );
        Assert.Null(part.Value);
        string remedy = part.Findings.First(f => f.Code == "outline-open").Remedy;
        Assert.StartsWith("trim both ends at (0, 0), where they cross: they run ", remedy, StringComparison.Ordinal);
        Assert.Contains("1.5", remedy, StringComparison.Ordinal);
        Assert.Contains("0.8", remedy, StringComparison.Ordinal);
    }

    /// <summary>A slot without its ends is two straight lines: they may be an edge, so nothing is made.</summary>
    [Fact]
    public void What_may_be_an_edge_is_refused()
    {
        Stage<Part> part = Build(Outline + Sketch.Line(20, 20, 50, 20) + Sketch.Line(20, 26, 50, 26));
        Assert.Null(part.Value);
        Assert.All(part.Findings, f => Assert.Equal(("outline-open", Severity.Error), (f.Code, f.Severity)));
        Assert.Contains("draw the edge that is missing", part.Findings[0].Remedy, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0.092, "join = \"0.1 mm\"")]
    [InlineData(0.5, "join = \"0.5 mm\"")]
    [InlineData(0.61, null)]
    public void A_small_gap_is_told_the_join_that_closes_it(double gap, string? join)
    {
        Stage<Part> part = Build(
            "0 LWPOLYLINE 8 0 90 4 70 0 10 0 20 80 10 0 20 0 10 120 20 0 10 120 20 80" + Sketch.Line(120, 80, gap, 80)
        );
        string remedy = Assert.Single(part.Findings, f => f.Code == "outline-open").Remedy;
        Assert.StartsWith("draw the two ends to one point", remedy, StringComparison.Ordinal);
        Assert.Equal(
            join is not null,
            remedy.Contains("tried, it closes 1 curves and leaves 0 open", StringComparison.Ordinal)
        );
        Assert.Contains(join ?? "", remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void Every_joined_place_is_told()
    {
        Finding note = Assert.Single(
            Build(
                Sketch.Line(0, 0, 120, 0)
                    + Sketch.Line(120, 0.03, 120, 80)
                    + Sketch.Line(120, 80, 0, 80)
                    + Sketch.Line(0.04, 80, 0, 0)
            ).Findings
        );
        Assert.Equal(
            "2 gaps joined, the widest 0.04 at (0.02, 80); the others 0.03 at (120, 0.015) (outline).",
            note.Message
        );
    }

    private static Stage<Part> Build(string entities) =>
        PartBuilder.Build(Sketch.Stage(entities).Value!, DemoShop.Job(DemoShop.PlainJob()));
}
