using System.Buffers.Text;

namespace FixtureGen.Drawing.Reading;

/// <summary>Groups of a text drawing: a line with the code, a line with the value; lines end with CR LF, LF or CR in any mixture.</summary>
internal sealed class TextGroups(byte[] bytes, int start, string file) : GroupReader(bytes)
{
    /// <summary>Longest line believed, bytes; the format allows 2049 characters, proxies and pictures are cut into shorter ones.</summary>
    public const int LongestLine = 1 << 20;

    private int _at = start;
    private int _line;

    /// <summary>Numbers written with a decimal comma so far.</summary>
    public int Commas { get; private set; }

    public override double? Number(Group group)
    {
        ReadOnlySpan<byte> text = Trim(Raw(group));
        if (text.Length > 0 && text[0] == (byte)'+')
        {
            text = text[1..];
        }
        if (Utf8Parser.TryParse(text, out double value, out int used) && used == text.Length)
        {
            return double.IsFinite(value) ? value : null;
        }
        return Respelled(text);
    }

    // 12,5 for 12.5 and 1.5D+01 for 1.5E+01 are found in the field; both read one way only, as the format has no thousands mark.
    private double? Respelled(ReadOnlySpan<byte> text)
    {
        if (text.Length is 0 or > 64)
        {
            return null;
        }
        Span<byte> copy = stackalloc byte[text.Length];
        text.CopyTo(copy);
        int comma = copy.IndexOf((byte)',');
        if (comma >= 0)
        {
            copy[comma] = (byte)'.';
        }
        int exponent = copy.IndexOfAny((byte)'D', (byte)'d');
        if (exponent >= 0)
        {
            copy[exponent] = (byte)'E';
        }
        bool read = Utf8Parser.TryParse(copy, out double value, out int used) && used == copy.Length;
        if (!read || !double.IsFinite(value))
        {
            return null;
        }
        Commas += comma >= 0 ? 1 : 0;
        return value;
    }

    protected override bool TryNext()
    {
        while (true)
        {
            if (!TryLine(out int from, out int to))
            {
                return false;
            }
            ReadOnlySpan<byte> code = Trim(Bytes.AsSpan(from, to - from));
            if (code.Length == 0)
            {
                BlankLines++;
                continue;
            }
            if (
                !Utf8Parser.TryParse(code, out int number, out int used)
                || used != code.Length
                || number is < short.MinValue or > short.MaxValue
            )
            {
                Fault = DxfFindings.BadCode(file, _line, code);
                return false;
            }
            if (!TryLine(out from, out to))
            {
                Fault ??= DxfFindings.CutShort(file, _line);
                return false;
            }
            Current = new Group(number, from, to - from, _line);
            return true;
        }
    }

    private bool TryLine(out int from, out int to)
    {
        from = to = _at;
        if (_at >= Bytes.Length)
        {
            return false;
        }
        ReadOnlySpan<byte> rest = Bytes.AsSpan(_at);
        int end = rest[..Math.Min(rest.Length, LongestLine)].IndexOfAny((byte)'\n', (byte)'\r');
        _line++;
        if (end < 0 && rest.Length > LongestLine)
        {
            Fault = DxfFindings.LineTooLong(file, _line, LongestLine);
            return false;
        }
        end = end < 0 ? rest.Length : end;
        to = _at + end;
        bool crLf = end + 1 < rest.Length && rest[end] == (byte)'\r' && rest[end + 1] == (byte)'\n';
        _at = Math.Min(Bytes.Length, to + (crLf ? 2 : 1));
        return true;
    }

    private static ReadOnlySpan<byte> Trim(ReadOnlySpan<byte> text) => text.Trim(" \t\0\x1a"u8);
}
