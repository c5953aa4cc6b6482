using System.Globalization;
using FixtureGen.Model;
using Tomlyn.Syntax;

namespace FixtureGen.App.Records;

/// <summary>Reads the tables of a register's text; what is not understood is kept as a finding with its place.</summary>
internal sealed class RegisterReader(DocumentSyntax document, string where, bool before)
{
    private readonly List<Finding> _findings = [];
    private readonly HashSet<string> _known = new(StringComparer.Ordinal);

    /// <summary>A name of a table or key without its brackets and quotes.</summary>
    public static string Plain(string name) => name.Trim().Trim('[', ']', '"').Trim();

    /// <summary>The rows of one kind that can be read, in the order of the text.</summary>
    public IEnumerable<T> Rows<T>(Table<T> kind)
    {
        _known.Add(kind.Name);
        HashSet<string> keys = new(StringComparer.Ordinal);
        List<T> rows = [];
        foreach (TableSyntaxBase table in document.Tables.Where(t => Named(t, kind.Name)))
        {
            if (Values(kind, table) is not { } values)
            {
                continue;
            }
            T row = kind.Make(new Row(values));
            // a revision listed twice is told as what it is, with the job, by the register itself
            if (!keys.Add(kind.KeyFor(row)) && kind.Name != RegisterTables.Fixtures.Name)
            {
                _findings.Add(RegisterText.Bad(where, table.Span.Start, $"[[{kind.Name}]] stands here twice"));
                continue;
            }
            rows.Add(row);
        }
        return rows;
    }

    /// <summary>All that was found, with tables and keys that no kind knows. The format is the newest that can be read.</summary>
    public IEnumerable<Finding> Findings(string formatKey, int format)
    {
        foreach (TableSyntaxBase table in document.Tables.Where(t => !_known.Any(k => Named(t, k))))
        {
            string kinds = string.Join(", ", _known.Select(k => $"[[{k}]]"));
            _findings.Add(
                RegisterText.Bad(where, table.Span.Start, $"unknown table '{table.Name}'; the register knows {kinds}")
            );
        }
        foreach (KeyValueSyntax key in document.KeyValues)
        {
            if (Plain(key.Key!.ToString()) != formatKey)
            {
                _findings.Add(RegisterText.Bad(where, key.Span.Start, $"unknown key '{key.Key}' outside the tables"));
            }
            else if (key.Value is not IntegerValueSyntax { Value: var stated } || stated != format)
            {
                _findings.Add(
                    RegisterText.Bad(
                        where,
                        key.Span.Start,
                        string.Create(
                            CultureInfo.InvariantCulture,
                            $"{formatKey} is {key.Value}; this version reads {format}"
                        )
                    )
                );
            }
        }
        return _findings;
    }

    private static bool Named(TableSyntaxBase table, string name) =>
        table is TableArraySyntax && Plain(table.Name!.ToString()) == name;

    private Dictionary<string, object>? Values<T>(Table<T> kind, TableSyntaxBase table)
    {
        Dictionary<string, object> values = new(StringComparer.Ordinal);
        int found = _findings.Count;
        foreach (KeyValueSyntax item in table.Items.OfType<KeyValueSyntax>())
        {
            string key = Plain(item.Key!.ToString());
            object? value = item.Value switch
            {
                StringValueSyntax { Value: { } s } => s,
                IntegerValueSyntax i => i.Value,
                _ => null,
            };
            Column<T>? column = kind.Columns.FirstOrDefault(c => c.Key == key);
            string? wrong =
                column is null ? $"'{key}' is not a key of [[{kind.Name}]]"
                : value is null || value is string != column.IsText
                    ? $"{key} must be {(column.IsText ? "text" : "a whole number")}"
                : column.Wrong(value);
            if (wrong is not null)
            {
                _findings.Add(RegisterText.Bad(where, item.Span.Start, wrong));
                continue;
            }
            values[key] = value!;
        }
        if (before)
        {
            foreach (Column<T> column in kind.Columns.Where(c => c.Missing is not null))
            {
                values.TryAdd(column.Key, column.Missing!);
            }
        }
        string[] missing = [.. kind.Columns.Select(c => c.Key).Where(k => !values.ContainsKey(k))];
        if (missing.Length > 0 && _findings.Count == found)
        {
            _findings.Add(
                RegisterText.Bad(where, table.Span.Start, $"[[{kind.Name}]] lacks {string.Join(", ", missing)}")
            );
        }
        return _findings.Count == found ? values : null;
    }
}
