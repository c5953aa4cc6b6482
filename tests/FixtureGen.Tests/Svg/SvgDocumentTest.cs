using System.Text;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Roles;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Svg;

/// <summary>Units, groups as layers, looks, and documents made to harm.</summary>
[Collection(Alone.Name)]
public sealed class SvgDocumentTest
{
    private const string Part = "<rect width='90' height='60'/>";

    /// <summary>SVG 2, 8.2 and 8.8; 96 px are an inch (CSS Values 3, 5.2).</summary>
    [Theory]
    [InlineData("width='90mm' height='60mm' viewBox='0 0 90 60'", "mm", 5400)]
    [InlineData("width='9cm' height='6cm' viewBox='0 0 90 60'", "mm", 5400)]
    [InlineData("width='90in' height='60in' viewBox='0 0 90 60'", "in", 5400 * 645.16)]
    [InlineData("width='90mm' viewBox='0 0 90 60'", "mm", 5400)]
    [InlineData("width='180mm' height='60mm' viewBox='0 0 90 60'", "mm", 5400)]
    [InlineData("width='96mm' height='96mm'", "mm", 5400 * 25.4 / 96 * 25.4 / 96)]
    [InlineData("width='90' height='60' viewBox='0 0 90 60'", null, 5400)]
    [InlineData("viewBox='0 0 90 60'", null, 5400)]
    [InlineData("width='100%' viewBox='0 0 90 60'", null, 5400)]
    public void Units_and_view_box(string frame, string? unit, double area)
    {
        Stage<DrawingContent> stage = SvgSketch.Stage(SvgSketch.Text(Part, frame));
        Assert.Equal(unit is null, stage.Value!.Unit is null);
        Assert.Equal(area, Assert.Single(stage.Value.Loops).AreaMm2, 1e-9 * area);
        Assert.Equal(unit is null, stage.Findings.Any(f => f.Code == "unit-missing"));
    }

    [Fact]
    public void Without_a_unit_the_job_is_asked_and_pixels_are_one_of_its_answers()
    {
        string text = SvgSketch.Text(Part, "width='180' height='120' viewBox='0 0 90 60'");
        Assert.Contains(
            "90 x 60 mm, or 2286 x 1524 mm if drawn in inches, or 47.625 x 31.75 mm if in pixels",
            Assert.Single(PartBuilder.Build(SvgSketch.Stage(text).Value!).Findings).Message,
            StringComparison.Ordinal
        );
        Assert.Equal(5400, Area(text, LengthUnit.Millimetre), 1e-9);
        Assert.Equal(47.625 * 31.75, Area(text, LengthUnit.Pixel), 1e-9);
        Assert.Equal(LengthUnit.Pixel, DemoShop.Job(DemoShop.PlainJob(more: "[drawing]\nunit = \"px\"")).DrawingUnit);
    }

    /// <summary>What the drawing says itself stands where the job says the same; another unit is that of its user units.</summary>
    [Fact]
    public void A_stated_unit_meets_the_drawings_own()
    {
        string text = SvgSketch.Text(Part, "width='45mm' height='30mm' viewBox='0 0 90 60'");
        Assert.Equal(1350, Area(text, LengthUnit.Millimetre), 1e-9);
        Stage<DrawingContent> inches = SvgSketch.Stage(text, LengthUnit.Inch);
        Assert.Equal(5400 * 645.16, inches.Value!.Loops[0].AreaMm2, 1e-3);
        Assert.Contains(inches.Findings, f => f.Code == "unit-overridden");
    }

    [Theory]
    [InlineData("<g id='CUTOUT'><g id='g12'><circle r='5' cx='20' cy='20'/></g></g>", "CUTOUT")]
    [InlineData("<g label='Holes' id='layer3'><g id='inner'><circle r='5' cx='20' cy='20'/></g></g>", "Holes")]
    [InlineData("<g x:label='Holes' xmlns:x='urn:x'><circle id='a' r='5' cx='20' cy='20'/></g>", "Holes")]
    [InlineData("<circle id='keepout' r='5' cx='20' cy='20'/>", "keepout")]
    [InlineData("<g id='layer1'><circle id='cutout' r='5' cx='20' cy='20'/></g>", "cutout")]
    [InlineData("<circle id='drain' r='5' cx='20' cy='20'/>", "drain")]
    [InlineData("<circle id='circle815-3' r='5' cx='20' cy='20'/>", "0")]
    [InlineData("<g id='g10'><circle id='_2' r='5' cx='20' cy='20'/></g>", "0")]
    public void Groups_and_ids_are_layers(string inside, string layer) =>
        Assert.Equal(layer, Assert.Single(SvgSketch.Drawing(inside).Curves).Layer);

