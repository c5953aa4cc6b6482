using System.Globalization;
using System.Text.RegularExpressions;

namespace FixtureGen.Verify.Tests.Damage;

/// <summary>Makes one edit of a kind at a random place; null where the program has no such place.</summary>
internal static partial class Damager
{
    public static Edit? Make(string text, DamageKind kind, Random random)
    {
        List<string> lines = [.. text.TrimEnd('\n').Split('\n')];
        int[] places = [.. Enumerable.Range(0, lines.Count).Where(i => Applies(lines, i, kind))];
        if (places.Length == 0)
        {
            return null;
        }
        int at = places[random.Next(places.Length)];
        string before = lines[at];
        Change(lines, at, kind, random);
        string after = at < lines.Count ? lines[at] : "";
        string edited = kind == DamageKind.TextCutOff ? string.Join('\n', lines) : string.Join('\n', lines) + "\n";
        return edited == text ? null : new Edit(kind, edited, at + 1, $"'{before}' -> '{after}'");
    }

    private static bool Applies(List<string> lines, int i, DamageKind kind)
    {
        string code = Code(lines[i]);
        return kind switch
        {
            DamageKind.DigitChanged => code.Any(char.IsAsciiDigit),
            DamageKind.SignFlipped => Length().IsMatch(code),
            DamageKind.LineDropped or DamageKind.LineDoubled => code.Length > 0,
            DamageKind.LinesSwapped => code.Length > 0 && i + 1 < lines.Count && Code(lines[i + 1]).Length > 0,
            DamageKind.ArcTurned => ArcWord().IsMatch(code),
            DamageKind.RapidForFeed => FeedWord().IsMatch(code),
            DamageKind.ModeWordDropped => ModeWord().IsMatch(code),
            DamageKind.ToolSwapped => ToolWord().IsMatch(code),
            DamageKind.FeedTimesTen => FeedNumber().IsMatch(code),
            DamageKind.HeightShifted => HeightWord().IsMatch(code),
            DamageKind.OffsetChanged => OffsetWord().IsMatch(code),
            DamageKind.CommentOpened => code.Length > 0,
            DamageKind.PointLost => code.Contains('.', StringComparison.Ordinal),
            DamageKind.CentreMoved => CentreWord().IsMatch(code),
            DamageKind.RetractRemoved => Retract(lines, i),
            _ => i > 0,
        };
    }

    private static void Change(List<string> lines, int at, DamageKind kind, Random random)
    {
        string line = lines[at];
        switch (kind)
        {
            case DamageKind.LineDropped or DamageKind.RetractRemoved:
                lines.RemoveAt(at);
                break;
            case DamageKind.LineDoubled:
                lines.Insert(at, line);
                break;
            case DamageKind.LinesSwapped:
                (lines[at], lines[at + 1]) = (lines[at + 1], line);
                break;
            case DamageKind.TextCutOff:
                lines.RemoveRange(at, lines.Count - at);
                lines.Add(line[..random.Next(line.Length)]);
                break;
            default:
                lines[at] = InLine(line, kind, random);
                break;
        }
    }

    private static string InLine(string line, DamageKind kind, Random random) =>
        kind switch
        {
            DamageKind.DigitChanged => ChangeDigit(line, random),
            DamageKind.SignFlipped => One(line, Length(), random, m => m.Value[..1] + Flip(m.Value[1..])),
            DamageKind.ArcTurned => One(
                line,
                ArcWord(),
                random,
                m => m.Value[^1] == '2' ? m.Value[..^1] + "3" : m.Value[..^1] + "2"
            ),
            DamageKind.RapidForFeed => One(line, FeedWord(), random, _ => "G0"),
            DamageKind.ModeWordDropped => One(line, ModeWord(), random, _ => ""),
            DamageKind.ToolSwapped => One(line, ToolWord(), random, m => "T" + Other(m.Value, random)),
            DamageKind.FeedTimesTen => One(line, FeedNumber(), random, m => "F" + Times(m.Value[1..], 10)),
            DamageKind.HeightShifted => One(line, HeightWord(), random, m => "Z" + Shift(m.Value[1..], random)),
            DamageKind.OffsetChanged => One(
                line,
                OffsetWord(),
                random,
                m =>
                    m.Value[0] == 'H' ? "H" + Other(m.Value, random)
                    : m.Value == "G54" ? "G55"
                    : "G54"
            ),
            DamageKind.CommentOpened => Open(line, random),
            DamageKind.PointLost => One(line, Point(), random, _ => ""),
            DamageKind.CentreMoved => One(line, CentreWord(), random, m => m.Value[..1] + Shift(m.Value[1..], random)),
            _ => line,
        };

