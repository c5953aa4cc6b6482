using System.Text.RegularExpressions;
using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Files;

/// <summary>
/// Words of one control against each other: a control cannot do two things by one word, and what holds the work must not go off where
/// the file says that something else happens.
/// </summary>
internal static partial class ControlWords
{
    /// <summary>M codes that RS274/NGC itself gives a meaning (NISTIR 6556, table 6), but for coolant, which shops rewire.</summary>
    private static readonly int[] Taken = [0, 1, 2, 3, 4, 5, 6, 30, 48, 49, 60];

    public static void Check(TableReader t, Control c)
    {
        Vacuum(t, c);
        Twice(t, c);
        Meaning(t, "spindle_start", c.SpindleStart, 3, "starts the spindle clockwise");
        Meaning(t, "spindle_stop", c.SpindleStop, 5, "stops the spindle");
        Meaning(t, "stop", c.Stop, 0, "always stops");
        Meaning(t, "optional_stop", c.OptionalStop, 1, "stops where the operator wants it");
        SafeStart(t, c);
    }

    private static void Vacuum(TableReader t, Control c)
    {
        foreach ((string key, string word) in VacuumWords(c))
        {
            if (Codes(word).Intersect(Taken).Any())
            {
                t.Contradict(
                    key,
                    $"'{key}' is \"{word}\", which every control reads as something else.",
                    "Write the M code that switches the vacuum."
                );
            }
            if (Lines(c).FirstOrDefault(l => Codes(l.Text).Intersect(Codes(word)).Any()) is { Key: { } other })
            {
                t.Contradict(
                    key,
                    $"'{key}' is \"{word}\", which stands in '{other}' too: the vacuum would switch there.",
                    "Give each its own word."
                );
            }
        }
        if (c.VacuumOn.Length == 0 && c.VacuumWait.Length + c.VacuumOff.Length > 0)
        {
            t.Contradict(
                c.VacuumWait.Length > 0 ? "vacuum_wait" : "vacuum_off",
                "The vacuum is waited for or switched off, but no word switches it on.",
                "Add 'vacuum_on', or leave all three out."
            );
        }
    }

    private static IEnumerable<(string Key, string Text)> VacuumWords(Control c) =>
        ((string Key, string Text)[])
            [("vacuum_on", c.VacuumOn), ("vacuum_off", c.VacuumOff), ("vacuum_wait", c.VacuumWait)];

    private static IEnumerable<(string Key, string Text)> Single(Control c) =>
        VacuumWords(c)
            .Concat([
                ("spindle_start", c.SpindleStart),
                ("spindle_stop", c.SpindleStop),
                ("air_on", c.AirOn),
                ("air_off", c.AirOff),
                ("stop", c.Stop),
                ("optional_stop", c.OptionalStop),
                ("end", c.End),
            ])
            .Where(w => w.Item2.Length > 0);

    private static IEnumerable<(string? Key, string Text)> Lines(Control c) =>
        c
            .SafeStart.Select(l => ((string?)"safe_start", l))
            .Concat(c.ToolChange.Select(l => ((string?)"tool_change", l)))
            .Concat(c.Home.Select(l => ((string?)"home", l)));

    /// <summary>One code for two things.</summary>
    private static void Twice(TableReader t, Control c)
    {
        (string Key, string Text)[] words = [.. Single(c)];
        for (int i = 0; i < words.Length; i++)
        {
            for (int k = 0; k < i; k++)
            {
                if (Codes(words[i].Text).Intersect(Codes(words[k].Text)).Any())
                {
                    t.Contradict(
                        words[i].Key,
                        $"'{words[i].Key}' is \"{words[i].Text}\", and '{words[k].Key}' is \"{words[k].Text}\": one word cannot do both.",
                        "Give each its own word."
                    );
                }
            }
        }
    }

    /// <summary>A word of a fixed meaning that is another of the fixed ones.</summary>
    private static void Meaning(TableReader t, string key, string text, int code, string does)
    {
        int[] codes = [.. Codes(text)];
        if (!codes.Contains(code) && codes.Intersect(Taken).Any())
        {
            t.Contradict(
                key,
                string.Create(
                    System.Globalization.CultureInfo.InvariantCulture,
                    $"'{key}' is \"{text}\": M{code} {does}."
                ),
                string.Create(System.Globalization.CultureInfo.InvariantCulture, $"Write M{code}.")
            );
        }
    }

    private static void SafeStart(TableReader t, Control c)
    {
        string all = string.Join(' ', c.SafeStart);
        foreach (
            (string good, string bad, string why) in ((string, string, string)[])
                [
                    ("G90", "G91", "heights and places are absolute"),
                    ("G17", "G18", "arcs lie in XY"),
                    ("G17", "G19", "arcs lie in XY"),
                    ("G40", "G41", "paths are the tool centre's"),
                    ("G40", "G42", "paths are the tool centre's"),
                    ("G94", "G93", "feeds are per minute"),
                    ("G94", "G95", "feeds are per minute"),
                ]
        )
        {
            if (Words().Matches(all).Any(m => m.Value == bad))
            {
                t.Contradict("safe_start", $"'safe_start' says {bad}, but {why}.", $"Write {good}.");
            }
        }
    }

    private static IEnumerable<int> Codes(string text) =>
        MCodes()
            .Matches(text)
            .Select(m => int.Parse(m.Groups[1].ValueSpan, System.Globalization.CultureInfo.InvariantCulture));

    [GeneratedRegex(@"[Mm]\s*(\d+)")]
    private static partial Regex MCodes();

    [GeneratedRegex(@"\bG\d+\b")]
    private static partial Regex Words();
}