    [Theory]
    [InlineData("stroke='red'", "red", false, Hiding.None)]
    [InlineData("style='stroke:#f00;fill:none'", "red", false, Hiding.None)]
    [InlineData("class='b'", "blue", true, Hiding.None)]
    [InlineData("stroke='none' fill='rgb(0, 255, 0)'", "green", false, Hiding.None)]
    [InlineData("stroke-dasharray='4 2'", "black", true, Hiding.None)]
    [InlineData("stroke-dasharray='none'", "black", false, Hiding.None)]
    [InlineData("stroke='none'", "black", false, Hiding.Invisible)]
    [InlineData("display='none'", "black", false, Hiding.Invisible)]
    [InlineData("visibility='hidden'", "black", false, Hiding.Invisible)]
    public void Looks(string attributes, string colour, bool broken, Hiding hidden)
    {
        CurveLook look = Assert
            .Single(
                SvgSketch
                    .Drawing(
                        $"<style>/* a */ .a, .b {{ stroke: blue; stroke-dasharray: 1 }}</style><circle r='5' cx='20' cy='20' {attributes}/>"
                    )
                    .Curves
            )
            .Look;
        Assert.Equal((colour, broken, hidden), (look.Colour, look.Broken, look.Hidden));
    }

    [Fact]
    public void An_svg_makes_the_same_part_as_a_dxf()
    {
        Part part = PartBuilder
            .Build(
                SvgSketch.Drawing(
                    "<rect id='OUTLINE' width='120' height='80'/><g id='CUTOUT'><circle cx='30' cy='40' r='8'/><circle cx='90' cy='40' r='8' stroke-dasharray='2'/></g><text x='1' y='2'>note</text>"
                )
            )
            .Value!;
        Assert.Single(part.Cutouts);
    }

    [Theory]
    [InlineData("<path d='M0 0 L1 1 X'/>")]
    [InlineData("<path d='L1 1'/>")]
    [InlineData("<path d='M0 0 A1 1 0 2 1 3 3'/>")]
    [InlineData("<circle r='50%'/>")]
    [InlineData("<rect width='2em' height='3'/>")]
    [InlineData("<rect width='2' height='3' transform='rotate(a)'/>")]
    [InlineData("<polygon points='1 2 x'/>")]
    [InlineData("<use href='other.svg#a'/>")]
    [InlineData("<use href='#nowhere'/>")]
    public void What_cannot_be_read_is_an_error_and_never_left_out(string inside)
    {
        Finding finding = Assert.Single(
            SvgSketch.Stage(SvgSketch.Text(inside)).Findings,
            f => f.Severity == Severity.Error
        );
        Assert.Equal(1, finding.Line);
    }

    /// <summary>What is outside the file is not fetched; a file that would say something there says nothing here.</summary>
    [Fact]
    public void External_entities_stay_outside()
    {
        string secret = Path.GetTempFileName();
        File.WriteAllText(secret, "M0 0 h90 v60 h-90 z");
        try
        {
            string text =
                $"<!DOCTYPE svg [<!ENTITY e SYSTEM \"file://{secret}\">]>" + SvgSketch.Text("<text>&e;</text>" + Part);
            Stage<DrawingContent> stage = SvgSketch.Stage(text);
            Assert.DoesNotContain(stage.Value?.Texts ?? [], t => t.Text.Contains("h90", StringComparison.Ordinal));
        }
        finally
        {
            File.Delete(secret);
        }
    }

