using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.Model;

namespace FixtureGen.Design.Labels;

/// <summary>One letter's centre lines in stroke widths (a tenth of the letter height); x runs 0..Width, y 0..9 from foot to head.</summary>
internal sealed record LetterGlyph(double Width, ImmutableArray<OpenPath> Strokes);

/// <summary>
/// The letters. Each row is the character, the width between its outermost centre lines, and its strokes. A stroke is a list
/// of points joined by lines; <c>~x,y</c> before a point makes an arc through x,y.
/// </summary>
internal static class LetterGlyphs
{
    private const string Circle9 = "5,6.5 ~2.5,9 0,6.5 0,2.5 ~2.5,0 5,2.5 5,6.5";

    private static readonly (char Character, double Width, string Strokes)[] Rows =
    [
        ('A', 6, "0,0 3,9 6,0|1,3 5,3"),
        ('B', 5, "0,0 0,9 2.5,9 ~4.5,7 2.5,5 0,5|2.5,5 ~5,2.5 2.5,0 0,0"),
        ('C', 5, "5,6.5 ~2.5,9 0,6.5 0,2.5 ~2.5,0 5,2.5"),
        ('D', 5, "0,4.5 0,9 1.5,9 ~3.974874,7.974874 5,5.5 5,3.5 ~3.974874,1.025126 1.5,0 0,0 0,4.5"),
        ('E', 4, "4,9 0,9 0,0 4,0|0,5 3.25,5"),
        ('F', 4, "4,9 0,9 0,0|0,5 3.25,5"),
        ('G', 5, "5,6.5 ~2.5,9 0,6.5 0,2.5 ~2.5,0 5,2.5 5,4.5 3,4.5"),
        ('H', 5, "0,0 0,9|5,0 5,9|0,4.5 5,4.5"),
        ('I', 0, "0,0 0,9"),
        ('J', 4, "4,9 4,2 ~2,0 0,2"),
        ('K', 5, "0,0 0,9|5,9 0,3.5|1.8,5.48 5,0"),
        ('L', 4, "0,9 0,0 4,0"),
        ('M', 6, "0,0 0,9 3,3 6,9 6,0"),
        ('N', 5, "0,0 0,9 5,0 5,9"),
        ('O', 5, Circle9),
        ('P', 5, "0,0 0,9 2.5,9 ~5,6.5 2.5,4 0,4"),
        ('Q', 5.5, Circle9 + "|3,2.5 5.5,0"),
        ('R', 5, "0,0 0,9 2.5,9 ~5,6.5 2.5,4 0,4|2.5,4 5,0"),
        (
            'S',
            4.5,
            "4.198557,7.875 ~2.25,9 0,6.75 ~0.65901,5.15901 2.25,4.5 ~4.5,2.25 2.25,0 ~1.125,0.301443 0.301443,1.125"
        ),
        ('T', 5, "0,9 5,9|2.5,9 2.5,0"),
        ('U', 5, "0,9 0,2.5 ~2.5,0 5,2.5 5,9"),
        ('V', 6, "0,9 3,0 6,9"),
        ('W', 8, "0,9 2,0 4,7 6,0 8,9"),
        ('X', 5, "0,0 5,9|0,9 5,0"),
        ('Y', 6, "0,9 3,4.5 6,9|3,4.5 3,0"),
        ('Z', 5, "0,9 5,9 0,0 5,0"),
        ('Ø', 5, Circle9 + "|0,0 5,9"),
        ('0', 4, "4,7 ~2,9 0,7 0,2 ~2,0 4,2 4,7"),
        ('1', 2, "0,7 2,9 2,0"),
        ('2', 4.5, "0,6.75 ~2.25,9 4.5,6.75 ~4.384603,6.038 4.05,5.4 0,0 4.5,0"),
        (
            '3',
            4.198557,
            "0,7.875 ~1.948557,9 4.198557,6.75 ~3.539547,5.15901 1.948557,4.5 ~4.198557,2.25 1.948557,0 ~0.823557,0.301443 0,1.125"
        ),
        ('4', 5, "3.5,0 3.5,9 0,2.5 5,2.5"),
        ('5', 4.5, "4,9 0,9 0,5.5 1.75,5.5 ~4.5,2.75 1.75,0 0,0"),
        ('6', 4.5, "3.5,9 ~1.025126,7.974874 0,5.5 0,2.25 ~2.25,0 4.5,2.25 ~2.25,4.5 0,2.25"),
        ('7', 4.5, "0,9 4.5,9 1.5,0"),
        ('8', 5, "2.5,5 ~4.5,7 2.5,9 ~0.5,7 2.5,5|2.5,5 ~0,2.5 2.5,0 ~5,2.5 2.5,5"),
        ('9', 4.5, "1,0 ~3.474874,1.025126 4.5,3.5 4.5,6.75 ~2.25,9 0,6.75 ~2.25,4.5 4.5,6.75"),
        ('.', 0.5, "0.5,0.25 ~0.25,0.5 0,0.25 ~0.25,0 0.5,0.25"),
        (',', 0.7, "0.7,0.5 0,-1.3"),
        (':', 0.5, "0.5,1.75 ~0.25,2 0,1.75 ~0.25,1.5 0.5,1.75|0.5,6.25 ~0.25,6.5 0,6.25 ~0.25,6 0.5,6.25"),
        (';', 0.7, "0.7,0.5 0,-1.3|0.7,5.25 ~0.45,5.5 0.2,5.25 ~0.45,5 0.7,5.25"),
        ('-', 3, "0,4.5 3,4.5"),
        ('_', 5, "0,-1.5 5,-1.5"),
        ('/', 4, "0,0 4,9"),
        ('+', 5, "0,4.5 5,4.5|2.5,2 2.5,7"),
        ('±', 5, "0,5.5 5,5.5|2.5,3 2.5,8|0,1 5,1"),
        ('×', 5, "0,2 5,7|0,7 5,2"),
        ('=', 5, "0,3 5,3|0,6 5,6"),
        ('<', 5, "5,7.5 0,4.5 5,1.5"),
        ('>', 5, "0,7.5 5,4.5 0,1.5"),
        ('(', 1.5, "1.5,10 ~0,4.5 1.5,-1"),
        (')', 1.5, "0,10 ~1.5,4.5 0,-1"),
        ('[', 1.5, "1.5,10 0,10 0,-1 1.5,-1"),
        (']', 1.5, "0,10 1.5,10 1.5,-1 0,-1"),
        ('#', 6, "1,0 2,9|4,0 5,9|0,3 5.5,3|0.5,6 6,6"),
        ('&', 5.5, "5.5,0 1.15,5.9 ~2.3,9 3.6,5.95 0.6,3.9 ~1.5,0.15 4.2,1.4 5.3,3.6"),
        ('\'', 0, "0,9 0,6.5"),
        ('"', 1.5, "0,9 0,6.5|1.5,9 1.5,6.5"),
        ('!', 0.5, "0.25,9 0.25,3|0.5,0.25 ~0.25,0.5 0,0.25 ~0.25,0 0.5,0.25"),
        ('?', 4, "0,7 ~2,9 4,7 ~3.414214,5.585786 2,5 2,3|2.25,0.25 ~2,0.5 1.75,0.25 ~2,0 2.25,0.25"),
        ('*', 4, "0,4 4,8|0,8 4,4|2,3.25 2,8.75"),
        ('°', 2.5, "2.5,7.75 ~1.25,9 0,7.75 ~1.25,6.5 2.5,7.75"),
        ('%', 6, "0,0 6,9|2.5,7.75 ~1.25,9 0,7.75 ~1.25,6.5 2.5,7.75|6,1.25 ~4.75,2.5 3.5,1.25 ~4.75,0 6,1.25"),
        ('→', 7, "0,4.5 7,4.5|4.5,7 7,4.5 4.5,2"),
        ('←', 7, "7,4.5 0,4.5|2.5,7 0,4.5 2.5,2"),
        ('↑', 5, "2.5,0 2.5,9|0,6.5 2.5,9 5,6.5"),
        ('↓', 5, "2.5,9 2.5,0|0,2.5 2.5,0 5,2.5"),
    ];

