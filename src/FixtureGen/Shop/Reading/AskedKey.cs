namespace FixtureGen.Shop.Reading;

/// <summary>What a value of a key is.</summary>
public enum KeyKind
{
    /// <summary>A number, with a unit where the key has one.</summary>
    Number,

    /// <summary>A whole number.</summary>
    Whole,

    /// <summary>true or false.</summary>
    Flag,

    /// <summary>One of a few words.</summary>
    Choice,

    /// <summary>Text in quotes.</summary>
    Text,

    /// <summary>A list, as TOML writes it.</summary>
    List,
}

/// <summary>A key as its reader asked for it: the range is its own, in the inside unit of its quantity. Words are those of a choice.</summary>
internal sealed record AskedKey(string Path, KeyKind Kind, PlausibleRange? Range, IReadOnlyList<string> Words);
