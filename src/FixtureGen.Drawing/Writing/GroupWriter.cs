using System.Buffers;
using System.Globalization;
using System.Text;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Writing;

/// <summary>Writes groups of a text drawing; <paramref name="scale"/> turns mm into the drawing's unit, in which lengths have that many decimals.</summary>
internal sealed class GroupWriter(double scale, int decimals)
{
    /// <summary>The block record that owns what is drawn in model space.</summary>
    public const string ModelSpace = "1F";

    private static readonly SearchValues<char> Forbidden = SearchValues.Create("<>/\\\":;?*|=`\r\n");

    private readonly StringBuilder _text = new();

    // the skeleton's own handles lie below this
    private int _handle = 0x100;

    public GroupWriter Text(int code, string value)
    {
        _text.Append(CultureInfo.InvariantCulture, $"{code, 3}\n{Escaped(value)}\n");
        return this;
    }

    public GroupWriter Integer(int code, int value)
    {
        _text.Append(CultureInfo.InvariantCulture, $"{code, 3}\n{value, 6}\n");
        return this;
    }

    /// <summary>A number without a unit, to ten decimals: over the longest chord of a part a bulge is then true to less than a ten-millionth of a mm.</summary>
    public GroupWriter Real(int code, double value) => Number(code, value, 10);

    private GroupWriter Number(int code, double value, int decimals)
    {
        if (!double.IsFinite(value))
        {
            throw new ArgumentException("a number of a drawing must be finite", nameof(value));
        }
        string digits = TrueDigits.Round(value, decimals).ToString("R", CultureInfo.InvariantCulture);
        bool whole = digits.AsSpan().IndexOfAny('.', 'E') < 0;
        _text.Append(CultureInfo.InvariantCulture, $"{code, 3}\n{digits}{(whole ? ".0" : "")}\n");
        return this;
    }

    /// <summary>A length, given in mm and written to a ten-millionth of a mm or finer.</summary>
    public GroupWriter Length(int code, double mm) => Number(code, mm * scale, decimals);

    /// <summary>A point with Z 0, given in mm.</summary>
    public GroupWriter Point(int code, Point2 p) => Length(code, p.X).Length(code + 10, p.Y).Real(code + 20, 0);

    /// <summary>A polyline's vertex, given in mm.</summary>
    public GroupWriter Flat(Point2 p) => Length(10, p.X).Length(20, p.Y);

    public GroupWriter Entity(string type, string layer, string subclass) =>
        Text(0, type)
            .Text(5, Handle())
            .Text(330, ModelSpace)
            .Text(100, "AcDbEntity")
            .Text(8, Name(layer))
            .Text(100, subclass);

    public string Handle() => (_handle++).ToString("X", CultureInfo.InvariantCulture);

    /// <summary>A layer name as every reader takes it, ASCII only, else <see cref="ArgumentException"/>.</summary>
    public static string Name(string name) =>
        name.Length is > 0 and <= 255 && Ascii.IsValid(name) && name.AsSpan().IndexOfAny(Forbidden) < 0
            ? name
            : throw new ArgumentException($"'{name}' is no layer name", nameof(name));

    public override string ToString() => _text.ToString();

    private static string Escaped(string value)
    {
        if (Ascii.IsValid(value) && !value.Any(char.IsControl))
        {
            return value;
        }
        var escaped = new StringBuilder();
        foreach (char c in value)
        {
            if (char.IsControl(c))
            {
                escaped.Append(' ');
            }
            else if (c < 128)
            {
                escaped.Append(c);
            }
            else
            {
                escaped.Append(CultureInfo.InvariantCulture, $"\\U+{(int)c:X4}");
            }
        }
        return escaped.ToString();
    }
}
