using System.Collections.Immutable;
using System.Globalization;

namespace FixtureGen.App.Records;

/// <summary>
/// One column: text, one of given words, or a whole number within its ends (both allowed). Missing is what a register of
/// before, which did not have the column, is read as; null where it must be there.
/// </summary>
internal sealed record Column<T>(string Key, Func<T, object> Get)
{
    /// <summary>Null where any text or number will do.</summary>
    public ImmutableArray<string>? Words { get; init; }

    /// <summary>True for text, false for a whole number.</summary>
    public bool IsText { get; init; } = true;

    /// <summary>Of a number.</summary>
    public long Least { get; init; }

    /// <summary>Of a number.</summary>
    public long Greatest { get; init; }

    /// <summary>See the record.</summary>
    public object? Missing { get; init; }

    /// <summary>Null where the value may stand, else what is wrong with it.</summary>
    public string? Wrong(object value) =>
        Words is { } words && !words.Contains((string)value) ? $"{Key} '{value}' is none of {string.Join(", ", words)}"
        : !IsText && value is long v && (v < Least || v > Greatest)
            ? string.Create(CultureInfo.InvariantCulture, $"{Key} is {v}; it must be from {Least} to {Greatest}")
        : null;
}

/// <summary>The values of one row by column, text or long, each of the column's kind and within its ends.</summary>
internal sealed class Row(IReadOnlyDictionary<string, object> values)
{
    /// <summary>A text column's.</summary>
    public string Text(string key) => (string)values[key];

    /// <summary>A number's that fits.</summary>
    public int Int(string key) => (int)(long)values[key];

    /// <summary>A number's.</summary>
    public long Long(string key) => (long)values[key];
}

/// <summary>
/// One kind of row of the register, said once for the database and for its readable copy. The first <paramref name="Keys"/>
/// columns name a row.
/// </summary>
internal sealed record Table<T>(string Name, int Keys, ImmutableArray<Column<T>> Columns, Func<Row, T> Make)
{
    /// <summary>What names a row.</summary>
    public string KeyFor(T row) =>
        string.Join(
            '\u001f',
            Columns.Take(Keys).Select(c => Convert.ToString(c.Get(row), CultureInfo.InvariantCulture))
        );
}
