using System.Globalization;

namespace FixtureGen.Tests.Support;

/// <summary>
/// Shop values as nobody should write them, and many that somebody might: one to three lines of a TOML text changed in value,
/// type, unit or key, doubled, dropped or damaged. The same Random gives the same text.
/// </summary>
internal static class TomlMutator
{
    private static readonly double[] Near = [0.5, 0.8, 0.95, 1.05, 1.25, 2, 3];
    private static readonly double[] Far = [0, -1, 0.01, 100, 1e6, -1e6, 1e300, 1e-300];
    private static readonly string[] Odd =
    [
        "nan",
        "inf",
        "-inf",
        "-0.0",
        "9223372036854775807",
        "0x10",
        "true",
        "\"\"",
        "\"text\"",
        "\"\\u0000\"",
        "[]",
        "[1]",
        "[1, 2, 3]",
        "[[0, 0], [1]]",
        "{ a = 1 }",
        "2026-11-25",
        "\"3 mm\"",
        "\"0.1 in\"",
        "\"5 furlong\"",
        "\"-2 mm\"",
        "\"1e999 mm\"",
        "\"nan mm\"",
        "\"40 kPa\"",
    ];

    public static string Mutated(string text, Random random)
    {
        List<string> lines = [.. text.Split('\n')];
        int changes = random.Next(1, 4);
        for (int i = 0; i < changes; i++)
        {
            int[] said = [.. Enumerable.Range(0, lines.Count).Where(n => Says(lines[n]))];
            if (said.Length > 0)
            {
                Change(lines, said[random.Next(said.Length)], said, random);
            }
        }
        return string.Join('\n', lines);
    }

    private static bool Says(string line)
    {
        string bare = line.Trim();
        return bare.Length > 0 && bare[0] != '#';
    }

    private static void Change(List<string> lines, int at, int[] said, Random random)
    {
        int kind = random.Next(20);
        switch (kind)
        {
            case 0:
                lines.RemoveAt(at);
                break;
            case 1:
                lines.Insert(at, lines[at]);
                break;
            case 2:
                lines[at] = "x" + lines[at];
                break;
            case 3:
                int place = random.Next(lines[at].Length + 1);
                lines[at] = lines[at].Insert(place, "\"=[]#\\.,\u00b5\0"[random.Next(9)].ToString());
                break;
            case 4:
                lines[at] = With(lines[at], Value(lines[said[random.Next(said.Length)]]));
                break;
            case 5 or 6:
                lines[at] = With(lines[at], Odd[random.Next(Odd.Length)]);
                break;
            default:
                double factor = kind < 9 ? Far[random.Next(Far.Length)] : Near[random.Next(Near.Length)];
                lines[at] = Scaled(lines[at], factor, random);
                break;
        }
    }

    private static string Value(string line) =>
        line.Contains('=', StringComparison.Ordinal) ? line.Split('=', 2)[1].Split('#')[0].Trim() : "1";

    private static string With(string line, string value) =>
        line.Contains('=', StringComparison.Ordinal) ? $"{line.Split('=', 2)[0]}= {value}" : line;

    /// <summary>One number of the line times the factor; a line without one keeps its text.</summary>
    private static string Scaled(string line, double factor, Random random)
    {
        if (!line.Contains('=', StringComparison.Ordinal))
        {
            return line;
        }
        string value = Value(line);
        (int Start, int Length)[] numbers = [.. Numbers(value)];
        if (numbers.Length == 0)
        {
            return line;
        }
        (int start, int length) = numbers[random.Next(numbers.Length)];
        double number = double.Parse(value.AsSpan(start, length), CultureInfo.InvariantCulture) * factor;
        bool whole = Math.Abs(number) < 1e9 && number == Math.Floor(number);
        string said = number.ToString(whole ? "0" : "R", CultureInfo.InvariantCulture);
        return With(line, value[..start] + said + value[(start + length)..]);
    }

    private static IEnumerable<(int Start, int Length)> Numbers(string value)
    {
        for (int i = 0; i < value.Length; i++)
        {
            int from = i;
            while (i < value.Length && (char.IsAsciiDigit(value[i]) || (i > from && value[i] == '.')))
            {
                i++;
            }
            if (double.TryParse(value.AsSpan(from, i - from), CultureInfo.InvariantCulture, out _))
            {
                yield return (from, i - from);
            }
        }
    }
}
