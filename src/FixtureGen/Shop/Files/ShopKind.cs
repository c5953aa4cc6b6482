using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Shop.Files;

/// <summary>A kind of shop file: the folder below <c>templates/</c> that has its files, and the reader that jobs read them with.</summary>
public sealed class ShopKind
{
    private readonly Func<TableReader, string, object> _body;
    private readonly ImmutableDictionary<string, string> _names;

    private ShopKind(string folder, Func<TableReader, string, object> body, params (string Key, string Kind)[] names) =>
        (Folder, _body, _names) = (
            folder,
            body,
            names.ToImmutableDictionary(n => n.Key, n => n.Kind, StringComparer.Ordinal)
        );

    /// <summary>Every kind, in the order in which a shop is set up.</summary>
    public static ImmutableArray<ShopKind> All { get; } =
    [
        new("plates", PlateReader.Body),
        new("blanks", BlankReader.Body, ("material", "materials")),
        new("tools", ToolReader.Body),
        new("gaskets", GasketReader.Body),
        new("magnets", MagnetReader.Body),
        new("fasteners", FastenerReader.Body),
        new("controls", ControlReader.Body),
        new("materials", MaterialReader.Body),
    ];

    /// <summary>Such as <c>tools</c>.</summary>
    public string Folder { get; }

    /// <summary>The file's record, one of those of FixtureGen.Model, or every mistake with line and column.</summary>
    public Stage<object> Read(string text, string file, string name) => ShopFile.Read(text, file, t => _body(t, name));

    /// <summary>Every key that such a file may have, in its reader's order, with what the text states; none where it is no TOML.</summary>
    /// <param name="text">TOML.</param>
    /// <param name="file">As findings name it.</param>
    /// <param name="files">The shop, for keys that name another file of it.</param>
    public ImmutableArray<KeyField> Keys(string text, string file, ShopFiles files)
    {
        ArgumentNullException.ThrowIfNull(files);
        IReadOnlyList<AskedKey> asked = ShopFile.Ask(text, file, t => _body(t, ""));
        if (asked.Count == 0)
        {
            return [];
        }
        Dictionary<string, WrittenValue> stated = TomlPlaces.Values(text, file);
        LengthUnit unit = stated.GetValueOrDefault("units").Text == "\"in\"" ? LengthUnit.Inch : LengthUnit.Millimetre;
        return
        [
            .. asked.Select(a =>
                KeyField.Describe(
                    a,
                    unit,
                    stated,
                    _names.TryGetValue(a.Path, out string? kind) ? [.. files.List(kind)] : []
                )
            ),
        ];
    }
}
