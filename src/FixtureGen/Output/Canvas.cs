using System.Runtime.InteropServices;

namespace FixtureGen.Output;

/// <summary>
/// Light painted column by column from the bottom up, in pixels; an edge within a pixel covers its share of it, so that
/// slanted edges are smooth.
/// </summary>
internal sealed class Canvas(int width, int height)
{
    private readonly float[] light = new float[width * height];
    private readonly float[] painted = new float[width];

    /// <summary>How far up the column is painted.</summary>
    public float Painted(int column) => painted[column];

    /// <summary>Paints the column on, up to the given height; each pixel down from there loses the given share of light, at most three tenths.</summary>
    public void Paint(int column, float to, float value, float darkens)
    {
        float from = painted[column];
        to = float.MinNative(to, height);
        if (to <= from)
        {
            return;
        }
        painted[column] = to;
        int p = (int)from;
        for (int at = (p * width) + column; p < to; p++, at += width)
        {
            float end = float.MinNative(to, p + 1);
            light[at] += (end - from) * value * float.MaxNative(0.7f, 1 - ((to - p) * darkens));
            from = end;
        }
    }

    /// <summary>The picture in a material's colour; what was never painted is white.</summary>
    public Pixels Pixels(Tint tint)
    {
        byte[] bgra = GC.AllocateUninitializedArray<byte>(light.Length * 4);
        Span<uint> pixels = MemoryMarshal.Cast<byte, uint>(bgra.AsSpan());
        for (int p = 0; p < height; p++)
        {
            Span<uint> row = pixels.Slice((height - 1 - p) * width, width);
            ReadOnlySpan<float> lit = light.AsSpan(p * width, width);
            for (int c = 0; c < row.Length; c++)
            {
                float share = painted[c] - p;
                row[c] =
                    share >= 1 ? tint.Pixel(lit[c])
                    : share > 0 ? tint.Pixel(lit[c] / share)
                    : uint.MaxValue;
            }
        }
        return new Pixels(width, height, bgra);
    }
}
