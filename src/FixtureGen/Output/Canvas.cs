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
        to = Math.Min(to, height);
        painted[column] = Math.Max(from, to);
        for (int p = (int)from; p < to; p++)
        {
            float covered = Math.Min(to, p + 1) - Math.Max(from, p);
            light[(p * width) + column] += covered * value * Math.Max(0.7f, 1 - ((to - p) * darkens));
        }
    }

    /// <summary>The picture in a material's colour; what was never painted is white.</summary>
    public Pixels Pixels(Tint tint)
    {
        byte[] rgba = new byte[light.Length * 4];
        Span<uint> pixels = MemoryMarshal.Cast<byte, uint>(rgba.AsSpan());
        for (int p = 0; p < height; p++)
        {
            Span<uint> row = pixels.Slice((height - 1 - p) * width, width);
            for (int c = 0; c < width; c++)
            {
                float share = Math.Clamp(painted[c] - p, 0, 1);
                row[c] = share > 0 ? tint.Pixel(light[(p * width) + c] / share) : uint.MaxValue;
            }
        }
        return new Pixels(width, height, rgba);
    }
}
