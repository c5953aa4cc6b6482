using System.Text.RegularExpressions;
using FixtureGen.Model;

namespace FixtureGen.Verify.Tests.Damage;

/// <summary>
/// Edits that a skilled hand makes and that do no harm, by name; each gives null where a program has no place for it. Words and
/// heights are those of the program's own control and unit.
/// </summary>
internal static partial class Harmless
{
    private static readonly Dictionary<string, Func<Lines, Control, string?>> All = new(StringComparer.Ordinal)
    {
        ["comment before the label"] = (p, c) => Insert(p, Head(p), Say(c, "EDITED BY HAND")),
        ["comment behind the label"] = (p, c) => Insert(p, FirstWords(p), Say(c, "SECOND CLAMP IS BLUE")),
        ["name behind the number"] = (p, c) =>
            c.Comment == CommentForm.Parentheses && c.ProgramNumberWord.Length > 0 ? Number(p, c, " (CRADLE)") : null,
        ["empty lines"] = (p, _) => EachFew(p, 40, (l, _) => l + "\n"),
        ["blanks at ends"] = (p, _) => Each(p, l => l + "  "),
        ["carriage returns"] = (p, _) => p.Text.Replace("\n", "\r\n", StringComparison.Ordinal),
        ["small letters"] = (p, c) => c.Comment == CommentForm.Parentheses ? Codes(p, s => s.ToLowerInvariant()) : null,
        ["more blanks"] = (p, _) => Codes(p, s => s.Replace(" ", "  ", StringComparison.Ordinal)),
        ["no blanks"] = (p, _) => Codes(p, s => s.Replace(" ", "", StringComparison.Ordinal)),
        ["tabs"] = (p, _) => Codes(p, s => s.Replace(' ', '\t')),
        ["two digits of G and M"] = (p, _) => Codes(p, s => OneDigit().Replace(s, "${1}0$2")),
        ["zeros behind"] = (p, _) => Codes(p, s => Decimals().Replace(s, "0")),
        ["plus signs"] = (p, _) => Codes(p, s => Positive().Replace(s, "$1+$2")),
        ["numbers without a leading zero"] = (p, _) => Codes(p, s => LeadingZero().Replace(s, "$1.")),
        ["comment behind a motion"] = (p, c) =>
            At(p, Cuts(p).Skip(5).FirstOrDefault(), l => l + " " + Say(c, "WATCH HERE")),
        ["comment between motions"] = (p, c) => Insert(p, Cuts(p).Skip(8).FirstOrDefault(), Say(c, "HALF WAY")),
        ["comment before the end"] = (p, c) => Insert(p, End(p), Say(c, "CLEAN UP")),
        ["comment of the tool again"] = (p, c) => Insert(p, AfterChange(p), Say(c, "LOOK AT THE EDGE")),
        ["comment of chips"] = (p, c) => Insert(p, Change(p), Say(c, "BRUSH THE CHIPS OFF, 2 MINUTES")),
        ["no final newline"] = (p, _) => p.Text.TrimEnd('\n'),
        ["one more newline"] = (p, _) => p.Text + "\n",
        ["operations without a comment"] = (p, c) =>
            c.Comment == CommentForm.Parentheses ? Operations(p, _ => "(CUTS)") : null,
        ["line numbers"] = (p, c) =>
            c.LineNumberStep == 0
                ? EachFew(
                    p,
                    1,
                    (l, i) =>
                        Lines.Code(l) is "" or "%" || l.StartsWith(c.ProgramNumberWord, StringComparison.Ordinal)
                            ? l
                            : FormattableString.Invariant($"N{i} {l}")
                )
                : null,
        ["cycles off before a tool"] = (p, _) => Insert(p, Change(p), "G80"),
        ["safe start before a tool"] = (p, c) => Insert(p, Change(p), Start(c)),
        ["G90 again"] = (p, _) => Insert(p, AfterLength(p), "G90"),
        ["G94 again"] = (p, _) => Insert(p, AfterLength(p), "G94"),
        ["G17 again"] = (p, _) => Insert(p, Cuts(p).Skip(3).FirstOrDefault(), "G17"),
        ["G40 again"] = (p, _) => Insert(p, AfterLength(p), "G40"),
        ["the unit again"] = (p, _) => Insert(p, AfterLength(p), p.Inch ? "G20" : "G21"),
        ["the work offset again"] = (p, c) => Insert(p, AfterChange(p), c.WorkOffset),
        ["the length offset again"] = (p, _) =>
            AfterLength(p) is var i && i > 0 && p.All[i - 1].Contains("G43", StringComparison.Ordinal)
                ? Insert(p, i, Regex.Match(p.All[i - 1], @"G43 H\d+").Value)
                : null,
        ["the speed again"] = (p, c) => After(p, "M3", l => Regex.Match(l, @"S\d+").Value),
        ["the spindle again"] = (p, _) => After(p, "M3", _ => "M3"),
        ["the spindle stopped again"] = (p, _) => After(p, "M5", _ => "M5"),
        ["the air on again"] = (p, c) => c.AirOn.Length > 0 ? After(p, c.AirOn, _ => c.AirOn) : null,
        ["the air off again"] = (p, c) => c.AirOff.Length > 0 ? After(p, c.AirOff, _ => c.AirOff) : null,
        ["the air off before the spindle"] = (p, c) => c.AirOff.Length > 0 ? Swap(p, "M5", c.AirOff) : null,
        ["the air on in the spindle's line"] = (p, c) => c.AirOn.Length > 0 ? Join(p, "M3", c.AirOn) : null,
        ["the vacuum waited for twice"] = (p, c) =>
            c.VacuumWait.Length > 0 ? After(p, c.VacuumWait, _ => c.VacuumWait) : null,
        ["a dwell before the vacuum's switch"] = (p, c) =>
            c.VacuumWait.Length > 0 ? After(p, c.VacuumOn, _ => Wait(c, 2)) : null,
        ["a dwell for the spindle"] = (p, c) => After(p, "M3", _ => Wait(c, 3)),
        ["a dwell after the spindle's stop"] = (p, c) => After(p, "M5", _ => Wait(c, 4)),
        ["an optional stop after home"] = (p, _) => Insert(p, End(p), "M1"),
        ["a stop after home"] = (p, c) => Insert(p, End(p), Say(c, "LOOK AT IT") + "\nM0"),
        ["an optional stop before a tool change"] = (p, _) => Homed(p) is var i && i > 0 ? Insert(p, i, "M1") : null,
        ["an optional stop after a tool change"] = (p, _) => Insert(p, AfterChange(p), "M1"),
        ["home again"] = (p, c) => Insert(p, End(p), string.Join('\n', c.Home)),
        ["M2 in place of M30"] = (p, _) => Code(p, "M30", "M2"),
        ["a level above the alarm"] = (p, c) => Insert(p, FirstWords(p), Say(c, "VACUUM 70 KPA IS BETTER")),
        ["the level in another unit"] = (p, c) => Insert(p, FirstWords(p), Say(c, "VACUUM 20.1 INHG, 680 MBAR")),
        ["a caution more"] = (p, c) => Insert(p, FirstWords(p), Say(c, "NEVER START WITHOUT VACUUM")),
        ["a caution about the door"] = (p, c) => Insert(p, FirstWords(p), Say(c, "DOOR NOT OPEN WHILE IT CUTS")),
        ["a date and initials"] = (p, c) => Insert(p, FirstWords(p), Say(c, "2026-05-04 JK, 12 PIECES")),
        ["slower by a tenth"] = (p, _) => Feeds(p, _ => 0.9),
        ["slower by a quarter"] = (p, _) => Feeds(p, _ => 0.75),
        ["one feed a third less"] = (p, _) => Feeds(p, n => n == 2 ? 0.67 : 1),
        ["plunges at half the feed"] = (p, _) => Plunges(p),
        ["speed and feed down by a tenth"] = (p, _) => Speeds(p, 0.9),
        ["speed and feed down by a fifth"] = (p, _) => Speeds(p, 0.8),
        ["the safe height higher"] = (p, _) => Raise(p, z => z > Highest(p) - (0.5 * p.Mm), 5),
        ["all travel higher"] = (p, _) => Raise(p, _ => true, 3),
        ["one retract higher"] = (p, _) => OneRetract(p, 8),
        ["a retract more"] = (p, _) => OneRetract(p, double.NaN),
        ["down in two rapids"] = (p, _) => TwoRapids(p),
        ["the last rapid down as a feed"] = (p, _) => FeedDown(p),
        ["a line in two"] = (p, _) => Halved(p),
        ["a rapid in two"] = (p, _) => RapidHalved(p),
        ["motion words in every line"] = (p, _) => Modal(p),
        ["feed words in every line"] = (p, _) => FeedWords(p),
        ["X and Y in every line"] = (p, _) => Both(p),
        ["words in another order"] = (p, _) => Codes(p, s => Regex.Replace(s, @"(X[-+\d.]+) (Y[-+\d.]+)", "$2 $1")),
        ["a spring pass"] = (p, _) => Spring(p),
        ["a peck by hand"] = (p, _) => Peck(p),
        ["a drilling peck more"] = (p, _) =>
            Cycles(p, l => Regex.Replace(l, @"\bG81\b", "G83") + " Q" + Lines.Number(4 * p.Mm)),
        ["a dwell in a drilling cycle"] = (p, c) =>
            Cycles(p, l => Regex.Replace(l, @"\bG81\b", "G82") + " P" + (c.Dwell == DwellUnit.Seconds ? "0.2" : "200")),
        ["a drilling cycle from higher up"] = (p, _) =>
            Cycles(p, l => Lines.With(l, 'R', Lines.Value(l, 'R')!.Value + (3 * p.Mm))),
        ["a drilling cycle back to the old height"] = (p, _) =>
            Cycles(p, l => l.Replace("G99", "G98", StringComparison.Ordinal)),
        ["the next tool made ready"] = (p, c) =>
            c.ToolChange.Any(t => t.Contains("{next}", StringComparison.Ordinal)) ? null
            : AfterChange(p) is var i && i > 0 && Regex.Match(p.All[i - 1], @"T\d+") is { Success: true } t
                ? Insert(p, i, t.Value)
            : null,
    };

