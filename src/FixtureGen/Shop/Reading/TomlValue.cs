using System.Collections.Immutable;
using System.Globalization;

namespace FixtureGen.Shop.Reading;

/// <summary>A value of a TOML text and where it begins: line and column, both 1-based.</summary>
internal abstract record TomlValue(int Line, int Column)
{
    /// <summary>What a person would call this value: a number by itself, others by their kind.</summary>
    public abstract string Kind { get; }
}

internal sealed record TomlString(string Text, int Line, int Column) : TomlValue(Line, Column)
{
    public override string Kind => "text";
}

internal sealed record TomlNumber(double Value, bool IsWhole, int Line, int Column) : TomlValue(Line, Column)
{
    public override string Kind => Value.ToString("0.#####", CultureInfo.InvariantCulture);
}

internal sealed record TomlFlag(bool Value, int Line, int Column) : TomlValue(Line, Column)
{
    public override string Kind => "true or false";
}

internal sealed record TomlDate(int Line, int Column) : TomlValue(Line, Column)
{
    public override string Kind => "a date";
}

internal sealed record TomlList(ImmutableArray<TomlValue> Items, int Line, int Column) : TomlValue(Line, Column)
{
    public override string Kind => "a list";
}

/// <summary>A table; entries keep the order of the text.</summary>
internal sealed record TomlTable(List<TomlEntry> Entries, int Line, int Column) : TomlValue(Line, Column)
{
    public override string Kind => "a table";

    public TomlEntry? Find(string key) => Entries.Find(e => e.Key == key);
}

/// <summary>A key of a table, where the key stands, and its value.</summary>
internal sealed record TomlEntry(string Key, TomlValue Value, int Line, int Column);
