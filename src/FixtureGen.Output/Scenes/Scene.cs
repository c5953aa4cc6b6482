using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Output.Scenes;

/// <summary>An opaque colour; every use must also differ in grey, by lightness or line kind.</summary>
internal readonly record struct Colour(byte R, byte G, byte B)
{
    public static Colour Black { get; } = new(0, 0, 0);

    public static Colour White { get; } = new(255, 255, 255);

    public static Colour Grey(byte level) => new(level, level, level);

    /// <summary>From 0xRRGGBB.</summary>
    public static Colour FromRgb(uint rgb) => new((byte)(rgb >> 16), (byte)(rgb >> 8), (byte)rgb);

    /// <summary>Perceived lightness 0..255 by the weights of ITU-R BT.601: what a grey print keeps.</summary>
    public double Lightness => (0.299 * R) + (0.587 * G) + (0.114 * B);
}

/// <summary>A line's width and dash pattern (on, off, ...), mm on paper.</summary>
internal sealed record Pen(double Width, Colour Colour, ImmutableArray<double> Dash)
{
    public static Pen Solid(double width, Colour colour) => new(width, colour, []);
}

/// <summary>Segments end to end; Closed joins the last end to the first start.</summary>
internal readonly record struct Chain(ImmutableArray<Segment> Segments, bool Closed)
{
    public static Chain From(Contour contour) => new(contour.Segments, true);

    public static Chain From(OpenPath path) => new(path.Segments, false);

    public static Chain Line(Point2 a, Point2 b) => new([Segment.Line(a, b)], false);

    public static Chain Polygon(params ReadOnlySpan<Point2> points)
    {
        ImmutableArray<Segment>.Builder sides = ImmutableArray.CreateBuilder<Segment>(points.Length);
        for (int i = 0; i < points.Length; i++)
        {
            sides.Add(Segment.Line(points[i], points[(i + 1) % points.Length]));
        }
        return new Chain(sides.ToImmutable(), true);
    }

    public static Chain Box(Box2 b) =>
        Polygon(new(b.MinX, b.MinY), new(b.MaxX, b.MinY), new(b.MaxX, b.MaxY), new(b.MinX, b.MaxY));

    public static Chain Circle(Point2 c, double r)
    {
        Point2 right = c + new Point2(r, 0);
        Point2 left = c - new Point2(r, 0);
        return new Chain([Segment.Arc(right, left, c, true), Segment.Arc(left, right, c, true)], true);
    }
}

internal enum Anchor
{
    Left,
    Middle,
    Right,
}

/// <summary>How text looks: em size in mm on paper.</summary>
internal sealed record TypeStyle(double Size, bool Bold, Colour Colour)
{
    public static TypeStyle Plain(double size) => new(size, false, Colour.Black);

    public static TypeStyle Strong(double size) => new(size, true, Colour.Black);
}

internal abstract record Ink;

/// <summary>Chains stroked, filled by the even-odd rule, or both.</summary>
internal sealed record ShapeInk(ImmutableArray<Chain> Chains, Pen? Pen, Colour? Fill) : Ink;

/// <summary>One line of text, baseline at At. Halo draws a white rim so that lines under it do not cut the letters.</summary>
internal sealed record TextInk(string Text, Point2 At, TypeStyle Type, Anchor Anchor, double AngleDeg, bool Halo) : Ink;

/// <summary>Blue, green, red and 255 for each pixel, row 0 on top. To be kept until the scene that shows them is drawn.</summary>
internal sealed class Pixels(int width, int height) : IDisposable
{
    private readonly Borrowed<byte> _bgra = new(width * height * 4);

    public int Width => width;

    public int Height => height;

    public Span<byte> Bgra => _bgra.Span;

    /// <summary>The memory itself, from its first pixel on.</summary>
    public byte[] Memory => _bgra.Array;

    public void Dispose() => _bgra.Dispose();
}

/// <summary>A picture of pixels stretched over Box.</summary>
internal sealed record ImageInk(Box2 Box, Pixels Pixels) : Ink;

/// <summary>
/// A drawing before it is pixels, SVG or PDF: inks in the order of drawing, on a white sheet of Width by Height mm,
/// origin at the lower left, Y up.
/// </summary>
internal sealed class Scene(double width, double height)
{
    private readonly List<Ink> _inks = [];

    public double Width { get; } = width;

    public double Height { get; } = height;

    public IReadOnlyList<Ink> Inks => _inks;

    public void Shape(IEnumerable<Chain> chains, Pen? pen, Colour? fill = null)
    {
        ImmutableArray<Chain> all = [.. chains.Where(c => !c.Segments.IsDefaultOrEmpty)];
        if (!all.IsEmpty)
        {
            _inks.Add(new ShapeInk(all, pen, fill));
        }
    }

    public void Shape(Chain chain, Pen? pen, Colour? fill = null) => Shape([chain], pen, fill);

    public void Line(Point2 a, Point2 b, Pen pen) => Shape([Chain.Line(a, b)], pen);

    public void Text(
        string text,
        Point2 at,
        TypeStyle type,
        Anchor anchor = Anchor.Left,
        double angleDeg = 0,
        bool halo = false
    )
    {
        if (text.Length > 0)
        {
            _inks.Add(new TextInk(text, at, type, anchor, angleDeg, halo));
        }
    }

    public void Image(Box2 box, Pixels pixels) => _inks.Add(new ImageInk(box, pixels));
}
