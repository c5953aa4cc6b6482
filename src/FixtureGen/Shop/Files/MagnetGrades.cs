using System.Globalization;
using System.Text.RegularExpressions;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Files;

/// <summary>
/// Remanence by commercial grade, tesla, as three trade lists agree on it; their entries differ by 0.01 to 0.02 T from N45
/// up. A suffix (M, H, SH, UH, EH) says what heat the disc bears and changes nothing here.
/// </summary>
internal static partial class MagnetGrades
{
    /// <summary>Lists differ by no more, tesla.</summary>
    private const double Lists = 0.02;

    /// <summary>Farther off than this it is another grade, tesla: neighbours stand 0.03 to 0.06 apart.</summary>
    private const double Another = 0.05;

    private static readonly SortedDictionary<string, (double Least, double Greatest)> Grades = new(
        StringComparer.OrdinalIgnoreCase
    )
    {
        ["N35"] = (1.17, 1.22),
        ["N38"] = (1.22, 1.25),
        ["N40"] = (1.25, 1.28),
        ["N42"] = (1.28, 1.32),
        ["N45"] = (1.32, 1.38),
        ["N48"] = (1.38, 1.42),
        ["N50"] = (1.40, 1.45),
        ["N52"] = (1.43, 1.48),
    };

    /// <summary>
    /// Refuses a remanence that the grade does not have: a least above the published one flatters the hold, a greatest below
    /// it shortens the distance for implants. A grade that is not in the lists is warned of.
    /// </summary>
    public static void Check(TableReader t, string grade, double least, double greatest)
    {
        string bare = Suffix().Replace(grade.Trim(), "$1");
        if (!Grades.TryGetValue(bare, out (double Least, double Greatest) published))
        {
            string? near = Nearest.Find(bare, Grades.Keys);
            t.Unusual(
                "grade",
                Inv(
                    $"No published remanence is known for grade '{grade}': {least:0.00} to {greatest:0.00} T is taken on trust."
                ),
                (near is null ? "" : $"Did you mean \"{near}\"? ")
                    + $"Known: {string.Join(", ", Grades.Keys)}; else keep the maker's sheet with the file."
            );
            return;
        }
        string range = Inv($"{bare} has {published.Least:0.00} to {published.Greatest:0.00} T (three trade lists)");
        Off(t, "br_min_t", least - published.Least, least, range);
        Off(t, "br_max_t", greatest - published.Greatest, greatest, range);
    }

    private static void Off(TableReader t, string key, double off, double value, string range)
    {
        double by = Math.Abs(off);
        string message = Inv(
            $"'{key}' is {value:0.00##} T, {by:0.00##} T {(off > 0 ? "above" : "below")} its grade: {range}."
        );
        if (by > Another + 1e-9)
        {
            t.Contradict(key, message, "Correct the grade or the remanence.");
        }
        else if (by > Lists + 1e-9)
        {
            t.Unusual(key, message, "Take the grade's published end, unless the maker's sheet says otherwise.");
        }
    }

    [GeneratedRegex("^(N[0-9]{2})(M|H|SH|UH|EH)$", RegexOptions.IgnoreCase | RegexOptions.CultureInvariant)]
    private static partial Regex Suffix();

    private static string Inv(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);
}