    public static IEnumerable<string> Names => All.Keys;

    /// <summary>The edited text, or null where there is no place for the edit.</summary>
    public static string? Make(string name, string text, Control control)
    {
        string? made = All[name](new Lines(text), control);
        return made == text ? null : made;
    }

    private static string Say(Control c, string words) =>
        c.Comment == CommentForm.Parentheses ? $"({words})" : "; " + words;

    private static string Start(Control c) =>
        string.Join('\n', c.SafeStart.Select(l => l.Replace("{work}", c.WorkOffset, StringComparison.Ordinal)));

    private static string Wait(Control c, int seconds) =>
        c.Dwell == DwellUnit.Seconds
            ? FormattableString.Invariant($"G4 {c.DwellWord}{seconds}.")
            : FormattableString.Invariant($"G4 {c.DwellWord}{1000 * seconds}");

    private static string? Insert(Lines p, int at, string line)
    {
        if (at <= 0)
        {
            return null;
        }
        p.All.Insert(at, line);
        return p.Text;
    }

    private static string? At(Lines p, int at, Func<string, string> edit)
    {
        if (at <= 0)
        {
            return null;
        }
        p.All[at] = edit(p.All[at]);
        return p.Text;
    }

    private static string Each(Lines p, Func<string, string> edit) => string.Join('\n', p.All.Select(edit)) + "\n";

