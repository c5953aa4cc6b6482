using System.Collections.Immutable;
using System.Text.RegularExpressions;
using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Files;

/// <summary>
/// templates/controls/*.toml: a dialect of RS-274 words as data. <c>units</c> is the unit that programs are written in.
/// A word left out means that the control has none.
/// </summary>
public static partial class ControlReader
{
    private static readonly string[] Placeholders = ["tool", "offset", "rpm", "next", "number", "z", "work"];

    /// <summary>
    /// The control, or every mistake with line and column: a word that stands for nothing, start lines that contradict the
    /// units, arcs that the control could not reach.
    /// </summary>
    /// <param name="text">TOML.</param>
    /// <param name="file">As findings name it.</param>
    /// <param name="name">The record's name: the file's without .toml.</param>
    public static Stage<Control> Read(string text, string file, string name) =>
        ShopFile.Read(text, file, t => Body(t, name));

    internal static Control Body(TableReader t, string name)
    {
        int least = t.WholeOr("program_number_min", 1, 0, 99999999);
        Control control = new()
        {
            Name = name,
            Description = t.TextOrNull("description") ?? "",
            Unit = t.Log.Unit ?? LengthUnit.Millimetre,
            Decimals = t.Whole("decimals", 2, 6),
            Numbers =
                t.ChoiceOrNull(
                    "numbers",
                    ("always-point", DecimalHabit.AlwaysPoint),
                    ("fixed", DecimalHabit.Fixed),
                    ("shortest", DecimalHabit.Shortest)
                ) ?? DecimalHabit.AlwaysPoint,
            FeedDecimals = t.WholeOr("feed_decimals", 1, 0, 4),
            ProgramNumberWord = t.TextOrNull("program_number_word") ?? "",
            ProgramNumberDigits = t.WholeOr("program_number_digits", 4, 1, 8),
            ProgramNumberMin = least,
            ProgramNumberMax = t.WholeOr("program_number_max", 9999, least, 99999999),
            PercentLines = t.FlagOr("percent_lines", false),
            Comment =
                t.ChoiceOrNull(
                    "comment",
                    ("parentheses", CommentForm.Parentheses),
                    ("semicolon", CommentForm.Semicolon)
                ) ?? CommentForm.Parentheses,
            CommentLength = t.WholeOr("comment_length", 60, 16, 250),
            CommentUpperCase = t.FlagOr("comment_upper_case", true),
            LineNumberStep = t.WholeOr("line_number_step", 0, 0, 1000),
            LineLength = t.WholeOr("line_length", 120, 40, 256),
            Arc = t.ChoiceOrNull("arcs", ("centre", ArcForm.Centre), ("radius", ArcForm.Radius)) ?? ArcForm.Centre,
            SplitFullCircles = t.FlagOr("split_full_circles", true),
            MaxArcSweepDeg = t.NumberOr("max_arc_sweep_deg", 360, 30, 360),
            CannedCycles = t.FlagOr("canned_cycles", false),
            PeckHighSpeed = t.FlagOr("peck_high_speed", false),
            Dwell =
                t.ChoiceOrNull("dwell", ("seconds", DwellUnit.Seconds), ("milliseconds", DwellUnit.Milliseconds))
                ?? DwellUnit.Seconds,
            DwellWord = Word(t, "dwell_word", "P"),
            SafeStart = Lines(t, "safe_start"),
            ToolChange = Lines(t, "tool_change"),
            LengthOffsetWord = t.FlagOr("length_offset_word", true),
            WorkOffset = t.TextOrNull("work_offset") ?? "G54",
            SpindleStart = Line(t, "spindle_start", "S{rpm} M3"),
            SpindleStop = Line(t, "spindle_stop", "M5"),
            AirOn = Line(t, "air_on", ""),
            AirOff = Line(t, "air_off", ""),
            VacuumOn = Vacuum(t, "vacuum_on"),
            VacuumOff = Vacuum(t, "vacuum_off"),
            VacuumWait = Vacuum(t, "vacuum_wait"),
            Stop = Line(t, "stop", "M0"),
            OptionalStop = Line(t, "optional_stop", "M1"),
            Home = Lines(t, "home"),
            End = Line(t, "end", "M30"),
        };
        if (!t.Log.Failed)
        {
            Check(t, control);
        }
        return control;
    }

