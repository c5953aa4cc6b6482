using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Jobs;

/// <summary>
/// Keys that <c>new</c> leaves as "?", since only the shop knows their value: nothing is made and nothing is guessed until each is
/// answered.
/// </summary>
internal static class Unanswered
{
    /// <summary>What stands for an answer that is still to be given.</summary>
    public const string Mark = "?";

    private static readonly ImmutableDictionary<string, string> Answers = new Dictionary<string, string>
    {
        ["shop.shell"] = "Write the name of the shell's material, a file of templates/materials/ without .toml.",
        ["shell.thickness"] = "Write the thickness of the formed shell at its edge, measured: 1.5, or \"0.06 in\".",
        ["shell.slack_max"] =
            "Write how far a shell can be pushed about on the block or its locator, at the most: 0.3, or \"0.012 in\".",
        ["locator.by"] =
            "Write \"auto\" for a nest or pins that are proposed, \"pins\", \"form\", or \"hand\" where it is laid by hand.",
        ["drawing.unit"] = "Write \"mm\" or \"in\": what the drawing's numbers are in.",
        ["small_holes"] =
            "Write \"spot\" to have round holes marked for a drill by hand, \"leave\" to leave them out, \"second-cutter\" or \"drill\" once the rack has what fits.",
        ["rules.corner_left"] =
            "Write what may stay standing in an inner corner, as the line's note says: \"0.5 mm\"; or round the corners in the drawing and take the line out.",
        ["form.direction"] = "Write \"down\" for a bowl that sinks into the block, \"up\" for a dome.",
        ["form.height"] = "Write how high the form rises or how deep it sinks, measured: 8, or \"0.3 in\".",
    }.ToImmutableDictionary(StringComparer.Ordinal);

    /// <summary>A finding for each, at its place.</summary>
    public static IEnumerable<Finding> Find(TomlTable table, string file) =>
        In(table, "").Select(k => ShopFindings.Unanswered(file, k.Entry, k.Path, Answer(k.Path)));

    /// <summary>Their paths, in the order of the text.</summary>
    public static IEnumerable<string> Keys(TomlTable table) => In(table, "").Select(k => k.Path);

    private static IEnumerable<(TomlEntry Entry, string Path)> In(TomlTable table, string path) =>
        table.Entries.SelectMany(entry =>
        {
            string key = path.Length == 0 ? entry.Key : $"{path}.{entry.Key}";
            return entry.Value switch
            {
                TomlString { Text: Mark } => [(entry, key)],
                TomlTable inner => In(inner, key),
                TomlList list => list.Items.OfType<TomlTable>().SelectMany(t => In(t, key)),
                _ => [],
            };
        });

    private static string Answer(string key) =>
        Answers.GetValueOrDefault(key, "Write its value, or take the line out where it has a default.");
}
