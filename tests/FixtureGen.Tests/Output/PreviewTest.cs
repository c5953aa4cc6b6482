using System.Globalization;
using System.Text;
using System.Xml.Linq;
using FixtureGen.Model;
using FixtureGen.Output.Pictures;
using FixtureGen.Output.Scenes;
using SkiaSharp;
using Xunit;

namespace FixtureGen.Tests.Output;

public sealed class PreviewTest
{
    private static readonly Job Job = SampleJob.Create();
    private static readonly FixtureDesign Design = SampleDesign.Create(Job);

    [Fact]
    public void Png_and_svg_are_the_same_bytes_on_every_run_in_every_culture()
    {
        byte[] png = Preview.Png(Design, Job);
        string svg = Preview.Svg(Design, Job);
        Looked.At("preview.png", png);
        Looked.At("preview.svg", Encoding.UTF8.GetBytes(svg));
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo.CurrentCulture = CultureInfo.GetCultureInfo("de-DE");
            Assert.Equal(png, Preview.Png(Design, Job));
            Assert.Equal(svg, Preview.Svg(Design, Job));
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void Legend_names_every_kind_that_is_drawn_and_the_blank_is_dimensioned()
    {
        string[] texts = [.. Preview.Draw(Design, Job).Inks.OfType<TextInk>().Select(t => t.Text)];
        LineKind[] drawn =
        [
            .. Design.Features.Select(f => f.Setup == Setup.Underside ? LineKind.Below : LineKind.For(f.Kind)),
            LineKind.Edge,
            LineKind.Trim,
            LineKind.Zone,
            LineKind.Tab,
        ];
        Assert.All(drawn, kind => Assert.Contains(kind.Name, texts));
        Assert.Equal(2, texts.Count(t => t == "8.5 in (215.9 mm)"));
        Assert.Contains("X", texts);
        Assert.Contains("Y", texts);
    }

    /// <summary>The letters of pictures are in the font's own units, where every system's font library is near the same whole number.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Letters_are_whole_numbers_wherever_they_are_drawn(bool bold)
    {
        float units = Typefaces.UnitsPerEm(bold);
        using SKFont font = Typefaces.Font(bold, units);
        foreach (int character in Enumerable.Range(' ', '~' - ' ' + 1))
        {
            ushort glyph = font.GetGlyph(character);
            Assert.Equal(Math.Round(font.GetGlyphWidths([glyph])[0]), font.GetGlyphWidths([glyph])[0], 0.25);
            using SKPath? path = font.GetGlyphPath(glyph);
            Assert.All(
                path?.Points.SelectMany(p => new[] { p.X, p.Y }) ?? [],
                at => Assert.Equal(MathF.Round(at), at, 0.25)
            );
        }
    }

    [Fact]
    public void Last_binary_digits_of_a_place_do_not_show_in_the_svg()
    {
        string[] drawn =
        [
            .. new Func<double, double>[] { v => v, Math.BitIncrement, Math.BitDecrement }.Select(nudge =>
            {
                Scene scene = new(100, 80);
                scene.Text("0.5 in", new(nudge(7.9375), nudge(25.4 / 128)), TypeStyle.Plain(nudge(3.175)));
                Point2 from = new(nudge(12.3125), nudge(0.0005));
                scene.Line(from, new(nudge(1 / 3.0), nudge(79.9995)), Pen.Solid(0.25, Colour.Black));
                return SvgDraw.Svg(scene, "nudged");
            }),
        ];
        Assert.Equal(drawn[0], drawn[1]);
        Assert.Equal(drawn[0], drawn[2]);
    }

    /// <summary>SVG 1.1: well-formed, in millimetres, no text element that would need a font where it is opened.</summary>
    [Fact]
    public void Svg_is_portable()
    {
        XElement svg = XDocument.Parse(Preview.Svg(Design, Job)).Root!;
        XNamespace ns = "http://www.w3.org/2000/svg";
        Assert.EndsWith("mm", svg.Attribute("width")!.Value, StringComparison.Ordinal);
        Assert.Empty(svg.Descendants(ns + "text"));
        HashSet<string> glyphs =
        [
            .. svg.Descendants(ns + "defs").Elements(ns + "path").Select(p => "#" + p.Attribute("id")!.Value),
        ];
        XName link = XName.Get("href", "http://www.w3.org/1999/xlink");
        Assert.All(svg.Descendants(ns + "use"), use => Assert.Contains(use.Attribute(link)!.Value, glyphs));
        Assert.Contains(svg.Descendants(ns + "title"), t => t.Value.Contains(Design.Label, StringComparison.Ordinal));
    }
}