    [Fact]
    public void A_document_type_and_entities_of_its_own_are_read()
    {
        string text =
            "<?xml version=\"1.0\"?><!DOCTYPE svg PUBLIC \"-//W3C//DTD SVG 1.1//EN\" \"http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd\" [<!ENTITY w \"90\">]>"
            + SvgSketch.Text("<rect width='&w;' height='60'/>");
        Assert.Equal(5400, Area(text, null), 1e-9);
    }

    [Theory]
    [InlineData("drawing-not-xml", "<svg><g></svg>")]
    [InlineData("drawing-not-dxf", "<html></html>")]
    public void Refused_by_name(string code, string text) => Refused(code, text);

    [Fact]
    public void Entities_that_double_forty_times()
    {
        var types = new StringBuilder("<!DOCTYPE svg [<!ENTITY e0 \"ha\">");
        for (int i = 1; i <= 40; i++)
        {
            types.Append(FormattableString.Invariant($"<!ENTITY e{i} \"&e{i - 1};&e{i - 1};\">"));
        }
        Refused("drawing-not-xml", types + "]>" + SvgSketch.Text("<text>&e40;</text>"));
    }

    [Fact]
    public void Uses_that_double_forty_times()
    {
        var uses = new StringBuilder("<g id='u0'><circle r='1'/></g>");
        for (int i = 1; i <= 40; i++)
        {
            uses.Append(
                FormattableString.Invariant($"<g id='u{i}'><use href='#u{i - 1}'/><use href='#u{i - 1}' x='1'/></g>")
            );
        }
        Refused("drawing-too-many|drawing-block-depth", SvgSketch.Text(uses.ToString()));
    }

    [Fact]
    public void A_use_of_itself() =>
        Refused("drawing-block-recursion", SvgSketch.Text("<g id='a'><use href='#a'/></g>"));

    [Fact]
    public void Ten_thousand_groups_inside_each_other() =>
        Refused(
            "drawing-block-depth",
            SvgSketch.Text(
                string.Concat(Enumerable.Repeat("<g>", 10_000)) + string.Concat(Enumerable.Repeat("</g>", 10_000))
            )
        );

    [Fact]
    public void A_chain_of_ten_thousand_uses() =>
        Refused(
            "drawing-block-depth",
            SvgSketch.Text(
                "<defs><circle id='v0' r='1'/>"
                    + string.Concat(
                        Enumerable
                            .Range(1, 10_000)
                            .Select(i => FormattableString.Invariant($"<use id='v{i}' href='#v{i - 1}'/>"))
                    )
                    + "</defs><use href='#v10000'/>"
            )
        );

    [Fact]
    public void A_long_path_used_often() =>
        Refused(
            "drawing-too-many",
            SvgSketch.Text(
                $"<defs><path id='a' d='M0 0{new string(' ', 1 << 20)}L1 1'/></defs>"
                    + string.Concat(Enumerable.Repeat("<use href='#a'/>", 10_000))
            )
        );

    [Fact]
    public void A_path_of_a_million_pieces() =>
        Refused(
            "drawing-entity-unreadable|drawing-too-many",
            SvgSketch.Text($"<path d='M0 0{string.Concat(Enumerable.Repeat("h1v1", 500_000))}'/>"),
            value: true
        );

    private static double Area(string text, LengthUnit? unit) =>
        Assert.Single(SvgSketch.Stage(text, unit).Value!.Loops).AreaMm2;

    // as for DXF: 2 s of processor time and 1 GB
    private static void Refused(string codes, string text, bool value = false)
    {
        long before = GC.GetAllocatedBytesForCurrentThread();
        TimeSpan start = Environment.CpuUsage.TotalTime;
        Stage<DrawingContent> stage = SvgSketch.Stage(text);
        TimeSpan taken = Environment.CpuUsage.TotalTime - start;
        Assert.True(taken < TimeSpan.FromSeconds(2), taken.ToString());
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 1L << 30);
        Assert.True(value || stage.Value is null);
        Finding finding = Assert.Single(stage.Findings, f => f.Severity == Severity.Error);
        Assert.Contains(finding.Code, codes.Split('|'));
        Assert.NotEmpty(finding.Remedy);
    }
}
