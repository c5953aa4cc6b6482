using System.Globalization;
using System.Text.RegularExpressions;
using FixtureGen.Model;

namespace FixtureGen.Verify.Tests.Damage;

/// <summary>
/// What a motion or a switch amounts to on the machine, mm. For a motion, Where is its end and centre (NaN where an axis went
/// home), Feed only for feed motions; State is every modal word in force that a machine obeys, in one string. Path is the way of
/// a motion from where it began, in X Y Z; null for what is no plain motion.
/// </summary>
internal sealed record Deed(string What, double[] Where, double Feed, double Rpm, string State)
{
    public double[][]? Path { get; init; }

    /// <summary>The machine does the very same.</summary>
    public bool Same(Deed o) =>
        What == o.What
        && State == o.State
        && Feed.Equals(o.Feed)
        && Rpm.Equals(o.Rpm)
        && Where.SequenceEqual(o.Where)
        && (Path is null) == (o.Path is null)
        && (Path is null || Path[0].SequenceEqual(o.Path![0]));
}

/// <summary>
/// A second, much smaller reader, used only to say that an edit changed nothing or next to nothing. It knows no geometry and no
/// limits and asks the judge nothing. Null for a line it cannot read: then nothing is claimed.
/// </summary>
internal sealed partial class PlainReader(Control control)
{
    private readonly Dictionary<char, double> _at = new()
    {
        ['X'] = double.NaN,
        ['Y'] = double.NaN,
        ['Z'] = double.NaN,
    };
    private readonly SortedDictionary<string, string> _mode = new(StringComparer.Ordinal);
    private readonly List<Deed> _deeds = [];
    private double _feed;
    private double _rpm;
    private double _tool;

    public static List<Deed>? Read(string text, Control control)
    {
        PlainReader reader = new(control);
        string[] lines = text.Split('\n');
        int percents = 0;
        foreach (string raw in lines)
        {
            string line = Clean(raw, control);
            bool open =
                control.Comment == CommentForm.Parentheses
                && (raw.Contains('(', StringComparison.Ordinal) != raw.Contains(')', StringComparison.Ordinal));
            if (open || (line.Length > 0 && line != "%" && !reader.Line(line)))
            {
                return null;
            }
            percents += line == "%" ? 1 : 0;
        }
        bool framed = percents == (control.PercentLines ? 2 : 0);
        return framed && reader._deeds.Count > 0 && reader._deeds[^1].What == "M" + control.End[1..]
            ? reader._deeds
            : null;
    }

    private static string Clean(string raw, Control control)
    {
        string line = control.Comment == CommentForm.Parentheses ? Parentheses().Replace(raw, "") : raw.Split(';')[0];
        return line.Replace(" ", "", StringComparison.Ordinal).ToUpperInvariant().Trim();
    }

    private bool Line(string line)
    {
        string number = control.ProgramNumberWord.ToUpperInvariant();
        if (number.Length > 0 && line.StartsWith(number, StringComparison.Ordinal))
        {
            _deeds.Add(new Deed("number " + line, [], 0, 0, ""));
            return true;
        }
        MatchCollection words = WordPattern().Matches(line);
        if (words.Sum(w => w.Length) != line.Length)
        {
            return false;
        }
        List<(char Letter, double Value)> list =
        [
            .. words.Select(w =>
                (w.Value[0], double.Parse(w.Value[1..], NumberStyles.Float, CultureInfo.InvariantCulture))
            ),
        ];
        if (
            control.Numbers != DecimalHabit.Shortest
            && words.Any(w =>
                "XYZIJKRQ".Contains(w.Value[0], StringComparison.Ordinal)
                && !w.Value.Contains('.', StringComparison.Ordinal)
            )
        )
        {
            return false;
        }
        return Obey(list);
    }

    private bool Obey(List<(char Letter, double Value)> words)
    {
        double[] g = [.. words.Where(w => w.Letter == 'G').Select(w => w.Value)];
        foreach (double code in g)
        {
            SetMode(code, words);
        }
        double unit = _mode.GetValueOrDefault("unit") == "20" ? 25.4 : 1;
        foreach ((char letter, double value) in words)
        {
            _feed = letter == 'F' ? value * unit : _feed;
            _rpm = letter == 'S' ? value : _rpm;
            _tool = letter == 'T' ? value : _tool;
        }
        foreach ((_, double value) in words.Where(w => w.Letter == 'M' && w.Value is not (0 or 1 or 2 or 30 or 60)))
        {
            Switch(value);
        }
        Move(words, g, unit);
        foreach ((_, double value) in words.Where(w => w.Letter == 'M' && w.Value is 0 or 1 or 2 or 30 or 60))
        {
            // M2 and M30 put every mode back themselves (NISTIR 6556, 3.6.1).
            _deeds.Add(new Deed("M" + Text(value), [], 0, 0, value is 2 or 30 ? "" : State()));
        }
        return true;
    }

