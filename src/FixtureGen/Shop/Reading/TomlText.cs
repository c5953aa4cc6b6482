using FixtureGen.Model;
using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace FixtureGen.Shop.Reading;

/// <summary>
/// TOML 1.0 text to a tree that knows the line and column of every key and value. A syntax slip or a key given twice is
/// a finding and there is no tree.
/// </summary>
internal static class TomlText
{
    private const string AlreadyDefined = "is already defined at";

    public static Stage<TomlTable> Parse(string text, string file)
    {
        DocumentSyntax document = SyntaxParser.Parse(text, file);
        if (document.HasErrors)
        {
            return Stage.Failed<TomlTable>(document.Diagnostics.Select(d => Slip(d, file)));
        }
        TomlTable root = new([], 1, 1);
        AddAll(root, document.KeyValues);
        foreach (TableSyntaxBase table in document.Tables)
        {
            AddAll(Open(root, table), table.Items.OfType<KeyValueSyntax>());
        }
        return Stage.Answer(root);
    }

    /// <summary>The parts of a dotted key, without quotes.</summary>
    public static string[] Parts(KeySyntax key) => [Text(key.Key!), .. key.DotKeys.Select(d => Text(d.Key!))];

    private static Finding Slip(DiagnosticMessage d, string file)
    {
        int line = d.Span.Start.Line + 1;
        int column = d.Span.Start.Column + 1;
        int at = d.Message.IndexOf(AlreadyDefined, StringComparison.Ordinal);
        return at < 0
            ? ShopFindings.Syntax(file, line, column, d.Message)
            : ShopFindings.DuplicateKey(file, line, column, d.Message.Split('`')[1], FirstPlace(d.Message[at..]));
    }

    // "is already defined at (1,1) with `a = 1` and cannot be redefined" -> line 1
    private static string FirstPlace(string message)
    {
        int open = message.IndexOf('(', StringComparison.Ordinal);
        int comma = message.IndexOf(',', StringComparison.Ordinal);
        return open >= 0 && comma > open ? message[(open + 1)..comma] : "above";
    }

    private static TomlTable Open(TomlTable root, TableSyntaxBase header)
    {
        string[] parts = Parts(header.Name!);
        (int line, int column) = Place(header.Name!);
        TomlTable at = root;
        foreach (string part in parts[..^1])
        {
            at = Inner(at, part, line, column);
        }
        if (header is not TableArraySyntax)
        {
            return Inner(at, parts[^1], line, column);
        }
        TomlTable item = new([], line, column);
        TomlEntry? old = at.Find(parts[^1]);
        if (old is { Value: TomlList list })
        {
            at.Entries[at.Entries.IndexOf(old)] = old with { Value = list with { Items = list.Items.Add(item) } };
        }
        else
        {
            at.Entries.Add(new TomlEntry(parts[^1], new TomlList([item], line, column), line, column));
        }
        return item;
    }

    private static TomlTable Inner(TomlTable outer, string key, int line, int column)
    {
        switch (outer.Find(key)?.Value)
        {
            case TomlTable table:
                return table;
            case TomlList { Items: [.., TomlTable last] }:
                return last;
            default:
                TomlTable made = new([], line, column);
                outer.Entries.Add(new TomlEntry(key, made, line, column));
                return made;
        }
    }

    private static void AddAll(TomlTable table, IEnumerable<KeyValueSyntax> pairs)
    {
        foreach (KeyValueSyntax pair in pairs)
        {
            string[] parts = Parts(pair.Key!);
            (int line, int column) = Place(pair.Key!);
            TomlTable at = table;
            foreach (string part in parts[..^1])
            {
                at = Inner(at, part, line, column);
            }
            at.Entries.Add(new TomlEntry(parts[^1], Value(pair.Value!), line, column));
        }
    }

    private static TomlValue Value(ValueSyntax value)
    {
        (int line, int column) = Place(value);
        switch (value)
        {
            case StringValueSyntax s:
                return new TomlString(s.Value ?? "", line, column);
            case IntegerValueSyntax i:
                return new TomlNumber(i.Value, true, line, column);
            case FloatValueSyntax f:
                return new TomlNumber(f.Value, false, line, column);
            case BooleanValueSyntax b:
                return new TomlFlag(b.Value, line, column);
            case ArraySyntax a:
                return new TomlList([.. a.Items.Select(i => Value(i.Value!))], line, column);
            case InlineTableSyntax t:
                TomlTable table = new([], line, column);
                AddAll(table, t.Items.Select(i => i.KeyValue!));
                return table;
            default:
                return new TomlDate(line, column);
        }
    }

    private static (int Line, int Column) Place(SyntaxNode node) =>
        (node.Span.Start.Line + 1, node.Span.Start.Column + 1);

    private static string Text(BareKeyOrStringValueSyntax key) =>
        key is BareKeySyntax bare ? bare.Key!.Text! : ((StringValueSyntax)key).Value!;
}