    private static string EachFew(Lines p, int few, Func<string, int, string> edit) =>
        string.Join('\n', p.All.Select((l, i) => i > 2 && i % few == 0 && i + 2 < p.All.Count ? edit(l, i) : l)) + "\n";

    /// <summary>The words of each line; comments, percent signs and the program's number stay as they are.</summary>
    private static string Codes(Lines p, Func<string, string> edit) =>
        Each(p, l => l.StartsWith('(') || l.StartsWith(';') || l is "%" || NumberLine().IsMatch(l) ? l : edit(l));

    private static int Head(Lines p) => p.All.FindIndex(l => l.StartsWith('(') || l.StartsWith(';'));

    private static string? Number(Lines p, Control c, string more) =>
        At(p, p.All.FindIndex(l => l.StartsWith(c.ProgramNumberWord, StringComparison.Ordinal)), l => l + more);

    private static int FirstWords(Lines p) => p.All.FindIndex(l => Regex.IsMatch(Lines.Code(l), @"\bG(?:17|2[01])\b"));

    private static int End(Lines p) => p.All.FindLastIndex(l => Lines.Word(Lines.Code(l), "M30"));

    private static int AfterChange(Lines p) => 1 + p.All.FindIndex(l => Lines.Word(Lines.Code(l), "M6"));

