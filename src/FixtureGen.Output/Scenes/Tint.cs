using System.Runtime.InteropServices;

namespace FixtureGen.Output.Scenes;

/// <summary>A material's own colour, to be seen under more or less light; beyond full light it gleams towards white.</summary>
internal sealed class Tint
{
    /// <summary>Table entries to full light: eight to a colour's level, so that a level's edge is off by an eighth at most.</summary>
    private const int Fine = 2048;

    /// <summary>Light, in full lights, beyond which nothing is brighter.</summary>
    private const int Most = 2;

    private readonly uint[] _pixels = new uint[Fine * Most];

    public Tint(Colour colour)
    {
        for (int i = 0; i < _pixels.Length; i++)
        {
            float light = (i + 0.5f) / Fine;
            float gleam = 255 * Math.Max(0, light - 1) * 0.9f;
            byte Level(byte full) => (byte)Math.Min(255, (full * light) + gleam);
            ReadOnlySpan<byte> bgra = [Level(colour.B), Level(colour.G), Level(colour.R), 255];
            _pixels[i] = MemoryMarshal.Read<uint>(bgra);
        }
    }

    /// <summary>Blue, green, red and 255 in the order of bytes in memory, under light of 0..1 and more.</summary>
    public uint Pixel(float light) => _pixels[Math.Clamp((int)(light * Fine), 0, _pixels.Length - 1)];
}