    private static void Check(TableReader t, Control c)
    {
        if (c.Arc == ArcForm.Radius && (!c.SplitFullCircles || c.MaxArcSweepDeg > 165))
        {
            t.Contradict(
                "arcs",
                "Arcs by radius are unsure near a half turn and cannot make a full one (RS274/NGC 3.5.3).",
                "Set split_full_circles = true and max_arc_sweep_deg = 90."
            );
        }
        if (c.SafeStart.IsEmpty || c.ToolChange.IsEmpty || c.Home.IsEmpty)
        {
            t.Contradict(
                c.SafeStart.IsEmpty ? "safe_start"
                    : c.ToolChange.IsEmpty ? "tool_change"
                    : "home",
                "A control needs safe_start, tool_change and home lines.",
                "Add the lines that the control's own manual gives."
            );
        }
        CheckWords(t, c);
        ControlWords.Check(t, c);
        int digits = c.ProgramNumberMax.ToString(System.Globalization.CultureInfo.InvariantCulture).Length;
        if (digits > c.ProgramNumberDigits)
        {
            t.Contradict(
                "program_number_max",
                "The greatest program number has more digits than program_number_digits.",
                "Lower program_number_max."
            );
        }
    }

    // Each of these would only come to light as a program that the judge refuses on every line.
    private static void CheckWords(TableReader t, Control c)
    {
        (string wrong, string right) = c.Unit == LengthUnit.Inch ? ("G21", "G20") : ("G20", "G21");
        if (c.SafeStart.FirstOrDefault(l => l.Split(' ').Contains(wrong)) is { } line)
        {
            t.Contradict(
                "safe_start",
                $"\"{line}\" sets {(wrong == "G20" ? "inches" : "millimetres")}, but the file's units are \"{t.Table.Find("units")!.Value switch { TomlString s => s.Text, _ => "" }}\": every length would be 25.4 times off.",
                $"Write {right} there, or mend 'units'."
            );
        }
        if (!c.ToolChange.IsEmpty && !c.ToolChange.Any(l => l.Contains("{tool}", StringComparison.Ordinal)))
        {
            t.Contradict(
                "tool_change",
                "No line of 'tool_change' says which tool.",
                "Write {tool}, such as \"T{tool} M6\"."
            );
        }
        if (!c.SpindleStart.Contains("{rpm}", StringComparison.Ordinal))
        {
            t.Contradict("spindle_start", "'spindle_start' says no speed.", "Write {rpm}, such as \"S{rpm} M3\".");
        }
    }

    private static string Word(TableReader t, string key, string fallback)
    {
        string word = t.TextOrNull(key) ?? fallback;
        if (word.Length != 1 || !char.IsAsciiLetterUpper(word[0]))
        {
            t.Contradict(key, $"'{key}' is not one capital letter.", "Write one letter such as \"P\".");
        }
        return word;
    }

    private static string Vacuum(TableReader t, string key)
    {
        string word = t.TextOrNull(key) ?? "";
        if (word.Length > 0 && !MCode().IsMatch(word))
        {
            t.Contradict(
                key,
                $"'{key}' is \"{word}\": not a single M code.",
                "Write one M code, or leave the key out."
            );
        }
        return word;
    }

    private static ImmutableArray<string> Lines(TableReader t, string key)
    {
        ImmutableArray<string> lines = t.Texts(key);
        foreach (string line in lines)
        {
            CheckPlaceholders(t, key, line);
        }
        return lines;
    }

    private static string Line(TableReader t, string key, string fallback)
    {
        string line = t.TextOrNull(key) ?? fallback;
        CheckPlaceholders(t, key, line);
        return line;
    }

    private static void CheckPlaceholders(TableReader t, string key, string line)
    {
        foreach (string word in Braces().Matches(line).Select(m => m.Groups[1].Value))
        {
            if (!Placeholders.Contains(word))
            {
                string? near = Nearest.Find(word, Placeholders);
                t.Contradict(
                    key,
                    $"Unknown placeholder {{{word}}} in \"{line}\".",
                    near is null
                        ? $"Known: {string.Join(", ", Placeholders.Select(p => "{" + p + "}"))}."
                        : $"Did you mean {{{near}}}?"
                );
            }
        }
    }

    [GeneratedRegex(@"^M\d{1,3}$")]
    private static partial Regex MCode();

    [GeneratedRegex(@"\{([^}]*)\}")]
    private static partial Regex Braces();
}
