using System.Text.RegularExpressions;

namespace FixtureGen.Tests.Support;

/// <summary>One key of a TOML text set to another value, line by line.</summary>
internal static class TomlLines
{
    /// <summary>The key of the first table of that name (empty: the top) gets the literal; where it is missing it is added there.</summary>
    public static string Set(string text, string table, string key, string literal)
    {
        List<string> lines = [.. text.ReplaceLineEndings("\n").Split('\n')];
        int head = table.Length == 0 ? -1 : lines.FindIndex(l => Regex.IsMatch(l.Trim(), $@"^\[+{table}\]+"));
        if (table.Length > 0 && head < 0)
        {
            lines.AddRange([$"[{table}]", $"{key} = {literal}"]);
            return string.Join('\n', lines);
        }
        int end = lines.FindIndex(head + 1, l => l.TrimStart().StartsWith('['));
        end = end < 0 ? lines.Count : end;
        int at = lines.FindIndex(head + 1, end - head - 1, l => Regex.IsMatch(l, $@"^\s*{key}\s*="));
        if (at >= 0)
        {
            lines[at] = $"{key} = {literal}";
        }
        else
        {
            lines.Insert(end, $"{key} = {literal}");
        }
        return string.Join('\n', lines);
    }
}