    private void SetMode(double code, List<(char Letter, double Value)> words)
    {
        string group = code switch
        {
            0 or 1 or 2 or 3 or (>= 80 and <= 89) or 73 => "motion",
            17 or 18 or 19 => "plane",
            20 or 21 => "unit",
            40 or 41 or 42 => "comp",
            43 or 49 => "length",
            90 or 91 => "distance",
            93 or 94 => "feed",
            98 or 99 => "return",
            >= 54 and < 60 => "work",
            61 or 64 => "path",
            _ => "",
        };
        string with = code == 43 ? " H" + Text(words.FirstOrDefault(w => w.Letter == 'H').Value) : "";
        if (group.Length > 0)
        {
            _mode[group] = Text(code) + with;
        }
        if (group is "comp" or "length" or "motion" && code is 40 or 49 or 80)
        {
            _mode["said" + Text(code)] = "yes";
        }
    }

    private void Switch(double code)
    {
        string text = "M" + Text(code);
        bool vacuum = text == control.VacuumOn || text == control.VacuumOff || text == control.VacuumWait;
        string group =
            vacuum ? "vacuum"
            : code is 3 or 4 or 5 ? "spindle"
            : code is 7 or 8 or 9 ? "air"
            : "";
        string was = _mode.GetValueOrDefault("vacuum", "");
        if (code == 6)
        {
            _deeds.Add(new Deed("change " + Text(_tool), [.. _at.Values], 0, 0, State()));
            _mode["tool"] = Text(_tool);
            _mode["spindle"] = "5";
            _at['Z'] = double.NaN;
        }
        else if (group.Length > 0)
        {
            _mode[group] = Text(code);
        }
        else
        {
            _deeds.Add(new Deed(text, [], 0, 0, ""));
        }
        if (vacuum && was != Text(code))
        {
            _deeds.Add(new Deed(text, [], 0, 0, _mode.GetValueOrDefault("spindle", "")));
        }
    }

    private void Move(List<(char Letter, double Value)> words, double[] g, double unit)
    {
        if (g.Contains(4))
        {
            _deeds.Add(new Deed("dwell", [.. words.Where(w => w.Letter is 'P' or 'X').Select(w => w.Value)], 0, 0, ""));
            return;
        }
        (char Letter, double Value)[] axes = [.. words.Where(w => w.Letter is 'X' or 'Y' or 'Z')];
        if (g.Contains(28) || g.Contains(53))
        {
            string how = string.Join(
                ' ',
                words.Where(w => w.Letter is 'X' or 'Y' or 'Z' or 'G').Select(w => w.Letter + Text(w.Value))
            );
            if (axes.Length == 0 || !axes.All(a => double.IsInfinity(_at[a.Letter])))
            {
                _deeds.Add(new Deed("home " + how, [], 0, 0, State(true)));
            }
            foreach ((char letter, _) in axes)
            {
                _at[letter] = double.PositiveInfinity;
            }
            return;
        }
        string motion = _mode.GetValueOrDefault("motion", "none");
        bool arc = motion is "2" or "3";
        bool cycle = motion is not ("0" or "1" or "2" or "3");
        if (axes.Length == 0)
        {
            return;
        }
        double[] from = [.. _at.Values];
        foreach ((char letter, double value) in axes)
        {
            if (!(cycle && letter == 'Z'))
            {
                _at[letter] = (value * unit) + (_mode.GetValueOrDefault("distance") == "91" ? _at[letter] : 0);
            }
        }
        double[] to = [.. _at.Values];
        if (arc)
        {
            Round round = Round.Of(from, to, words, unit, motion == "3");
            Add(motion, [.. to, .. round.Middle, round.Off * 10], round.Path(from, to));
            return;
        }
        IEnumerable<double> more = words
            .Where(w => w.Letter is 'R' or 'Q' || (cycle && w.Letter is 'Z' or 'P' or 'L'))
            .OrderBy(w => w.Letter)
            .Select(w => w.Value * unit);
        if (cycle || !to.SequenceEqual(from))
        {
            Add(motion, [.. to, .. more], cycle ? null : [from, to]);
        }
    }

    /// <summary>Chip air does not matter to a rapid.</summary>
    private void Add(string motion, double[] where, double[][]? path)
    {
        bool rapid = motion == "0";
        _deeds.Add(new Deed("G" + motion, where, rapid ? 0 : _feed, rapid ? 0 : _rpm, State(rapid)) { Path = path });
    }

    private string State(bool rapid = false) =>
        string.Join(
            ' ',
            _mode.Where(m => m.Key != "motion" && !(rapid && m.Key == "air")).Select(m => m.Key + m.Value)
        );

    private static string Text(double value) => value.ToString("0.###", CultureInfo.InvariantCulture);

    [GeneratedRegex(@"\([^)]*\)")]
    private static partial Regex Parentheses();

    [GeneratedRegex(@"[A-Z][+-]?(?:\d+\.?\d*|\.\d+)")]
    private static partial Regex WordPattern();
}
