using System.Globalization;
using System.Text;

namespace FixtureGen.Drawing.Reading;

/// <summary>TEXT and MTEXT: what they say and where their first baseline starts (DXF Reference, TEXT and MTEXT).</summary>
internal static class TextReader
{
    public static Entity Read(EntityGroups groups) => groups.Type == "TEXT" ? Text(groups) : MText(groups);

    private static Entity Text(EntityGroups groups)
    {
        int across = groups.IntegerOr(72, 0);
        int upward = groups.IntegerOr(73, 0);
        bool aligned = across != 0 || upward != 0;
        // aligned (3) and fit (5) span both points and start at the first; elsewhere the second one counts
        Vec3? at = aligned && across is not (3 or 5) && groups.Point(11) is { } second ? second : groups.Point(10);
        if (at is not { } start || groups.NumberOr(40, 1) is not { } height || groups.NumberOr(50, 0) is not { } angle)
        {
            return EntityReader.Bad(groups);
        }
        (double sin, double cos) = Math.SinCos(angle * Math.PI / 180);
        Affine3 frame = groups.Frame();
        return new TextEntity
        {
            Type = "TEXT",
            Layer = groups.Layer,
            Line = groups.Line,
            Text = Plain(groups.Text(1)),
            At = frame.Apply(start),
            Along = frame.Turn(new(height * cos, height * sin, 0)),
            Up = frame.Turn(new(-height * sin, height * cos, 0)),
            FromLeft = !aligned || across is 3 or 5,
        };
    }

    private static Entity MText(EntityGroups groups)
    {
        var text = new StringBuilder();
        foreach (Group group in groups.All)
        {
            if (group.Code is 1 or 3)
            {
                text.Append(groups.RawText(group));
            }
        }
        if (
            groups.Point(10) is not { } at
            || groups.NumberOr(40, 1) is not { } height
            || groups.NumberOr(50, 0) is not { } degrees
        )
        {
            return EntityReader.Bad(groups);
        }
        double angle = groups.Point(11) is { } axis ? Math.Atan2(axis.Y, axis.X) : degrees * Math.PI / 180;
        (double sin, double cos) = Math.SinCos(angle);
        int attached = groups.IntegerOr(71, 1);
        var along = new Vec3(height * cos, height * sin, 0);
        var up = new Vec3(-height * sin, height * cos, 0);
        // 1-3 hang from the top, 4-6 from the middle, 7-9 stand on the bottom; the first baseline is what engraving needs
        double drop = attached switch
        {
            <= 3 => 1,
            <= 6 => 0.5,
            _ => 0,
        };
        return new TextEntity
        {
            Type = "MTEXT",
            Layer = groups.Layer,
            Line = groups.Line,
            Text = Plain(Unformatted(text.ToString())),
            At = at - (up * drop),
            Along = along,
            Up = up,
            FromLeft = attached % 3 == 1,
        };
    }

    /// <summary>%%d, %%c, %%p and %%nnn as characters, %%u and %%o dropped, ^I and ^J as blanks.</summary>
    internal static string Plain(string text)
    {
        var plain = new StringBuilder(text.Length);
        for (int i = 0; i < text.Length; i++)
        {
            if (text[i] == '^' && i + 1 < text.Length)
            {
                i++;
                plain.Append(text[i] == ' ' ? '^' : ' ');
            }
            else if (text[i] == '%' && i + 2 < text.Length && text[i + 1] == '%')
            {
                i += 2 + Special(text.AsSpan(i + 2), plain);
            }
            else
            {
                plain.Append(text[i]);
            }
        }
        return plain.ToString().Trim();
    }

    // Appends one special character; the return value is how many letters beyond the first it took.
    private static int Special(ReadOnlySpan<char> code, StringBuilder into)
    {
        bool number =
            code.Length >= 3 && char.IsAsciiDigit(code[0]) && char.IsAsciiDigit(code[1]) && char.IsAsciiDigit(code[2]);
        if (number)
        {
            into.Append((char)int.Parse(code[..3], NumberStyles.None, CultureInfo.InvariantCulture));
            return 2;
        }
        into.Append(
            char.ToLowerInvariant(code[0]) switch
            {
                'd' => "\u00b0",
                'c' => "\u00d8",
                'p' => "\u00b1",
                '%' => "%",
                'u' or 'o' or 'k' => "",
                _ => code[..1].ToString(),
            }
        );
        return 0;
    }

    /// <summary>The letters of an MTEXT without its formatting codes; a paragraph becomes a blank.</summary>
    internal static string Unformatted(string text)
    {
        var plain = new StringBuilder(text.Length);
        for (int i = 0; i < text.Length; i++)
        {
            char c = text[i];
            if (c is '{' or '}')
            {
                continue;
            }
            if (c != '\\' || i + 1 == text.Length)
            {
                plain.Append(c);
                continue;
            }
            char code = text[++i];
            if (code is '\\' or '{' or '}')
            {
                plain.Append(code);
            }
            else if (code is 'P' or 'X' or '~' or 'N')
            {
                plain.Append(' ');
            }
            else if (code is not ('L' or 'l' or 'O' or 'o' or 'K' or 'k'))
            {
                int end = text.IndexOf(';', i);
                if (code == 'S' && end > i)
                {
                    plain.Append(text[(i + 1)..end].Replace('#', '/').Replace('^', '/'));
                }
                i = end < 0 ? i : end;
            }
        }
        return plain.ToString();
    }
}
