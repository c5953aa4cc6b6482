using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.Model;

namespace FixtureGen.Shop.Reading;

/// <summary>A key that a file may have, as its reader asks for it. Range and usual range are in Unit; null where the key is no number.</summary>
public sealed record KeyField
{
    /// <summary>Such as <c>title</c>, <c>shell.thickness</c> or, of the third row of a list of tables, <c>tool[2].diameter</c>.</summary>
    public required string Path { get; init; }

    /// <summary>What its value is.</summary>
    public required KeyKind Kind { get; init; }

    /// <summary>Of a bare number; empty where it has none.</summary>
    public required string Unit { get; init; }

    /// <summary>Below it the reader refuses.</summary>
    public required double? Least { get; init; }

    /// <summary>Above it the reader refuses.</summary>
    public required double? Greatest { get; init; }

    /// <summary>What is usual, in words with its source; empty where nothing is published.</summary>
    public required string Usual { get; init; }

    /// <summary>The words of a choice or the shop's names; empty where any text may stand.</summary>
    public required ImmutableArray<string> Choices { get; init; }

    /// <summary>What holds where it is left out, as TOML; empty where something is chosen or worked out for the job.</summary>
    public required string Default { get; init; }

    /// <summary>What it does, in words; empty where its name says it.</summary>
    public required string Note { get; init; }

    /// <summary>As the file's text has it, as TOML; null where it is left out.</summary>
    public required string? Stated { get; init; }

    /// <summary>The line of the value, from 1; null where it is left out.</summary>
    public required int? Line { get; init; }

    /// <summary>What is typed into the key's field as TOML: a number bare or with its unit, a choice or text in quotes, a list as it is.</summary>
    public string Literal(string typed)
    {
        ArgumentNullException.ThrowIfNull(typed);
        string value = typed.Trim();
        bool number = double.TryParse(
            value,
            NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint,
            CultureInfo.InvariantCulture,
            out _
        );
        return Kind switch
        {
            KeyKind.Flag or KeyKind.List => value,
            KeyKind.Whole or KeyKind.Number when number => value,
            KeyKind.Whole or KeyKind.Number or KeyKind.Choice or KeyKind.Text => Quoted(value),
        };
    }

    /// <summary>The field of a key in a file of a unit; no default and no note yet.</summary>
    /// <param name="asked">What the reader asked for.</param>
    /// <param name="unit">Of the file's bare lengths.</param>
    /// <param name="stated">The source text of every value, by its path.</param>
    /// <param name="names">Names of the shop that may stand there; none where the key names no file.</param>
    internal static KeyField Describe(
        AskedKey asked,
        LengthUnit unit,
        IReadOnlyDictionary<string, WrittenValue> stated,
        string[] names
    )
    {
        string bare = asked.Range?.Kind?.BareUnit(unit) ?? "";
        WrittenValue? written = stated.TryGetValue(asked.Path, out WrittenValue w) ? w : null;
        double factor = asked.Range?.Kind?.Factor(bare) ?? 1;
        return new KeyField
        {
            Path = asked.Path,
            Kind = names.Length > 0 ? KeyKind.Choice : asked.Kind,
            Unit = bare,
            Least = asked.Range?.Least / factor,
            Greatest = asked.Range?.Greatest / factor,
            Usual = asked.Range is { Source.Length: > 0 } r
                ? string.Create(
                    CultureInfo.InvariantCulture,
                    $"usual {r.From / factor:0.####} to {r.To / factor:0.####}{(bare.Length > 0 ? " " + bare : "")}: {r.Source}"
                )
                : "",
            Choices = names.Length > 0 ? [.. names.Order(StringComparer.Ordinal)] : [.. asked.Words],
            Default = "",
            Note = "",
            Stated = written?.Text,
            Line = written?.Line,
        };
    }

    private static string Quoted(string value) =>
        "\""
        + value.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal)
        + "\"";
}
