using System.Runtime.Intrinsics;

namespace FixtureGen.Output;

/// <summary>A material's own colour, to be seen under more or less light; beyond full light it gleams towards white.</summary>
internal readonly struct Tint(Colour colour)
{
    private readonly Vector128<float> colour = Vector128.Create(colour.R, colour.G, colour.B, 0f);

    /// <summary>Red, green, blue and 255 in the order of bytes in memory, under light of 0..1 and more.</summary>
    public uint Pixel(float light)
    {
        float gleam = Math.Max(0, light - 1f) * 0.9f;
        Vector128<float> seen = (colour * light) + Vector128.Create(255 * gleam);
        Vector128<float> whole = Vector128.Min(
            Vector128.Max(seen, Vector128.Create(0, 0, 0, 255f)),
            Vector128.Create(255f)
        );
        Vector128<short> levels = Vector128.Narrow(Vector128.ConvertToInt32(whole), Vector128<int>.Zero);
        return Vector128.Narrow(levels.AsUInt16(), Vector128<ushort>.Zero).AsUInt32().ToScalar();
    }
}
