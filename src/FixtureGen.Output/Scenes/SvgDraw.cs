using System.Globalization;
using System.Text;
using FixtureGen.Model;

namespace FixtureGen.Output.Scenes;

/// <summary>
/// Writes a scene as SVG 1.1 in true size. Letters are glyph outlines, so the file needs no font where it is opened; each
/// text keeps its words in a title element.
/// </summary>
internal sealed class SvgDraw
{
    private readonly StringBuilder _body = new();
    private readonly SortedDictionary<(bool Bold, ushort Glyph), string> _glyphs = [];
    private readonly double _height;

    private SvgDraw(double height) => _height = height;

    public static string Svg(Scene scene, string title)
    {
        SvgDraw draw = new(scene.Height);
        foreach (Ink ink in scene.Inks)
        {
            draw.Add(ink);
        }
        StringBuilder all = new();
        all.Append("<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\" ")
            .Append("xmlns:xlink=\"http://www.w3.org/1999/xlink\" version=\"1.1\" ")
            .Append(CultureInfo.InvariantCulture, $"width=\"{N(scene.Width)}mm\" height=\"{N(scene.Height)}mm\" ")
            .Append(
                CultureInfo.InvariantCulture,
                $"viewBox=\"0 0 {N(scene.Width)} {N(scene.Height)}\">\n<title>{Escaped(title)}</title>\n<defs>\n"
            );
        foreach (((bool bold, ushort glyph), string path) in draw._glyphs)
        {
            all.Append(CultureInfo.InvariantCulture, $"<path id=\"{Id(bold, glyph)}\" d=\"{path}\"/>\n");
        }
        return all.Append("</defs>\n<rect width=\"100%\" height=\"100%\" fill=\"#ffffff\"/>\n")
            .Append(draw._body)
            .Append("</svg>\n")
            .ToString();
    }

    private void Add(Ink ink)
    {
        switch (ink)
        {
            case ShapeInk shape:
                Shape(shape);
                break;
            case TextInk text:
                Text(text);
                break;
            case ImageInk image:
                _body
                    .Append(
                        CultureInfo.InvariantCulture,
                        $"<image x=\"{N(image.Box.MinX)}\" y=\"{N(_height - image.Box.MaxY)}\" "
                    )
                    .Append(
                        CultureInfo.InvariantCulture,
                        $"width=\"{N(image.Box.Width)}\" height=\"{N(image.Box.Height)}\" "
                    )
                    .Append(
                        CultureInfo.InvariantCulture,
                        $"xlink:href=\"data:image/png;base64,{Convert.ToBase64String(SkiaDraw.Png(image.Pixels))}\"/>\n"
                    );
                break;
        }
    }

    private void Shape(ShapeInk ink)
    {
        _body.Append("<path d=\"");
        foreach (Chain chain in ink.Chains)
        {
            Append(chain);
        }
        _body.Append(ink.Fill is { } fill ? $"\" fill=\"{Hex(fill)}\" fill-rule=\"evenodd\"" : "\" fill=\"none\"");
        if (ink.Pen is { } pen)
        {
            _body.Append(
                CultureInfo.InvariantCulture,
                $" stroke=\"{Hex(pen.Colour)}\" stroke-width=\"{N(pen.Width)}\" stroke-linejoin=\"round\""
            );
            _body.Append(
                pen.Dash.IsEmpty
                    ? " stroke-linecap=\"round\""
                    : $" stroke-dasharray=\"{string.Join(' ', pen.Dash.Select(N))}\""
            );
        }
        _body.Append("/>\n");
    }

    private void Append(Chain chain)
    {
        _body.Append('M').Append(Place(chain.Segments[0].Start));
        foreach (Segment s in chain.Segments)
        {
            if (s.IsArc)
            {
                int large = Math.Abs(s.Sweep) > Math.PI ? 1 : 0;
                string r = N(s.Radius);
                _body.Append(CultureInfo.InvariantCulture, $"A{r} {r} 0 {large} {(s.IsCcw ? 0 : 1)} ");
            }
            else
            {
                _body.Append('L');
            }
            _body.Append(Place(s.End));
        }
        _body.Append(chain.Closed ? "Z" : "");
    }

    private void Text(TextInk ink)
    {
        double em = Typefaces.UnitsPerEm(ink.Type.Bold);
        double k = ink.Type.Size / em;
        double x = -SkiaDraw.Shift(ink) / k;
        StringBuilder uses = new();
        foreach (Glyph glyph in Typefaces.Glyphs(ink.Text, ink.Type.Bold))
        {
            if (glyph.Outline.Length > 0)
            {
                _glyphs[(ink.Type.Bold, glyph.Id)] = glyph.Outline;
                uses.Append(
                    CultureInfo.InvariantCulture,
                    $"<use xlink:href=\"#{Id(ink.Type.Bold, glyph.Id)}\" x=\"{N(x)}\"/>"
                );
            }
            x += glyph.Advance;
        }
        string turn = ink.AngleDeg == 0 ? "" : $" rotate({N(-ink.AngleDeg)})";
        string place =
            $"transform=\"translate({N(ink.At.X)} {N(_height - ink.At.Y)}){turn} scale({k.ToString("0.########", CultureInfo.InvariantCulture)})\"";
        if (ink.Halo)
        {
            _body.Append(
                CultureInfo.InvariantCulture,
                $"<g {place} fill=\"#ffffff\" stroke=\"#ffffff\" stroke-width=\"{N(0.22 * em)}\" stroke-linejoin=\"round\">{uses}</g>\n"
            );
        }
        _body.Append(
            CultureInfo.InvariantCulture,
            $"<g {place} fill=\"{Hex(ink.Type.Colour)}\"><title>{Escaped(ink.Text)}</title>{uses}</g>\n"
        );
    }

    private string Place(Point2 p) => $"{N(p.X)} {N(_height - p.Y)}";

    private static string Id(bool bold, ushort glyph) =>
        (bold ? "b" : "r") + glyph.ToString(CultureInfo.InvariantCulture);

    private static string Hex(Colour c) => $"#{c.R:x2}{c.G:x2}{c.B:x2}";

    private static string N(double v)
    {
        string text = TrueDigits.Round(v, 3).ToString("0.###", CultureInfo.InvariantCulture);
        return text == "-0" ? "0" : text;
    }

    private static string Escaped(string text) =>
        text.Replace("&", "&amp;", StringComparison.Ordinal)
            .Replace("<", "&lt;", StringComparison.Ordinal)
            .Replace(">", "&gt;", StringComparison.Ordinal);
}