    /// <summary>Where the lines of the first tool change begin, behind the comment of its operation.</summary>
    private static int Change(Lines p) => 1 + p.All.FindIndex(l => Regex.IsMatch(l, @"^[(;].* - T\d+"));

    private static int AfterLength(Lines p) =>
        1 + p.All.FindIndex(l => Regex.IsMatch(Lines.Code(l), @"^(?:N\d+ )?(?:G0 )?(?:G43 H\d+ )?Z"));

    /// <summary>The line of a tool change in the midst of the program, once the tool is home.</summary>
    private static int Homed(Lines p) =>
        p.All.FindLastIndex(l => Lines.Word(Lines.Code(l), "M6")) is var i
        && i > 0
        && Lines.Word(Lines.Code(p.All[i - 1]), "G90")
            ? i
        : i > 0 && Lines.Home(Lines.Code(p.All[i - 1])) ? i
        : 0;

    private static IEnumerable<int> Cuts(Lines p) =>
        Enumerable.Range(0, p.All.Count).Where(i => Regex.IsMatch(Lines.Code(p.All[i]), @"\bG0?1 X"));

    private static string? After(Lines p, string word, Func<string, string> line)
    {
        int at = p.All.FindIndex(l => Lines.Word(Lines.Code(l), word));
        return at < 0 ? null : Insert(p, at + 1, line(p.All[at]));
    }

    private static string? Swap(Lines p, string first, string second)
    {
        int at = p.All.FindIndex(l => Lines.Word(Lines.Code(l), first));
        if (at < 0 || !Lines.Word(Lines.Code(p.All[at + 1]), second))
        {
            return null;
        }
        (p.All[at], p.All[at + 1]) = (p.All[at + 1], p.All[at]);
        return p.Text;
    }

    private static string? Join(Lines p, string first, string second)
    {
        int at = p.All.FindIndex(l => Lines.Word(Lines.Code(l), first));
        if (at < 0 || !Lines.Word(Lines.Code(p.All[at + 1]), second))
        {
            return null;
        }
        p.All[at] += " " + second;
        p.All.RemoveAt(at + 1);
        return p.Text;
    }

    private static string? Code(Lines p, string good, string other)
    {
        int at = p.All.FindIndex(l => Lines.Word(Lines.Code(l), good));
        return At(p, at, l => l.Replace(good, other, StringComparison.Ordinal));
    }

    private static string? Operations(Lines p, Func<string, string> edit)
    {
        (int From, int To)[] ops = p.Operations();
        return ops.Length == 0 ? null : At(p, ops[0].From, edit);
    }

    private static string Feeds(Lines p, Func<int, double> factor)
    {
        int n = 0;
        return Codes(p, l => Lines.Value(l, 'F') is { } f ? Lines.With(l, 'F', f * factor(n++)) : l);
    }

    /// <summary>Null where a spindle would turn slower than the demo's mill can: that is no harmless edit.</summary>
    private static string? Speeds(Lines p, double factor) =>
        p.All.Any(l => Lines.Value(Lines.Code(l), 'S') * factor < SlowestRpm)
            ? null
            : Codes(
                p,
                l =>
                {
                    string fed = Lines.Value(l, 'F') is { } f ? Lines.With(l, 'F', f * factor) : l;
                    return Lines.Value(fed, 'S') is { } s
                        ? Regex.Replace(fed, @"S\d+", FormattableString.Invariant($"S{s * factor:0}"))
                        : fed;
                }
            );

