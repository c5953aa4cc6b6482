using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Jobs;

/// <summary>All that a job may say, for a form beside its text.</summary>
public static class JobKeys
{
    private static readonly ImmutableDictionary<string, string> ShopKinds = new Dictionary<string, string>
    {
        ["shop.plate"] = "plates",
        ["shop.blank"] = "blanks",
        ["shop.shell"] = "materials",
        ["shop.tools"] = "tools",
        ["shop.magnet"] = "magnets",
        ["shop.gasket"] = "gaskets",
        ["shop.bolt"] = "fasteners",
        ["shop.pin"] = "fasteners",
        ["shop.control"] = "controls",
    }.ToImmutableDictionary(StringComparer.Ordinal);

    /// <summary>Worked out from the blank that is chosen: no one figure holds.</summary>
    private static readonly ImmutableHashSet<string> FromBlank = ["block.thickness", "rules.fixture_height"];

    /// <summary>The keys in the reader's order; failed where the text is no TOML.</summary>
    public static Stage<ImmutableArray<KeyField>> List(string text, string file, ShopFiles files)
    {
        Stage<TomlTable> tree = TomlText.Parse(text, file);
        if (tree.Value is not { } root)
        {
            return Stage.Failed<ImmutableArray<KeyField>>(tree.Findings);
        }
        Dictionary<string, WrittenValue> stated = TomlPlaces.Values(text, file);
        LengthUnit unit = stated.GetValueOrDefault("units").Text == "\"in\"" ? LengthUnit.Inch : LengthUnit.Millimetre;
        DrawingFacts facts = new(Path.GetFileNameWithoutExtension(file), unit, 0, 0, false, false);
        IReadOnlyDictionary<string, (string Value, string Note)> defaults = JobDefaults.ByKey(facts, files);
        return Stage.Answer(
            ImmutableArray.CreateRange(
                JobReader.Ask(root, file, files).Select(a => Describe(a, unit, stated, defaults, files))
            )
        );
    }

    /// <summary>The shop files that a job's text names, as their kind and name; none where it is no TOML.</summary>
    public static IEnumerable<(string Kind, string Name)> ShopFilesNamed(string text, string file) =>
        TomlText.Parse(text, file).Value?.Find("shop")?.Value is TomlTable shop
            ? shop
                .Entries.Where(e => e.Value is TomlString && ShopKinds.ContainsKey("shop." + e.Key))
                .Select(e => (ShopKinds["shop." + e.Key], ((TomlString)e.Value).Text))
            : [];

    private static KeyField Describe(
        AskedKey asked,
        LengthUnit unit,
        IReadOnlyDictionary<string, WrittenValue> stated,
        IReadOnlyDictionary<string, (string Value, string Note)> defaults,
        ShopFiles files
    )
    {
        (string value, string note) = defaults.GetValueOrDefault(asked.Path, ("", ""));
        string[] names = ShopKinds.TryGetValue(asked.Path, out string? kind) ? [.. files.List(kind)] : [];
        return KeyField.Describe(asked, unit, stated, names) with
        {
            Default = FromBlank.Contains(asked.Path) ? "" : value,
            Note = note,
        };
    }
}
