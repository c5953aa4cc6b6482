using System.Globalization;

namespace FixtureGen.Drawing.Svg;

/// <summary>Colours as CSS writes them (CSS Color 4, 5 and 6.1): #rgb, #rrggbb, rgb() and the names that drawings use.</summary>
internal static class SvgColour
{
    private static readonly Dictionary<string, int> Names = new(StringComparer.Ordinal)
    {
        ["black"] = 0x000000,
        ["white"] = 0xffffff,
        ["red"] = 0xff0000,
        ["lime"] = 0x00ff00,
        ["green"] = 0x008000,
        ["blue"] = 0x0000ff,
        ["yellow"] = 0xffff00,
        ["cyan"] = 0x00ffff,
        ["aqua"] = 0x00ffff,
        ["magenta"] = 0xff00ff,
        ["fuchsia"] = 0xff00ff,
        ["gray"] = 0x808080,
        ["grey"] = 0x808080,
        ["silver"] = 0xc0c0c0,
        ["maroon"] = 0x800000,
        ["olive"] = 0x808000,
        ["navy"] = 0x000080,
        ["purple"] = 0x800080,
        ["teal"] = 0x008080,
        ["orange"] = 0xffa500,
    };

    /// <summary>Red, green and blue in 24 bits; black for what is none of these.</summary>
    public static int Rgb(string written)
    {
        string text = written.Trim().ToLowerInvariant();
        if (Names.TryGetValue(text, out int named))
        {
            return named;
        }
        if (text is ['#', _, _, _])
        {
            text = $"#{text[1]}{text[1]}{text[2]}{text[2]}{text[3]}{text[3]}";
        }
        if (text is ['#', ..] && text.Length >= 7)
        {
            return int.TryParse(
                text.AsSpan(1, 6),
                NumberStyles.AllowHexSpecifier,
                CultureInfo.InvariantCulture,
                out int value
            )
                ? value
                : 0;
        }
        int open = text.IndexOf('(', StringComparison.Ordinal);
        if (text.StartsWith("rgb", StringComparison.Ordinal) && open > 0)
        {
            double scale = text.Contains('%', StringComparison.Ordinal) ? 2.55 : 1;
            string inside = text[(open + 1)..].TrimEnd(')', ' ').Replace('%', ' ').Replace('/', ' ');
            if (SvgNumbers.List(inside) is { Count: >= 3 } v)
            {
                return (Byte(v[0] * scale) << 16) | (Byte(v[1] * scale) << 8) | Byte(v[2] * scale);
            }
        }
        return 0;
    }

    private static int Byte(double value) => (int)Math.Clamp(Math.Round(value), 0, 255);
}