    /// <summary>A straight way down that says its own feed is made slower; the next line says the old feed again if it says none.</summary>
    private static string? Plunges(Lines p)
    {
        bool any = false;
        for (int i = 0; i + 1 < p.All.Count; i++)
        {
            string code = Lines.Code(p.All[i]);
            if (Regex.IsMatch(code, @"\bG1 Z[-+\d.]+ F") && Lines.Value(p.All[i + 1], 'F') is not null)
            {
                p.All[i] = Lines.With(p.All[i], 'F', Lines.Value(code, 'F')!.Value / 2);
                any = true;
            }
        }
        return any ? p.Text : null;
    }

    private static double Highest(Lines p) =>
        p.Moving(0, p.All.Count).Select(i => Lines.Value(Lines.Code(p.All[i]), 'Z') ?? 0).Max();

    /// <summary>Rapids in Z alone, by line.</summary>
    private static IEnumerable<int> Rapids(Lines p)
    {
        bool rapid = false;
        for (int i = 0; i < p.All.Count; i++)
        {
            string code = Lines.Code(p.All[i]);
            rapid = Lines.Word(code, "G0") || (rapid && !Regex.IsMatch(code, @"\bG(?:0?[123]|8\d)\b"));
            if (rapid && !Lines.Home(code) && Lines.Value(code, 'Z') is not null)
            {
                yield return i;
            }
        }
    }

    private const double SlowestRpm = 3000;

    private static string? Raise(Lines p, Func<double, bool> which, double by)
    {
        int[] rapids = [.. Rapids(p)];
        foreach (int i in rapids.Where(i => which(Lines.Value(p.All[i], 'Z')!.Value) && Up(p, rapids, i)))
        {
            p.All[i] = Lines.With(p.All[i], 'Z', Lines.Value(p.All[i], 'Z')!.Value + (by * p.Mm));
        }
        return p.Text;
    }

    /// <summary>Of heights that are followed by a lower rapid or by sideways travel, so that feeding still begins where it did.</summary>
    private static bool Up(Lines p, int[] rapids, int i) =>
        i + 1 < p.All.Count
        && (
            Lines.Value(Lines.Code(p.All[i + 1]), 'X') is not null
            || Lines.Value(Lines.Code(p.All[i + 1]), 'Y') is not null
            || rapids.Contains(i + 1)
        )
        && !Regex.IsMatch(Lines.Code(p.All[i + 1]), @"\bG0?[123]\b|\bG8\d");

    private static string? OneRetract(Lines p, double by)
    {
        int[] rapids = [.. Rapids(p)];
        int at = rapids
            .Skip(4)
            .FirstOrDefault(i =>
                Up(p, rapids, i)
                && Lines.Value(Lines.Code(p.All[i + 1]), 'X') is not null
                && Lines.Value(Lines.Code(p.All[i + 1]), 'Z') is null
                && Lines.Word(Lines.Code(p.All[i]), "G0")
            );
        if (at == 0 || !rapids.Contains(at + 2))
        {
            return null;
        }
        double z = double.IsNaN(by) ? Highest(p) : Lines.Value(p.All[at], 'Z')!.Value + (by * p.Mm);
        p.All[at] = Lines.With(p.All[at], 'Z', z);
        return p.Text;
    }

    private static string? TwoRapids(Lines p)
    {
        int at = Rapids(p).Skip(2).FirstOrDefault(i => !Lines.Code(p.All[i]).Contains('X', StringComparison.Ordinal));
        return at == 0 ? null : Insert(p, at, "G0 Z" + Lines.Number(Lines.Value(p.All[at], 'Z')!.Value + (2 * p.Mm)));
    }

