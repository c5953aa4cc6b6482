using System.Globalization;
using System.Text;

namespace FixtureGen.Model;

/// <summary>Text in the characters that every control reads and an engraver has: printing ASCII without round brackets, semicolon and percent.</summary>
public static class PlainText
{
    private static readonly (string From, string To)[] Spelled =
    [
        ("Ø", "D"),
        ("⌀", "D"),
        ("°", " deg"),
        ("µ", "u"),
        ("×", "x"),
        ("–", "-"),
        ("—", "-"),
        ("ß", "ss"),
        ("ẞ", "SS"),
        ("Æ", "AE"),
        ("æ", "ae"),
        ("Œ", "OE"),
        ("œ", "oe"),
        ("ø", "o"),
        ("Ł", "L"),
        ("ł", "l"),
        ("Đ", "D"),
        ("đ", "d"),
        ("Þ", "TH"),
        ("þ", "th"),
        ("ı", "i"),
        ("‘", "'"),
        ("’", "'"),
        ("“", "\""),
        ("”", "\""),
        ("%", " pct"),
        ("(", "["),
        (")", "]"),
        (";", ","),
    ];

    /// <summary>The text so spelled, accents left out, each other character as '?'; Lost says whether there was one.</summary>
    public static (string Text, bool Lost) Spell(string text)
    {
        foreach ((string from, string to) in Spelled)
        {
            text = text.Replace(from, to, StringComparison.Ordinal);
        }
        StringBuilder plain = new();
        bool lost = false;
        foreach (Rune r in text.Normalize(NormalizationForm.FormD).EnumerateRunes())
        {
            if (r.Value is >= 32 and < 127)
            {
                plain.Append((char)r.Value);
            }
            else if (Rune.GetUnicodeCategory(r) != UnicodeCategory.NonSpacingMark)
            {
                bool blank = Rune.IsWhiteSpace(r);
                plain.Append(blank ? ' ' : '?');
                lost |= !blank;
            }
        }
        return (plain.ToString(), lost);
    }
}
