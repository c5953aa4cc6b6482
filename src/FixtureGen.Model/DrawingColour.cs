using System.Globalization;

namespace FixtureGen.Model;

/// <summary>
/// One spelling for each colour of a drawing: red, yellow, green, cyan, blue, magenta and black (which shows white on a dark
/// screen), colour numbers 8 to 255, else #rrggbb. The numbers 1 to 7 are those names (DXF Reference, group 62).
/// </summary>
public static class DrawingColour
{
    private static readonly (string Name, int Rgb)[] Names =
    [
        ("red", 0xff0000),
        ("yellow", 0xffff00),
        ("green", 0x00ff00),
        ("cyan", 0x00ffff),
        ("blue", 0x0000ff),
        ("magenta", 0xff00ff),
        ("black", 0x000000),
    ];

    /// <summary>The spelling of a colour number, 1 to 255; what lies outside is black.</summary>
    public static string FromNumber(int number) =>
        number is >= 1 and <= 7 ? Names[number - 1].Name
        : number is >= 8 and <= 255 ? number.ToString(CultureInfo.InvariantCulture)
        : "black";

    /// <summary>The spelling of red, green and blue in 24 bits, red highest; white is black's other face.</summary>
    public static string FromRgb(int rgb)
    {
        int colour = rgb & 0xffffff;
        return colour == 0xffffff
            ? "black"
            : Array.Find(Names, n => n.Rgb == colour).Name
                ?? string.Create(CultureInfo.InvariantCulture, $"#{colour:x6}");
    }

    /// <summary>The one spelling of what a job writes: a name, a number from 1 to 255 or #rrggbb; null where it is none of them.</summary>
    public static string? Parse(string written)
    {
        string text = written.Trim().ToLowerInvariant();
        if (text is "white")
        {
            return "black";
        }
        if (Array.Exists(Names, n => n.Name == text))
        {
            return text;
        }
        if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out int number))
        {
            return number is >= 1 and <= 255 ? FromNumber(number) : null;
        }
        return
            text.Length == 7
            && text[0] == '#'
            && int.TryParse(text.AsSpan(1), NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out int rgb)
            ? FromRgb(rgb)
            : null;
    }
}
