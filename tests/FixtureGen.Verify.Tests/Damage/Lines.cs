using System.Globalization;
using System.Text.RegularExpressions;

namespace FixtureGen.Verify.Tests.Damage;

/// <summary>
/// A program's text line by line, with what is in force at each: for edits that mean something. It knows G0 to G3 with X Y Z I J in
/// absolute words, lines that go home, and the comments before each operation.
/// </summary>
internal sealed partial class Lines
{
    public Lines(string text)
    {
        All = [.. text.TrimEnd('\n').Split('\n')];
        Inch = All.Exists(l => Word(Code(l), "G20"));
    }

    public List<string> All { get; }

    public bool Inch { get; }

    /// <summary>A millimetre in the program's unit.</summary>
    public double Mm => Inch ? 1 / 25.4 : 1;

    public string Text => string.Join('\n', All) + "\n";

    /// <summary>Where operations begin, by their comments that name the tool, and behind the last one where its retract begins.</summary>
    public (int From, int To)[] Operations()
    {
        int[] starts = [.. Enumerable.Range(0, All.Count).Where(i => Operation().IsMatch(All[i]))];
        int end = All.FindLastIndex(l => Word(Code(l), "M5"));
        return [.. starts.Select((s, k) => (s, k + 1 < starts.Length ? starts[k + 1] : end)).Where(o => o.Item2 > o.s)];
    }

    /// <summary>The line without comments.</summary>
    public static string Code(string line) => Damager.Code(line);

    public static bool Word(string code, string word) =>
        Regex.IsMatch(code, $@"(?<![A-Z0-9.]){word[0]}0?{word[1..]}(?![0-9.])");

    public static double? Value(string code, char letter)
    {
        Match m = Regex.Match(code, $@"{letter}([+-]?\d*\.?\d+|[+-]?\d+\.)");
        return m.Success ? double.Parse(m.Groups[1].ValueSpan, NumberStyles.Float, CultureInfo.InvariantCulture) : null;
    }

    /// <summary>The line with a word's number replaced.</summary>
    public static string With(string line, char letter, double value) =>
        new Regex($@"{letter}[+-]?\d*\.?\d*").Replace(line, letter + Number(value), 1);

    public static string Number(double value) => value.ToString("0.0####", CultureInfo.InvariantCulture);

    public static bool Home(string code) => Word(code, "G28") || Word(code, "G53") || Word(code, "G30");

    /// <summary>Lines with words that are no home move, from one to another.</summary>
    public IEnumerable<int> Moving(int from, int to) =>
        Enumerable.Range(from, to - from).Where(i => Axes().IsMatch(Code(All[i])) && !Home(Code(All[i])));

    /// <summary>Sends every place in XY and every centre of a stretch elsewhere; the arcs turn the other way where that mirrors.</summary>
    public void Move(int from, int to, Func<double, double, (double X, double Y)> place, bool mirrored)
    {
        double x = 0;
        double y = 0;
        foreach (int i in Moving(0, to))
        {
            string code = Code(All[i]);
            double? nx = Value(code, 'X');
            double? ny = Value(code, 'Y');
            bool moves = nx is not null || ny is not null;
            (x, y) = (nx ?? x, ny ?? y);
            if (i < from || !moves)
            {
                continue;
            }
            All[i] = Placed(All[i], place(x, y), place, mirrored);
        }
    }

    private static string Placed(
        string line,
        (double X, double Y) to,
        Func<double, double, (double X, double Y)> place,
        bool mirrored
    )
    {
        string code = Code(line);
        string left = Regex.Replace(line, @"\s*[XYIJ][+-]?\d*\.?\d*(?![^(]*\))", "");
        string words = $" X{Number(to.X)} Y{Number(to.Y)}";
        if (Value(code, 'I') is not null || Value(code, 'J') is not null)
        {
            (double ox, double oy) = place(0, 0);
            (double ix, double iy) = place(Value(code, 'I') ?? 0, Value(code, 'J') ?? 0);
            words += $" I{Number(ix - ox)} J{Number(iy - oy)}";
        }
        if (mirrored)
        {
            left = Arc().Replace(left, m => m.Value[..^1] + (m.Value[^1] == '2' ? '3' : '2'));
        }
        int at = Letters().Match(left) is { Success: true } g ? g.Index + g.Length : 0;
        return left[..at] + words + left[at..];
    }

    [GeneratedRegex(@"^[(;].* - T\d+")]
    private static partial Regex Operation();

    [GeneratedRegex(@"[XYZ][+-]?[\d.]")]
    private static partial Regex Axes();

    [GeneratedRegex(@"\bG0?[23]\b")]
    private static partial Regex Arc();

    [GeneratedRegex(@"^(?:\s*N\d+)?(?:\s*G\d+\.?\d*)*")]
    private static partial Regex Letters();
}
