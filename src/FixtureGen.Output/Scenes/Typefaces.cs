using System.Collections.Concurrent;
using System.Globalization;
using System.Text;
using SkiaSharp;

namespace FixtureGen.Output.Scenes;

/// <summary>One letter of the embedded face in the face's own units, Y down: where the next one starts, and its outline as SVG path data (empty for a blank).</summary>
internal sealed record Glyph(ushort Id, int Advance, string Outline);

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

    private static readonly Lazy<SKFont> RegularInUnits = new(() => Font(bold: false, Regular.Value.UnitsPerEm));
    private static readonly Lazy<SKFont> BoldInUnits = new(() => Font(bold: true, Bold.Value.UnitsPerEm));

    /// <summary>What was read of the embedded faces: at most as many as they have glyphs.</summary>
    private static readonly ConcurrentDictionary<(bool Bold, ushort Glyph), Glyph> Read = new();

    /// <summary>A font of that size, without hinting, so that letters do not depend on the resolution.</summary>
    public static SKFont Font(bool bold, double size) =>
        new((bold ? Bold : Regular).Value, (float)size)
        {
            Hinting = SKFontHinting.None,
            LinearMetrics = true,
            Subpixel = true,
            Edging = SKFontEdging.Antialias,
        };

    /// <summary>Units in which the embedded face is drawn, of which there are as many in one em.</summary>
    public static int UnitsPerEm(bool bold) => (bold ? Bold : Regular).Value.UnitsPerEm;

    /// <summary>The glyphs of <paramref name="text"/>, one a character, each as often as it is written.</summary>
    public static Glyph[] Glyphs(string text, bool bold)
    {
        SKFont font = (bold ? BoldInUnits : RegularInUnits).Value;
        ushort[] ids = font.GetGlyphs(text);
        Glyph[] glyphs = new Glyph[ids.Length];
        for (int i = 0; i < ids.Length; i++)
        {
            glyphs[i] = Read.GetOrAdd((bold, ids[i]), static (key, font) => InUnits(font, key.Glyph), font);
        }
        return glyphs;
    }

    /// <summary>Advance width of <paramref name="text"/>, mm.</summary>
    public static double Width(string text, TypeStyle type) =>
        Glyphs(text, type.Bold).Sum(g => (double)g.Advance) * type.Size / UnitsPerEm(type.Bold);

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

    /// <summary>
    /// In the face's own units a glyph's figures are whole numbers, which every system's font library gives to a fraction of
    /// one, each to another: a quarter at most where this was measured.
    /// </summary>
    private static Glyph InUnits(SKFont font, ushort id)
    {
        float[] advance = font.GetGlyphWidths([id]);
        using SKPath? path = font.GetGlyphPath(id);
        return new(id, (int)MathF.Round(advance[0]), path is null ? "" : Whole(path));
    }

    private static string Whole(SKPath path)
    {
        StringBuilder text = new();
        SKPoint[] p = new SKPoint[4];
        using SKPath.RawIterator verbs = path.CreateRawIterator();
        for (SKPathVerb verb = verbs.Next(p); verb != SKPathVerb.Done; verb = verbs.Next(p))
        {
            (char letter, int from, int to) = verb switch
            {
                SKPathVerb.Move => ('M', 0, 1),
                SKPathVerb.Line => ('L', 1, 2),
                SKPathVerb.Quad => ('Q', 1, 3),
                SKPathVerb.Cubic => ('C', 1, 4),
                SKPathVerb.Close => ('Z', 0, 0),
                _ => throw new InvalidOperationException($"the embedded font has an outline of another kind: {verb}"),
            };
            text.Append(letter)
                .AppendJoin(
                    ' ',
                    p[from..to]
                        .Select(at =>
                            string.Create(
                                CultureInfo.InvariantCulture,
                                $"{(int)MathF.Round(at.X)} {(int)MathF.Round(at.Y)}"
                            )
                        )
                );
        }
        return text.ToString();
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
