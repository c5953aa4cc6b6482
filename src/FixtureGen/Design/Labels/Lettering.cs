using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Design.Labels;

/// <summary>
/// One line of text as strokes: the baseline starts at the origin and runs along +X, mm. Width is from the first letter's
/// outer edge to the last one's. Unknown lists each character that has no letter, once; nothing is drawn for it.
/// </summary>
public sealed record Lettered(ImmutableArray<OpenPath> Strokes, double Width, ImmutableArray<char> Unknown);

/// <summary>
/// Single-stroke letters after ISO 3098, type B upright, for an engraver: the stroke is h/10 wide, the gap between letters
/// 2/10 h, between words 6/10 h. h is the outer height of a capital, so that centre lines stay half a stroke inside it.
/// </summary>
public static class Lettering
{
    private const double StrokesPerHeight = 10;
    private const double LetterGap = 2;
    private const double WordGap = 6;

    /// <summary>Width of the engraved stroke for letters of <paramref name="height"/>, mm.</summary>
    public static double StrokeWidth(double height) => height / StrokesPerHeight;

    /// <summary>Least distance of two baselines of capitals, 13/10 h, mm.</summary>
    public static double LinePitch(double height) => 1.3 * height;

    /// <summary>The strokes of <paramref name="text"/> with capitals of outer height <paramref name="height"/> mm; small letters are cut as capitals.</summary>
    public static Lettered Strokes(string text, double height)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(height);
        double unit = height / StrokesPerHeight;
        ImmutableArray<OpenPath>.Builder strokes = ImmutableArray.CreateBuilder<OpenPath>();
        double pen = 0;
        double end = 0;
        foreach ((LetterGlyph glyph, double gap) in Layout(text))
        {
            pen = end + gap;
            foreach (OpenPath stroke in glyph.Strokes)
            {
                strokes.Add(Placed(stroke, pen + 0.5, unit));
            }
            end = pen + glyph.Width + 1;
        }
        return new Lettered(strokes.ToImmutable(), end * unit, Unknown(text));
    }

    /// <summary>Width of <paramref name="text"/>, mm, from outer edge to outer edge.</summary>
    public static double Width(string text, double height) =>
        Layout(text).Sum(l => l.Gap + l.Glyph.Width + 1) * (height / StrokesPerHeight);

    /// <summary>Characters without a letter, each once, in the order they are met; a space is known.</summary>
    public static ImmutableArray<char> Unknown(string text) =>
        [.. text.Where(c => c != ' ' && LetterGlyphs.Glyph(c) is null).Distinct()];

    /// <summary>An error finding for text that cannot be cut whole, or null.</summary>
    public static Finding? Check(string text, string where)
    {
        ImmutableArray<char> unknown = Unknown(text);
        return unknown.IsEmpty
            ? null
            : new Finding(
                "text-character",
                Severity.Error,
                where,
                $"no letter for {string.Join(" ", unknown.Select(c => $"'{c}'"))} in \"{text}\"",
                $"use capitals, digits and the signs {LetterGlyphs.Characters[LetterGlyphs.Characters.IndexOf('.', StringComparison.Ordinal)..]}"
            );
    }

    private static IEnumerable<(LetterGlyph Glyph, double Gap)> Layout(string text)
    {
        double gap = 0;
        bool first = true;
        foreach (char c in text)
        {
            if (c == ' ')
            {
                gap = (first || gap > LetterGap ? gap : 0) + WordGap;
            }
            else if (LetterGlyphs.Glyph(c) is { } glyph)
            {
                yield return (glyph, gap);
                gap = LetterGap;
                first = false;
            }
        }
    }

    private static OpenPath Placed(OpenPath stroke, double dx, double unit)
    {
        Point2 At(Point2 p) => new((p.X + dx) * unit, (p.Y + 0.5) * unit);
        return new OpenPath([
            .. stroke.Segments.Select(s =>
                s with
                {
                    Start = At(s.Start),
                    End = At(s.End),
                    Centre = s.IsArc ? At(s.Centre) : default,
                }
            ),
        ]);
    }
}
