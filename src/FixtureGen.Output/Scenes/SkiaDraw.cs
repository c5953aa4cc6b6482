using System.Numerics;
using System.Runtime.InteropServices;
using FixtureGen.Model;
using SkiaSharp;

namespace FixtureGen.Output.Scenes;

/// <summary>
/// Lays a scene's inks on a canvas whose unit is a millimetre times Scale, Y down. Serves pixels, where letters are shapes
/// like any other, and PDF, where text stays text.
/// </summary>
internal sealed class SkiaDraw(SKCanvas canvas, double height, double scale, bool textStaysText)
{
    /// <summary>A picture whose size differs by less than this from its own pixels is placed as it is.</summary>
    private const float WholePixel = 0.01f;

    /// <summary>
    /// Drawn in the order of bytes (blue, green, red) that the library has its own short ways for: lines thinner than a pixel
    /// take a third of the time.
    /// </summary>
    private const SKColorType Drawn = SKColorType.Bgra8888;

    /// <summary>The scene as PNG bytes at <paramref name="pixelsPerMm"/>.</summary>
    public static byte[] Png(Scene scene, double pixelsPerMm)
    {
        int w = (int)Math.Round(scene.Width * pixelsPerMm);
        int h = (int)Math.Round(scene.Height * pixelsPerMm);
        using Pixels sheet = new(w, h);
        using Pinned memory = new(sheet.Memory);
        using SKSurface surface = SKSurface.Create(Info(sheet), memory.Address, 4 * w);
        surface.Canvas.Clear(SKColors.White);
        new SkiaDraw(surface.Canvas, scene.Height, pixelsPerMm, textStaysText: false).Draw(scene);
        using SKPixmap pixels = surface.PeekPixels();
        return Encode(pixels);
    }

    /// <summary>Pixels as PNG bytes.</summary>
    public static byte[] Png(Pixels pixels)
    {
        using Pixels copy = new(pixels.Width, pixels.Height);
        pixels.Bgra.CopyTo(copy.Bgra);
        using Pinned memory = new(copy.Memory);
        using SKPixmap map = new(Info(copy), memory.Address, 4 * copy.Width);
        return Encode(map);
    }

    /// <summary>
    /// Opaque pixels as a PNG; they change their order of bytes in place. Given that the fourth byte means nothing, the encoder
    /// leaves it out in half the time and writes the same.
    /// </summary>
    private static byte[] Encode(SKPixmap pixels)
    {
        SwapRedAndBlue(MemoryMarshal.Cast<byte, uint>(pixels.GetPixelSpan()));
        using SKPixmap opaque = pixels.WithColorType(SKColorType.Rgb888x);
        using SKData? data = opaque.Encode(new SKPngEncoderOptions(SKPngEncoderFilterFlags.None, 3));
        return data?.ToArray() ?? throw new InvalidOperationException("the PNG encoder gave nothing");
    }

    private static void SwapRedAndBlue(Span<uint> pixels)
    {
        int i = 0;
        for (; i <= pixels.Length - Vector<uint>.Count; i += Vector<uint>.Count)
        {
            Vector<uint> four = new(pixels[i..]);
            Vector<uint> swapped = ((four >> 16) & new Vector<uint>(0xFF)) | ((four & new Vector<uint>(0xFF)) << 16);
            (swapped | (four & new Vector<uint>(0xFF00FF00))).CopyTo(pixels[i..]);
        }
        for (; i < pixels.Length; i++)
        {
            uint p = pixels[i];
            pixels[i] = ((p >> 16) & 0xFF) | ((p & 0xFF) << 16) | (p & 0xFF00FF00);
        }
    }

    private static SKImageInfo Info(Pixels pixels) => new(pixels.Width, pixels.Height, Drawn, SKAlphaType.Opaque);

