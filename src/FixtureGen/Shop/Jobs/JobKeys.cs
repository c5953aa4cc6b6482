using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.Model;
using FixtureGen.Shop.Reading;
using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace FixtureGen.Shop.Jobs;

/// <summary>A key that a job may have, as its reader asks for it. Range and usual range are in Unit; null where the key is no number.</summary>
public sealed record JobKey
{
    /// <summary>Such as <c>title</c> or <c>shell.thickness</c>.</summary>
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

    /// <summary>As the job's text has it, as TOML; null where it is left out.</summary>
    public required string? Stated { get; init; }
}

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
    public static Stage<ImmutableArray<JobKey>> List(string text, string file, ShopFiles files)
    {
        Stage<TomlTable> tree = TomlText.Parse(text, file);
        if (tree.Value is not { } root)
        {
            return Stage.Failed<ImmutableArray<JobKey>>(tree.Findings);
        }
        IReadOnlyDictionary<string, string> stated = Stated(text, file);
        LengthUnit unit = stated.GetValueOrDefault("units") == "\"in\"" ? LengthUnit.Inch : LengthUnit.Millimetre;
        DrawingFacts facts = new(Path.GetFileNameWithoutExtension(file), unit, 0, 0, false, false);
        IReadOnlyDictionary<string, (string Value, string Note)> defaults = JobDefaults.ByKey(facts, files);
        return Stage.Answer(
            ImmutableArray.CreateRange(
                JobReader.Ask(root, file, files).Select(a => Describe(a, unit, stated, defaults, files))
            )
        );
    }

    /// <summary>What is typed into a key's field as TOML: a number bare or with its unit, a choice or text in quotes, a list as it is.</summary>
    public static string Literal(JobKey key, string typed)
    {
        string value = typed.Trim();
        bool number = double.TryParse(
            value,
            NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint,
            CultureInfo.InvariantCulture,
            out _
        );
        return key.Kind switch
        {
            KeyKind.Flag or KeyKind.List => value,
            KeyKind.Whole or KeyKind.Number when number => value,
            KeyKind.Whole or KeyKind.Number or KeyKind.Choice or KeyKind.Text => Quoted(value),
        };
    }

    private static JobKey Describe(
        AskedKey asked,
        LengthUnit unit,
        IReadOnlyDictionary<string, string> stated,
        IReadOnlyDictionary<string, (string Value, string Note)> defaults,
        ShopFiles files
    )
    {
        string bare = asked.Range?.Kind?.BareUnit(unit) ?? "";
        double factor = asked.Range?.Kind?.Factor(bare) ?? 1;
        (string value, string note) = defaults.GetValueOrDefault(asked.Path, ("", ""));
        string[] names = ShopKinds.TryGetValue(asked.Path, out string? kind) ? [.. files.List(kind)] : [];
        return new JobKey
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
            Default = FromBlank.Contains(asked.Path) ? "" : value,
            Note = note,
            Stated = stated.GetValueOrDefault(asked.Path),
        };
    }

    /// <summary>The source text of every value outside lists of tables, by its path.</summary>
    private static Dictionary<string, string> Stated(string text, string file)
    {
        Dictionary<string, string> stated = new(StringComparer.Ordinal);
        DocumentSyntax doc = SyntaxParser.Parse(text, file);
        IEnumerable<(string[] Table, KeyValueSyntax Pair)> pairs = doc
            .KeyValues.Select(p => (Array.Empty<string>(), p))
            .Concat(
                doc.Tables.OfType<TableSyntax>()
                    .SelectMany(t => t.Items.OfType<KeyValueSyntax>().Select(p => (TomlText.Parts(t.Name!), p)))
            );
        foreach ((string[] table, KeyValueSyntax pair) in pairs)
        {
            string path = string.Join('.', [.. table, .. TomlText.Parts(pair.Key!)]);
            stated[path] = text[pair.Value!.Span.Start.Offset..(pair.Value.Span.End.Offset + 1)];
        }
        return stated;
    }

    private static string Quoted(string value) =>
        "\""
        + value.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal)
        + "\"";
}
