using System.Globalization;
using System.Text;

namespace FixtureGen.Verify.Tests.Support;

/// <summary>Bodies of programs that ask more of the judge than any honest one: about as many lines as it reads, all of one kind.</summary>
internal static class Hostile
{
    /// <summary>By name, for <see cref="TestShop.Program"/> with 6 mm mill T1, ball T2 and engraver T3 unless the body calls another.</summary>
    public static IReadOnlyDictionary<string, Func<int, string>> Bodies { get; } =
        new Dictionary<string, Func<int, string>>(StringComparer.Ordinal)
        {
            ["one tool comment and moves"] = n => Repeat(n, i => i % 2 == 0 ? "(T1 MILL)" : Flat(i)),
            ["home and home again"] = n => Repeat(n, _ => "G28"),
            ["deep moves in one place"] = n =>
                "G0 X50. Y50.\nG1 Z20.\n" + Repeat(n, i => i % 2 == 0 ? "G1 X50.4 Z1." : "G1 X50. Z1.1"),
            ["down a little at a time in one place"] = n =>
                "G0 X50. Y50.\nG1 Z20.\n"
                + Repeat(
                    n,
                    i =>
                        string.Create(
                            CultureInfo.InvariantCulture,
                            $"G1 X{50 + (i % 2)}. Z{20 - (18.0 * i / n):0.####}"
                        )
                ),
            ["long ways across the block"] = n =>
                "G0 X1. Y1.\nG1 Z19.\n" + Repeat(n, i => i % 2 == 0 ? "G1 X99. Y99." : "G1 X1. Y1."),
            ["long ways of a ball"] = n =>
                "T2 M6\nS8000 M3 M8\nG0 G43 H2 Z40.\nG0 X1. Y1.\nG1 Z19.\n"
                + Repeat(n, i => i % 2 == 0 ? "G1 X99. Y99. Z18." : "G1 X1. Y1. Z19."),
            ["turns of a helix"] = n =>
                "G0 X60. Y50.\nG1 Z20.\n"
                + Repeat(n, i => i % 2 == 0 ? "G3 X20. Y50. I-20. J0. Z15." : "G3 X60. Y50. I20. J0. Z16."),
            ["slanted rapids over the block"] = n =>
                "G0 X1. Y1.\nG0 Z20.3\n" + Repeat(n, i => i % 2 == 0 ? "G0 X99. Y99." : "G0 X1. Y1."),
            ["holes by cycles"] = n =>
                "G99 G83 X50. Y50. Z1. R21. Q0.5\n"
                + Repeat(n / 80, i => FormattableString.Invariant($"X{10 + (i % 80)}.")),
            ["stops"] = n => Repeat(n, _ => "M0"),
            ["tool changes"] = n => Repeat(n, i => i % 2 == 0 ? "T1 M6" : "T2 M6"),
            ["bolts to fit"] = n => Repeat(n, _ => "(FIT 4 BOLTS 20.0 TO 30.0 MM LONG)"),
            ["vacuum levels"] = n => Repeat(n, _ => "(VACUUM 20 KPA 20 INHG)"),
            ["words of nothing"] = n => Repeat(n, _ => "Q1."),
            ["long numbers"] = n => Repeat(n, _ => "G1 X" + new string('1', 90)),
            ["open comments"] = n => Repeat(n, _ => "(" + new string('A', 200)),
        };

    public static string Repeat(int n, Func<int, string> line)
    {
        StringBuilder text = new();
        for (int i = 0; i < n; i++)
        {
            text.Append(line(i)).Append('\n');
        }
        return text.ToString();
    }

    private static string Flat(int i) =>
        string.Create(CultureInfo.InvariantCulture, $"G1 X{20 + (i % 60)}. Y{20 + (i / 60 % 60)}. Z19.");
}