    public void Draw(Scene scene)
    {
        foreach (Ink ink in scene.Inks)
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
                    Image(image);
                    break;
            }
        }
    }

    private void Shape(ShapeInk ink)
    {
        using SKPathBuilder builder = new() { FillType = SKPathFillType.EvenOdd };
        foreach (Chain chain in ink.Chains)
        {
            Append(builder, chain);
        }
        using SKPath path = builder.Detach();
        if (ink.Fill is { } fill)
        {
            using SKPaint paint = new()
            {
                IsAntialias = true,
                Color = Sk(fill),
                Style = SKPaintStyle.Fill,
            };
            canvas.DrawPath(path, paint);
        }
        if (ink.Pen is { } pen)
        {
            using SKPathEffect? dash = pen.Dash.IsEmpty
                ? null
                : SKPathEffect.CreateDash([.. pen.Dash.Select(d => (float)(d * scale))], 0);
            using SKPaint paint = new()
            {
                IsAntialias = true,
                Color = Sk(pen.Colour),
                Style = SKPaintStyle.Stroke,
                StrokeWidth = (float)(pen.Width * scale),
                StrokeCap = pen.Dash.IsEmpty ? SKStrokeCap.Round : SKStrokeCap.Butt,
                StrokeJoin = SKStrokeJoin.Round,
                PathEffect = dash,
            };
            canvas.DrawPath(path, paint);
        }
    }

    private void Append(SKPathBuilder path, Chain chain)
    {
        path.MoveTo(ToSkia(chain.Segments[0].Start));
        foreach (Segment s in chain.Segments)
        {
            if (!s.IsArc)
            {
                path.LineTo(ToSkia(s.End));
                continue;
            }
            Arc(path, s);
        }
        if (chain.Closed)
        {
            path.Close();
        }
    }

    /// <summary>
    /// An arc as cubics, each at most an eighth of a turn with its handles 4/3 tan(angle / 4) radii long: off by 4 millionths of
    /// the radius at most (Goldapp, Computer Aided Geometric Design 8, 1991). The library's own arcs take four times as many
    /// on paper.
    /// </summary>
    private void Arc(SKPathBuilder path, Segment arc)
    {
        int pieces = (int)Math.Ceiling(Math.Abs(arc.Sweep) / (Math.PI / 4));
        double turn = arc.Sweep / pieces;
        double handle = 4.0 / 3 * Math.Tan(turn / 4);
        Point2 from = arc.Start - arc.Centre;
        for (int i = 1; i <= pieces; i++)
        {
            (double sin, double cos) = Math.SinCos(turn);
            Point2 to =
                i == pieces
                    ? arc.End - arc.Centre
                    : new((from.X * cos) - (from.Y * sin), (from.X * sin) + (from.Y * cos));
            path.CubicTo(
                ToSkia(arc.Centre + from + (from.Left * handle)),
                ToSkia(arc.Centre + to - (to.Left * handle)),
                ToSkia(arc.Centre + to)
            );
            from = to;
        }
    }

    private void Text(TextInk ink)
    {
        canvas.Save();
        canvas.Translate(ToSkia(ink.At).X, ToSkia(ink.At).Y);
        canvas.RotateDegrees((float)-ink.AngleDeg);
        canvas.Translate((float)(-Shift(ink) * scale), 0);
        Glyph[] glyphs = Typefaces.Glyphs(ink.Text, ink.Type.Bold);
        double k = ink.Type.Size * scale / Typefaces.UnitsPerEm(ink.Type.Bold);
        if (ink.Halo || !textStaysText)
        {
            using SKPath outline = Outline(glyphs, (float)k);
            if (ink.Halo)
            {
                using SKPaint rim = new()
                {
                    IsAntialias = true,
                    Color = SKColors.White,
                    Style = SKPaintStyle.Stroke,
                    StrokeJoin = SKStrokeJoin.Round,
                    StrokeWidth = (float)(ink.Type.Size * scale * 0.22),
                };
                canvas.DrawPath(outline, rim);
            }
            if (!textStaysText)
            {
                using SKPaint fill = new() { IsAntialias = true, Color = Sk(ink.Type.Colour) };
                canvas.DrawPath(outline, fill);
            }
        }
        if (textStaysText && Placed(glyphs, ink.Type, k) is { } placed)
        {
            using SKPaint paint = new() { IsAntialias = true, Color = Sk(ink.Type.Colour) };
            canvas.DrawText(placed, 0, 0, paint);
            placed.Dispose();
        }
        canvas.Restore();
    }

    private static SKPath Outline(Glyph[] glyphs, float k)
    {
        using SKPathBuilder text = new();
        int x = 0;
        foreach (Glyph glyph in glyphs)
        {
            if (glyph.Outline.Length > 0)
            {
                using SKPath letter = SKPath.ParseSvgPathData(glyph.Outline);
                SKMatrix place = SKMatrix.CreateScaleTranslation(k, k, k * x, 0);
                text.AddPath(letter, in place);
            }
            x += glyph.Advance;
        }
        return text.Detach();
    }

    /// <summary>Each letter at its own place, so that no font library adds widths up; null for a text without any.</summary>
    private SKTextBlob? Placed(Glyph[] glyphs, TypeStyle type, double k)
    {
        if (glyphs.Length == 0)
        {
            return null;
        }
        using SKFont font = Typefaces.Font(type.Bold, type.Size * scale);
        using SKTextBlobBuilder builder = new();
        float[] places = new float[glyphs.Length];
        int x = 0;
        for (int i = 0; i < places.Length; i++)
        {
            places[i] = (float)(k * x);
            x += glyphs[i].Advance;
        }
        builder.AddHorizontalRun([.. glyphs.Select(g => g.Id)], font, places, 0);
        return builder.Build();
    }

    private void Image(ImageInk ink)
    {
        using Pinned memory = new(ink.Pixels.Memory);
        using SKPixmap map = new(Info(ink.Pixels), memory.Address, 4 * ink.Pixels.Width);
        using SKImage image = SKImage.FromPixels(map);
        SKPoint a = ToSkia(new Point2(ink.Box.MinX, ink.Box.MaxY));
        SKPoint b = ToSkia(new Point2(ink.Box.MaxX, ink.Box.MinY));
        bool pixelForPixel =
            Math.Abs(b.X - a.X - image.Width) < WholePixel && Math.Abs(b.Y - a.Y - image.Height) < WholePixel;
        if (pixelForPixel)
        {
            canvas.DrawImage(image, MathF.Round(a.X), MathF.Round(a.Y), SKSamplingOptions.Default, null);
            return;
        }
        canvas.DrawImage(image, new SKRect(a.X, a.Y, b.X, b.Y), new SKSamplingOptions(SKFilterMode.Linear), null);
    }

    /// <summary>How far left of the anchor the text starts, mm.</summary>
    internal static double Shift(TextInk ink) =>
        ink.Anchor switch
        {
            Anchor.Left => 0,
            Anchor.Middle => Typefaces.Width(ink.Text, ink.Type) / 2,
            Anchor.Right => Typefaces.Width(ink.Text, ink.Type),
        };

    private SKPoint ToSkia(Point2 p) => new((float)(p.X * scale), (float)((height - p.Y) * scale));

    private static SKColor Sk(Colour c) => new(c.R, c.G, c.B);
}
