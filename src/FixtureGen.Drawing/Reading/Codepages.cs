using System.Globalization;
using System.Text;

namespace FixtureGen.Drawing.Reading;

/// <summary>
/// Turns a drawing's strings into text: from release 2007 (AC1021) UTF-8, before that $DWGCODEPAGE (ANSI_1252 when
/// nothing is said), with \U+nnnn and \M+nxxxx escapes in both (DXF Reference, Group Codes; $DWGCODEPAGE).
/// </summary>
internal sealed class Codepages
{
    private static readonly UTF8Encoding StrictUtf8 = new(false, throwOnInvalidBytes: true);

    // \M+n: 1 Japanese, 2 traditional Chinese, 3 Korean (Wansung), 4 Korean (Johab), 5 simplified Chinese
    private static readonly int[] MultiBytePages = [0, 932, 950, 949, 1361, 936];

    private Encoding _page = Page(1252);

    /// <summary>Takes a $DWGCODEPAGE value such as ANSI_1252, dos850, mac-roman or utf-8; false for one it does not know.</summary>
    public bool UsePage(string name)
    {
        string lower = name.Trim().ToLowerInvariant();
        if (lower is "utf8" or "utf-8" or "ascii" or "us-ascii" or "8bit" or "undefined" or "" or "roman8")
        {
            return true;
        }
        if (lower is "mac-roman" or "macintosh")
        {
            _page = Page(10000);
            return true;
        }
        if (lower.StartsWith("iso8859-", StringComparison.Ordinal) && Number(lower[8..]) is { } part)
        {
            return TryUse(28590 + part);
        }
        string digits = string.Concat(lower.SkipWhile(c => !char.IsAsciiDigit(c)));
        return lower switch
        {
            "big5" => TryUse(950),
            "gb2312" => TryUse(936),
            "ksc5601" => TryUse(949),
            "johab" => TryUse(1361),
            _ => Number(digits) is { } page && TryUse(page),
        };
    }

    public string Decode(ReadOnlySpan<byte> raw)
    {
        if (Ascii.IsValid(raw))
        {
            return Unescape(Encoding.ASCII.GetString(raw));
        }
        try
        {
            // many programs write UTF-8 whatever the header says; other pages hardly ever look like valid UTF-8
            return Unescape(StrictUtf8.GetString(raw));
        }
        catch (DecoderFallbackException)
        {
            return Unescape(_page.GetString(raw));
        }
    }

    internal static string Unescape(string text)
    {
        int at = text.IndexOf('\\', StringComparison.Ordinal);
        if (at < 0)
        {
            return text;
        }
        var plain = new StringBuilder(text.Length);
        for (int i = 0; i < text.Length; )
        {
            i += DecodeCharacter(text, i, plain);
        }
        return plain.ToString();
    }

    private static int DecodeCharacter(string text, int i, StringBuilder into)
    {
        ReadOnlySpan<char> rest = text.AsSpan(i);
        if (rest.StartsWith("\\U+", StringComparison.OrdinalIgnoreCase) && Hex(rest, 3, 4) is { } unicode)
        {
            into.Append((char)unicode);
            return 7;
        }
        if (
            rest.StartsWith("\\M+", StringComparison.OrdinalIgnoreCase)
            && rest.Length >= 8
            && rest[3] is >= '1' and <= '5'
            && Hex(rest, 4, 4) is { } pair
        )
        {
            into.Append(Page(MultiBytePages[rest[3] - '0']).GetString([(byte)(pair >> 8), (byte)pair]));
            return 8;
        }
        into.Append(rest[0]);
        return 1;
    }

    private static int? Hex(ReadOnlySpan<char> text, int start, int digits) =>
        text.Length >= start + digits
        && int.TryParse(
            text.Slice(start, digits),
            NumberStyles.AllowHexSpecifier,
            CultureInfo.InvariantCulture,
            out int value
        )
            ? value
            : null;

    private static int? Number(string digits) =>
        int.TryParse(digits, NumberStyles.None, CultureInfo.InvariantCulture, out int value) ? value : null;

    private bool TryUse(int number)
    {
        try
        {
            _page = Page(number);
            return true;
        }
        catch (Exception e) when (e is NotSupportedException or ArgumentException)
        {
            return false;
        }
    }

    private static Encoding Page(int number) =>
        CodePagesEncodingProvider.Instance.GetEncoding(number) ?? Encoding.GetEncoding(number);
}