    private static readonly FrozenDictionary<char, LetterGlyph> ByCharacter = Rows.ToFrozenDictionary(
        r => r.Character,
        r => new LetterGlyph(r.Width, [.. r.Strokes.Split('|').Select(Stroke)])
    );

    /// <summary>All characters that have a letter, in the order of the table.</summary>
    public static string Characters { get; } = string.Concat(Rows.Select(r => r.Character));

    /// <summary>The letter, or null where there is none. Small letters are cut as capitals.</summary>
    public static LetterGlyph? Glyph(char character) => ByCharacter.GetValueOrDefault(char.ToUpperInvariant(character));

    private static OpenPath Stroke(string text)
    {
        string[] words = text.Split(' ');
        Point2 at = Point(words[0]);
        ImmutableArray<Segment>.Builder segments = ImmutableArray.CreateBuilder<Segment>();
        for (int i = 1; i < words.Length; i++)
        {
            Point2? through = words[i][0] == '~' ? Point(words[i++][1..]) : null;
            Point2 to = Point(words[i]);
            segments.Add(through is { } via ? ArcThrough(at, via, to) : Segment.Line(at, to));
            at = to;
        }
        return new OpenPath(segments.ToImmutable());
    }

    private static Point2 Point(string text)
    {
        string[] xy = text.Split(',');
        return new Point2(
            double.Parse(xy[0], CultureInfo.InvariantCulture),
            double.Parse(xy[1], CultureInfo.InvariantCulture)
        );
    }

    private static Segment ArcThrough(Point2 a, Point2 via, Point2 b)
    {
        Point2 p = via - a;
        Point2 q = b - a;
        double cross = p.Cross(q);
        Point2 centre = a + ((p.Dot(p) * q.Left) - (q.Dot(q) * p.Left)) * (-1 / (2 * cross));
        return Segment.Arc(a, b, centre, cross > 0);
    }
}