    /// <summary>The line without its comments and line number.</summary>
    internal static string Code(string line)
    {
        string code = Comment().Replace(line, "");
        int semicolon = code.IndexOf(';', StringComparison.Ordinal);
        return (semicolon < 0 ? code : code[..semicolon]).Trim();
    }

    private static bool Retract(List<string> lines, int i)
    {
        Match up = HeightWord().Match(Code(lines[i]));
        bool alone = up.Success && !Code(lines[i]).Any(c => c is 'X' or 'Y' or 'I' or 'R' or 'H');
        for (int k = i - 1; alone && k >= 0 && k > i - 40; k--)
        {
            Match last = HeightWord().Match(Code(lines[k]));
            if (last.Success)
            {
                return Value(up.Value[1..]) > Value(last.Value[1..]);
            }
        }
        return false;
    }

    private static string ChangeDigit(string line, Random random)
    {
        int[] places = [.. Enumerable.Range(0, line.Length).Where(i => char.IsAsciiDigit(line[i]))];
        int at = places[random.Next(places.Length)];
        char now = line[at];
        char next = (char)('0' + ((now - '0' + 1 + random.Next(9)) % 10));
        return line[..at] + next + line[(at + 1)..];
    }

    private static string One(string line, Regex pattern, Random random, Func<Match, string> change)
    {
        Match[] all = [.. pattern.Matches(line).Cast<Match>()];
        if (all.Length == 0)
        {
            return line;
        }
        Match m = all[random.Next(all.Length)];
        return line[..m.Index] + change(m) + line[(m.Index + m.Length)..];
    }

    private static string Open(string line, Random random)
    {
        int at = random.Next(line.Length);
        return line[..at] + "(" + line[at..].Replace(")", "", StringComparison.Ordinal);
    }

    private static string Flip(string number) => number.StartsWith('-') ? number[1..] : "-" + number.TrimStart('+');

    private static string Times(string number, double k) => Like(number, Value(number) * k);

    /// <summary>Off by a quarter to two millimetres, or the same hundredths of an inch, either way.</summary>
    private static string Shift(string number, Random random)
    {
        int decimals = Decimals(number);
        double unit = decimals >= 4 && Math.Abs(Value(number)) < 12 ? 1 / 25.4 : 1;
        double by = (0.25 + (1.75 * random.NextDouble())) * unit * (random.Next(2) == 0 ? 1 : -1);
        return Like(number, Value(number) + by);
    }

    private static string Like(string number, double value)
    {
        int decimals = Math.Max(Decimals(number), number.Contains('.', StringComparison.Ordinal) ? 3 : 0);
        string text = value.ToString(
            "F" + decimals.ToString(CultureInfo.InvariantCulture),
            CultureInfo.InvariantCulture
        );
        return number.Contains('.', StringComparison.Ordinal) && decimals == 0 ? text + "." : text;
    }

    private static int Decimals(string number)
    {
        int point = number.IndexOf('.', StringComparison.Ordinal);
        return point < 0 ? 0 : number.Length - point - 1;
    }

    private static double Value(string number) =>
        double.Parse(number, NumberStyles.Float, CultureInfo.InvariantCulture);

    private static string Other(string word, Random random) =>
        (int.Parse(word[1..], CultureInfo.InvariantCulture) + 1 + random.Next(6)).ToString(
            CultureInfo.InvariantCulture
        );

    [GeneratedRegex(@"\([^)]*\)")]
    private static partial Regex Comment();

    [GeneratedRegex(@"[XYZIJR]-?(?:\d*[1-9]\d*\.?\d*|\d+\.\d*[1-9]\d*)")]
    private static partial Regex Length();

    [GeneratedRegex(@"\bG0?[23]\b")]
    private static partial Regex ArcWord();

    [GeneratedRegex(@"\bG0?1\b")]
    private static partial Regex FeedWord();

    [GeneratedRegex(@"\bG(?:20|21|90|91)\b")]
    private static partial Regex ModeWord();

    [GeneratedRegex(@"\bT\d+")]
    private static partial Regex ToolWord();

    [GeneratedRegex(@"F\d+\.?\d*")]
    private static partial Regex FeedNumber();

    [GeneratedRegex(@"Z-?\d+\.?\d*")]
    private static partial Regex HeightWord();

    [GeneratedRegex(@"\bH\d+|\bG5[4-9]\b")]
    private static partial Regex OffsetWord();

    [GeneratedRegex(@"\.")]
    private static partial Regex Point();

    [GeneratedRegex(@"[IJ]-?\d+\.?\d*")]
    private static partial Regex CentreWord();
}