    private static string? FeedDown(Lines p)
    {
        int[] rapids = [.. Rapids(p)];
        int at = rapids.LastOrDefault(i =>
            i + 1 < p.All.Count && Regex.IsMatch(Lines.Code(p.All[i + 1]), @"\bG1 Z[-+\d.]+ F")
        );
        if (at == 0 || Lines.Code(p.All[at]).Contains('X', StringComparison.Ordinal))
        {
            return null;
        }
        string feed = Lines.Number(Lines.Value(p.All[at + 1], 'F')!.Value);
        return At(
            p,
            at,
            l => Regex.Replace(Regex.Replace(l, @"\bG0 ", ""), @"Z[-+\d.]+", m => $"G1 {m.Value} F{feed}")
        );
    }

    /// <summary>Line, and what X and Y are before it, of feeds in X and Y alone.</summary>
    private static IEnumerable<(int Line, double X, double Y)> Straights(Lines p, string word)
    {
        double? x = null;
        double? y = null;
        foreach (int i in p.Moving(0, p.All.Count))
        {
            string code = Lines.Code(p.All[i]);
            if (Regex.IsMatch(code, $@"\b{word} X[-+\d.]+ Y[-+\d.]+$") && x is { } ax && y is { } ay)
            {
                yield return (i, ax, ay);
            }
            (x, y) = (Lines.Value(code, 'X') ?? x, Lines.Value(code, 'Y') ?? y);
        }
    }

    private static string? Halved(Lines p)
    {
        (int at, double x, double y) = Straights(p, "G0?1").Skip(2).FirstOrDefault(s => Far(p, s) > 8 * p.Mm);
        return at == 0 ? null : Insert(p, at, Middle(p, at, x, y, "G1"));
    }

    private static string? RapidHalved(Lines p)
    {
        double? x = null;
        double? y = null;
        foreach (int i in p.Moving(0, p.All.Count))
        {
            string code = Lines.Code(p.All[i]);
            bool alone = Regex.IsMatch(code, @"^(?:N\d+ )?(?:G0 )?X[-+\d.]+ Y[-+\d.]+$");
            if (alone && Lines.Word(Lines.Code(p.All[i - 1]), "G0") && x is { } ax && y is { } ay)
            {
                return Insert(p, i, Middle(p, i, ax, ay, "G0"));
            }
            (x, y) = (Lines.Value(code, 'X') ?? x, Lines.Value(code, 'Y') ?? y);
        }
        return null;
    }

    private static double Far(Lines p, (int Line, double X, double Y) s)
    {
        double dx = Lines.Value(p.All[s.Line], 'X')!.Value - s.X;
        double dy = Lines.Value(p.All[s.Line], 'Y')!.Value - s.Y;
        return Math.Sqrt((dx * dx) + (dy * dy));
    }

    private static string Middle(Lines p, int at, double x, double y, string word) =>
        $"{word} X{Lines.Number((x + Lines.Value(p.All[at], 'X')!.Value) / 2)} Y{Lines.Number((y + Lines.Value(p.All[at], 'Y')!.Value) / 2)}";

    private static string Modal(Lines p)
    {
        string now = "";
        return Codes(
            p,
            l =>
            {
                if (Lines.Home(l) || Regex.IsMatch(l, @"\bG(?:8\d|43|4)\b"))
                {
                    now = "";
                    return l;
                }
                Match m = Regex.Match(l, @"\bG0?([0123])\b ?");
                bool axes = Regex.IsMatch(l, @"[XYZ][-+\d.]");
                string next = m.Success ? "G" + m.Groups[1].Value : now;
                now = m.Success || axes ? next : now;
                return axes && !m.Success && next.Length > 0 ? Regex.Replace(l, @"^(N\d+ )?", "$1" + next + " ") : l;
            }
        );
    }

    private static string FeedWords(Lines p)
    {
        double? feed = null;
        bool cuts = false;
        return Codes(
            p,
            l =>
            {
                feed = Lines.Value(l, 'F') ?? feed;
                cuts = Regex.IsMatch(l, @"\bG0?[123]\b") || (cuts && !Regex.IsMatch(l, @"\bG(?:0?0|8\d|4|28|53)\b"));
                bool moves = cuts && Regex.IsMatch(l, @"[XYZ][-+\d.]") && !Lines.Home(l);
                return moves && Lines.Value(l, 'F') is null && feed is { } f ? $"{l} F{Lines.Number(f)}" : l;
            }
        );
    }

