using System.Numerics;
using System.Runtime.InteropServices;

namespace FixtureGen.Output.Scenes;

/// <summary>
/// Light painted column by column from the bottom up, in pixels; an edge within a pixel covers its share of it, so that
/// slanted edges are smooth.
/// </summary>
internal sealed class Canvas : IDisposable
{
    private readonly int _width;
    private readonly int _height;
    private readonly Borrowed<float> _light;
    private readonly float[] _painted;

    public Canvas(int width, int height)
    {
        (_width, _height) = (width, height);
        _light = new(width * height);
        _light.Span.Clear();
        _painted = new float[width];
    }

    public void Dispose() => _light.Dispose();

    /// <summary>How far up the column is painted.</summary>
    public float Painted(int column) => _painted[column];

    /// <summary>How far up as many columns are painted as a vector holds.</summary>
    public Vector<float> PaintedFrom(int column) => new(_painted, column);

    /// <summary>Paints the column on, up to the given height; each pixel down from there loses the given share of light, at most three tenths.</summary>
    public void Paint(int column, float to, float value, float darkens)
    {
        float from = _painted[column];
        to = float.MinNative(to, _height);
        if (to <= from)
        {
            return;
        }
        _painted[column] = to;
        int p = (int)from;
        Span<float> all = _light.Span;
        for (int at = (p * _width) + column; p < to; p++, at += _width)
        {
            float end = float.MinNative(to, p + 1);
            all[at] += (end - from) * value * float.MaxNative(0.7f, 1 - ((to - p) * darkens));
            from = end;
        }
    }

    /// <summary>
    /// Paints as many columns as a vector holds on, each less than a pixel and within the canvas, if they stand in the same pixel; if not, nothing
    /// is done and false comes back.
    /// </summary>
    public bool TryPaint(int column, Vector<float> to, Vector<float> value)
    {
        Vector<float> from = PaintedFrom(column);
        Vector<float> pixel = new(MathF.Floor(from[0]));
        Vector<float> next = pixel + Vector<float>.One;
        if (
            !Vector.GreaterThanOrEqualAll(from, pixel)
            || !Vector.LessThanAll(from, next)
            || !Vector.LessThanOrEqualAll(to, new Vector<float>(_height))
        )
        {
            return false;
        }
        to.CopyTo(_painted, column);
        float[] all = _light.Array;
        int at = ((int)pixel[0] * _width) + column;
        Vector<float> end = Vector.Min(to, next);
        (new Vector<float>(all, at) + ((end - from) * value)).CopyTo(all, at);
        if (Vector.GreaterThanAny(to, next))
        {
            Vector<float> over = Vector.Max(to - next, Vector<float>.Zero);
            (new Vector<float>(all, at + _width) + (over * value)).CopyTo(all, at + _width);
        }
        return true;
    }

    /// <summary>The picture in a material's colour; what was never painted is white.</summary>
    public Pixels Pixels(Tint tint)
    {
        Pixels picture = new(_width, _height);
        Span<uint> pixels = MemoryMarshal.Cast<byte, uint>(picture.Bgra);
        for (int p = 0; p < _height; p++)
        {
            Span<uint> row = pixels.Slice((_height - 1 - p) * _width, _width);
            ReadOnlySpan<float> lit = _light.Span.Slice(p * _width, _width);
            for (int c = 0; c < row.Length; c++)
            {
                float share = _painted[c] - p;
                row[c] =
                    share >= 1 ? tint.Pixel(lit[c])
                    : share > 0 ? tint.Pixel(lit[c] / share)
                    : uint.MaxValue;
            }
        }
        return picture;
    }
}
