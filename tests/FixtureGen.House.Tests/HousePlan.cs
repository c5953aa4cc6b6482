using System.Text.RegularExpressions;

namespace FixtureGen.House.Tests;

/// <summary>The plan of the house as DEVELOPERS.md prints it, in the block that starts with "rooms": rooms by project, lowest first.</summary>
internal static partial class HousePlan
{
    /// <summary>Every room below src/ in its printed order.</summary>
    public static IReadOnlyList<string> Rooms { get; } = [.. Lines().SelectMany(l => l.Rooms)];

    /// <summary>What each project may reference, itself not.</summary>
    public static IReadOnlyDictionary<string, string[]> References { get; } =
        Lines().ToDictionary(l => l.Project, l => l.References);

    private static List<(string Project, string[] References, string[] Rooms)> Lines()
    {
        string text = File.ReadAllText(Path.Combine(SourceHouse.Root, "DEVELOPERS.md"));
        Match block = Block().Match(text);
        List<(string, string[], string[])> lines = [];
        foreach (string line in block.Groups[1].Value.Split('\n', StringSplitOptions.RemoveEmptyEntries))
        {
            Match m = Line().Match(line);
            if (!m.Success)
            {
                throw new FormatException($"DEVELOPERS.md, plan of the house: '{line}'");
            }
            string project = m.Groups["project"].Value;
            string[] rooms =
            [
                .. m.Groups["rooms"]
                    .Value.Split(' ', StringSplitOptions.RemoveEmptyEntries)
                    .Select(r => r == "." ? project : $"{project}/{r}"),
            ];
            lines.Add((project, m.Groups["uses"].Value.Split(' ', StringSplitOptions.RemoveEmptyEntries), rooms));
        }
        return lines;
    }

    [GeneratedRegex("```rooms\n(.*?)```", RegexOptions.Singleline)]
    private static partial Regex Block();

    [GeneratedRegex("^(?<project>FixtureGen[.A-Za-z]*) *(\\((?<uses>[^)]*)\\))? *:(?<rooms>.*)$")]
    private static partial Regex Line();
}