    private static string Both(Lines p)
    {
        p.Move(0, p.All.Count, (x, y) => (x, y), false);
        return p.Text;
    }

    /// <summary>The last ring of the last operation's level lines once more: from its first line to its last they end where they began.</summary>
    private static string? Spring(Lines p)
    {
        (int From, int To)[] ops = p.Operations();
        foreach ((int from, int to) in ops.Reverse())
        {
            (double? x, double? y) = (null, null);
            List<(int Line, double X, double Y)> run = [];
            for (int i = from; i < to; i++)
            {
                string code = Lines.Code(p.All[i]);
                bool level = Lines.Value(code, 'Z') is null && !Lines.Home(code) && !Lines.Word(code, "G0");
                bool cuts = level && Lines.Value(code, 'X') is not null && Lines.Value(code, 'Y') is not null;
                (x, y) = (Lines.Value(code, 'X') ?? x, Lines.Value(code, 'Y') ?? y);
                if (!cuts)
                {
                    run.Clear();
                    continue;
                }
                run.Add((i, x!.Value, y!.Value));
                int first = run.FindIndex(r =>
                    r.Line < i - 1 && Math.Abs(r.X - x!.Value) < 1e-9 && Math.Abs(r.Y - y!.Value) < 1e-9
                );
                if (first >= 0)
                {
                    int begin = run[first].Line + 1;
                    List<string> ring = p.All.GetRange(begin, i + 1 - begin);
                    if (!Regex.IsMatch(Lines.Code(ring[0]), @"\bG0?[123]\b"))
                    {
                        run.Clear();
                        continue;
                    }
                    p.All.InsertRange(i + 1, ring.Select(l => Regex.Replace(l, @"^N\d+ ", "")));
                    return p.Text;
                }
            }
        }
        return null;
    }

    /// <summary>A hole drilled in one stroke: once up in between and down again to a little above where it was.</summary>
    private static string? Peck(Lines p)
    {
        (int from, int to) = p.Operations()
            .FirstOrDefault(o => p.All[o.From].Contains("DRILL", StringComparison.OrdinalIgnoreCase));
        for (int i = from + 1; i + 1 < to; i++)
        {
            if (Regex.IsMatch(Lines.Code(p.All[i]), @"^(N\d+ )?G1 Z[-+\d.]+ F") && Rapids(p).Contains(i - 1))
            {
                double top = Lines.Value(p.All[i - 1], 'Z')!.Value;
                double half = (top + Lines.Value(p.All[i], 'Z')!.Value) / 2;
                string feed = Lines.Number(Lines.Value(p.All[i], 'F')!.Value);
                p.All.InsertRange(
                    i,
                    [
                        $"G1 Z{Lines.Number(half)} F{feed}",
                        $"G0 Z{Lines.Number(top)}",
                        $"Z{Lines.Number(half + (0.3 * p.Mm))}",
                    ]
                );
                return p.Text;
            }
        }
        return null;
    }

    private static string? Cycles(Lines p, Func<string, string> edit) =>
        p.All.Exists(l => Regex.IsMatch(Lines.Code(l), @"\bG81\b"))
            ? Codes(p, l => Regex.IsMatch(l, @"\bG81\b") ? edit(l) : l)
            : null;

    [GeneratedRegex(@"\b([GM])(\d)\b(?!\.)")]
    private static partial Regex OneDigit();

    [GeneratedRegex(@"(?<=[XYZIJR][-+]?\d*\.\d{0,5})(?=\s|$)")]
    private static partial Regex Decimals();

    [GeneratedRegex(@"([XYZ])(\d)")]
    private static partial Regex Positive();

    [GeneratedRegex(@"([XYZIJ]-?)0\.(?=\d)")]
    private static partial Regex LeadingZero();

    [GeneratedRegex(@"^[O:P%]\d*$")]
    private static partial Regex NumberLine();
}
