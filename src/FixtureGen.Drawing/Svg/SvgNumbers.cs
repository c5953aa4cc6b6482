using System.Globalization;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Svg;

/// <summary>Numbers and lengths as SVG writes them (SVG 2, 4.2 and 8.9; CSS Values 3, 5.2: 96 px are an inch).</summary>
internal sealed class SvgNumbers(string text)
{
    private int _at;

    /// <summary>User units in one of the unit; null for a unit that depends on fonts or the window.</summary>
    public static double? Pixels(string unit) =>
        unit.ToLowerInvariant() switch
        {
            "" or "px" => 1,
            "in" => 96,
            "mm" => 96 / Units.MmPerInch,
            "cm" => 960 / Units.MmPerInch,
            "q" => 24 / Units.MmPerInch,
            "pt" => 96.0 / 72,
            "pc" => 16,
            _ => null,
        };

    /// <summary>A whole attribute as a length in user units; null where it is none.</summary>
    public static double? Length(string written)
    {
        var numbers = new SvgNumbers(written);
        return numbers.Next() is { } value && Pixels(numbers.Rest.Trim()) is { } unit ? value * unit : null;
    }

    /// <summary>All numbers of a list with blanks or commas between; null where something else stands among them.</summary>
    public static List<double>? List(string written)
    {
        var numbers = new SvgNumbers(written);
        var list = new List<double>();
        while (!numbers.AtEnd)
        {
            if (numbers.Next() is not { } value)
            {
                return null;
            }
            list.Add(value);
        }
        return list;
    }

    public string Rest => text[_at..];

    public bool AtEnd
    {
        get
        {
            Skip();
            return _at >= text.Length;
        }
    }

    /// <summary>The next letter, taken; null where a number or the end comes.</summary>
    public char? Letter()
    {
        Skip();
        return _at < text.Length && char.IsAsciiLetter(text[_at]) ? text[_at++] : null;
    }

    /// <summary>A flag of an arc: one digit, which needs no blank behind it.</summary>
    public bool? Flag()
    {
        Skip();
        return _at < text.Length && text[_at] is '0' or '1' ? text[_at++] == '1' : null;
    }

    /// <summary>The next number; null where none stands here or it is not finite.</summary>
    public double? Next()
    {
        Skip();
        int from = _at;
        int at = _at;
        at += at < text.Length && text[at] is '+' or '-' ? 1 : 0;
        int digits = Digits(ref at);
        if (at < text.Length && text[at] == '.')
        {
            at++;
            digits += Digits(ref at);
        }
        if (digits == 0)
        {
            return null;
        }
        if (at + 1 < text.Length && text[at] is 'e' or 'E')
        {
            int exponent = at + 1;
            exponent += text[exponent] is '+' or '-' ? 1 : 0;
            int more = exponent;
            at = Digits(ref more) > 0 ? more : at;
        }
        _at = at;
        return
            double.TryParse(
                text.AsSpan(from, at - from),
                NumberStyles.Float,
                CultureInfo.InvariantCulture,
                out double v
            ) && double.IsFinite(v)
            ? v
            : null;
    }

    private int Digits(ref int at)
    {
        int from = at;
        while (at < text.Length && char.IsAsciiDigit(text[at]))
        {
            at++;
        }
        return at - from;
    }

    private void Skip()
    {
        while (_at < text.Length && text[_at] is ' ' or '\t' or '\r' or '\n' or '\f' or ',')
        {
            _at++;
        }
    }
}
