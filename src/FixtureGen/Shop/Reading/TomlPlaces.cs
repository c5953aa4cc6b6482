using System.Globalization;
using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace FixtureGen.Shop.Reading;

/// <summary>Where keys and tables of a TOML text stand, each by its path; a row of a list of tables has its number from 0, as <c>tool[2]</c>.</summary>
internal static class TomlPlaces
{
    /// <summary>The tables in the order of the text, with their paths.</summary>
    public static IEnumerable<(string Path, TableSyntaxBase Table)> Tables(DocumentSyntax doc)
    {
        Dictionary<string, int> rows = new(StringComparer.Ordinal);
        foreach (TableSyntaxBase table in doc.Tables)
        {
            string[] parts = TomlText.Parts(table.Name!);
            string above = "";
            foreach (string part in parts[..^1])
            {
                string path = Join(above, part);
                above = rows.TryGetValue(path, out int count) ? Row(path, count - 1) : path;
            }
            string own = Join(above, parts[^1]);
            if (table is TableArraySyntax)
            {
                int row = rows.GetValueOrDefault(own);
                rows[own] = row + 1;
                own = Row(own, row);
            }
            yield return (own, table);
        }
    }

    /// <summary>Every value as it is written, by its path; a list that is written in one value is that value.</summary>
    public static Dictionary<string, WrittenValue> Values(string text, string file)
    {
        Dictionary<string, WrittenValue> values = new(StringComparer.Ordinal);
        DocumentSyntax doc = SyntaxParser.Parse(text, file);
        IEnumerable<(string Table, KeyValueSyntax Pair)> pairs = doc
            .KeyValues.Select(p => ("", p))
            .Concat(Tables(doc).SelectMany(t => t.Table.Items.OfType<KeyValueSyntax>().Select(p => (t.Path, p))));
        foreach ((string table, KeyValueSyntax pair) in pairs)
        {
            string path = Join(table, string.Join('.', TomlText.Parts(pair.Key!)));
            (int start, int end) = (pair.Value!.Span.Start.Offset, pair.Value.Span.End.Offset + 1);
            values[path] = new(text[start..end], pair.Value.Span.Start.Line + 1);
        }
        return values;
    }

    private static string Join(string table, string key) => table.Length == 0 ? key : table + "." + key;

    private static string Row(string list, int row) => string.Create(CultureInfo.InvariantCulture, $"{list}[{row}]");
}

/// <summary>The source text of a value, and its line from 1.</summary>
internal readonly record struct WrittenValue(string Text, int Line);
