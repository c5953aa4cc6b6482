using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using FixtureGen.Shop.Reading;

namespace FixtureGen.Tests.Shop.Keys;

/// <summary>A key of a TOML text with its value. Path has dots and no rows: every row of an array of tables has the same paths.</summary>
internal sealed record KeyPlace(string Path, TomlValue Value)
{
    /// <summary>The last word of the path.</summary>
    public string Key => Path[(Path.LastIndexOf('.') + 1)..];
}

/// <summary>A TOML text taken apart, and put together again with one value changed; comments are lost.</summary>
internal static class KeyText
{
    public static TomlTable Parse(string text, string file) => TomlText.Parse(text, file).Value!;

    /// <summary>Every key that is no table, in the order of the text.</summary>
    public static ImmutableArray<KeyPlace> Keys(TomlTable top) => [.. Walk(top, "")];

    /// <summary>The whole text with the value, looked for by reference, replaced by the literal; null changes nothing.</summary>
    public static string Write(TomlTable top, TomlValue? value, string literal)
    {
        StringBuilder text = new();
        Write(text, top, "", value, literal);
        return text.ToString();
    }

    /// <summary>The value as TOML.</summary>
    public static string Literal(TomlValue value) =>
        value switch
        {
            TomlString s => Quoted(s.Text),
            TomlNumber n => n.Value.ToString(n.IsWhole ? "0" : "0.0###############", CultureInfo.InvariantCulture),
            TomlFlag f => f.Value ? "true" : "false",
            TomlList l => "[" + string.Join(", ", l.Items.Select(Literal)) + "]",
            _ => throw new InvalidOperationException(value.Kind),
        };

    public static string Quoted(string text) =>
        "\""
        + text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal)
        + "\"";

    private static IEnumerable<KeyPlace> Walk(TomlTable table, string path)
    {
        foreach (TomlEntry e in table.Entries)
        {
            string at = path.Length == 0 ? e.Key : path + "." + e.Key;
            IEnumerable<KeyPlace> inside = e.Value switch
            {
                TomlTable inner => Walk(inner, at),
                TomlList list when IsRows(list) => list.Items.Cast<TomlTable>().SelectMany(row => Walk(row, at)),
                _ => [new KeyPlace(at, e.Value)],
            };
            foreach (KeyPlace key in inside)
            {
                yield return key;
            }
        }
    }

    private static bool IsRows(TomlList list) => !list.Items.IsEmpty && list.Items.All(i => i is TomlTable);

    private static void Write(StringBuilder text, TomlTable table, string path, TomlValue? value, string literal)
    {
        foreach (
            TomlEntry e in table.Entries.Where(e => e.Value is not TomlTable && !(e.Value is TomlList l && IsRows(l)))
        )
        {
            text.Append(e.Key)
                .Append(" = ")
                .Append(ReferenceEquals(e.Value, value) ? literal : Literal(e.Value))
                .Append('\n');
        }
        foreach (TomlEntry e in table.Entries)
        {
            string at = path.Length == 0 ? e.Key : path + "." + e.Key;
            if (e.Value is TomlTable inner)
            {
                text.Append('[').Append(at).Append("]\n");
                Write(text, inner, at, value, literal);
            }
            else if (e.Value is TomlList list && IsRows(list))
            {
                foreach (TomlTable row in list.Items.Cast<TomlTable>())
                {
                    text.Append("[[").Append(at).Append("]]\n");
                    Write(text, row, at, value, literal);
                }
            }
        }
    }
}
