using SkiaSharp;

namespace FixtureGen.Output.Scenes;

/// <summary>
/// The embedded letters of pictures and papers. No font of the machine is ever used, so that every machine draws the same
/// bytes; without a typeface the library would silently draw no text at all.
/// </summary>
internal static class Typefaces
{
    /// <summary>Height of a capital in em; the embedded face states 0.75 em in its metrics.</summary>
    public const double CapHeight = 0.72;

    private static readonly Lazy<SKTypeface> Regular = new(() => Load("fonts/B612-Regular.otf"));
    private static readonly Lazy<SKTypeface> Bold = new(() => Load("fonts/B612-Bold.otf"));

    private static readonly Lazy<SKFont> RegularToMeasure = new(() => Font(bold: false, Measured));
    private static readonly Lazy<SKFont> BoldToMeasure = new(() => Font(bold: true, Measured));

    /// <summary>Size at which widths are measured, before they are brought to the text's own.</summary>
    private const double Measured = 100;

    /// <summary>A font for lengths in mm, without hinting, so that widths do not depend on the resolution.</summary>
    public static SKFont Font(bool bold, double size) =>
        new((bold ? Bold : Regular).Value, (float)size)
        {
            Hinting = SKFontHinting.None,
            LinearMetrics = true,
            Subpixel = true,
        };

    /// <summary>Advance width of <paramref name="text"/>, mm.</summary>
    public static double Width(string text, TypeStyle type) =>
        (type.Bold ? BoldToMeasure : RegularToMeasure).Value.MeasureText(text) * type.Size / Measured;

    /// <summary>Characters that the embedded face has no glyph for, each once, in the order met.</summary>
    public static IReadOnlyList<string> Missing(string text)
    {
        using SKFont font = Font(bold: false, 100);
        return
        [
            .. text.EnumerateRunes()
                .Where(r => r.Value != '\n' && font.GetGlyph(r.Value) == 0)
                .Select(r => r.ToString())
                .Distinct(StringComparer.Ordinal),
        ];
    }

    /// <summary>Words broken into lines no wider than <paramref name="width"/> mm; a longer word is broken where it must be.</summary>
    public static IReadOnlyList<string> Wrap(string text, TypeStyle type, double width)
    {
        bool single = !text.Contains("  ", StringComparison.Ordinal) && text.Trim(' ').Length == text.Length;
        if (single && Width(text, type) <= width)
        {
            return [text];
        }
        List<string> lines = [];
        string line = "";
        foreach (
            string word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries)
                .SelectMany(w => Broken(w, type, width))
        )
        {
            string longer = line.Length == 0 ? word : line + " " + word;
            if (line.Length > 0 && Width(longer, type) > width)
            {
                lines.Add(line);
                longer = word;
            }
            line = longer;
        }
        lines.Add(line);
        return lines;
    }

    /// <summary>The same letters, made smaller where <paramref name="text"/> would be wider than <paramref name="width"/> mm.</summary>
    public static TypeStyle Shrunk(string text, TypeStyle type, double width) =>
        type with
        {
            Size = type.Size * Math.Min(1, width / Math.Max(Width(text, type), 1e-9)),
        };

    private static IEnumerable<string> Broken(string word, TypeStyle type, double width)
    {
        while (word.Length > 1 && Width(word, type) > width)
        {
            int n = word.Length - 1;
            while (n > 1 && Width(word[..n], type) > width)
            {
                n--;
            }
            yield return word[..n];
            word = word[n..];
        }
        yield return word;
    }

    private static SKTypeface Load(string name)
    {
        using Stream stream =
            typeof(Typefaces).Assembly.GetManifestResourceStream(name)
            ?? throw new InvalidOperationException($"the embedded font {name} is missing");
        using SKData data = SKData.Create(stream);
        return SKTypeface.FromData(data)
            ?? throw new InvalidOperationException($"the embedded font {name} cannot be read");
    }
}
