using System.Globalization;
using FixtureGen.Model;
using FixtureGen.Shop.Reading;
using Tomlyn.Parsing;
using Tomlyn.Syntax;

namespace FixtureGen.Shop.Jobs;

/// <summary>
/// Edits of the text of a job or a shop file that keep every comment, blank line and order: only the value that changes is exchanged. Lengths
/// come in mm and are written in the job's own unit. A text that does not parse gives its findings and no text.
/// </summary>
public static class JobEdit
{
    /// <summary>
    /// Sets one key, such as <c>title</c>, <c>magnets.count</c> or <c>tool[2].diameter</c>, to a TOML literal; adds key and table
    /// where missing. A row that is not there, or not written as a table of its own, is a finding.
    /// </summary>
    public static Stage<string> Set(string text, string fileName, string key, string literal) =>
        OnTable(
            text,
            fileName,
            key[..(key.LastIndexOf(']') + 1)],
            () => Edited(text, fileName, doc => [SetValue(text, doc, key.Split('.'), literal)])
        );

    /// <summary>Copies a row of a list of tables, such as <c>tool[2]</c>, with all that stands below it, to behind the list's last.</summary>
    public static Stage<string> CopyRow(string text, string fileName, string row) =>
        OnRow(
            text,
            fileName,
            row,
            (start, end, last) => new Change(last, last, Fresh(text[..last]) + text[start..end])
        );

    /// <summary>Takes a row of a list of tables out, with all that stands below it.</summary>
    public static Stage<string> RemoveRow(string text, string fileName, string row) =>
        OnRow(text, fileName, row, (start, end, _) => new Change(start, SkipOneBlank(text, end), ""));

    private static string Fresh(string before) => before.EndsWith('\n') ? "\n" : "\n\n";

    private static Stage<string> OnRow(string text, string fileName, string row, Func<int, int, int, Change> change)
    {
        string list = row[..Math.Max(0, row.LastIndexOf('['))];
        return OnTable(
            text,
            fileName,
            row,
            () =>
                Edited(
                    text,
                    fileName,
                    doc =>
                    {
                        (string Path, TableSyntaxBase Table)[] all = [.. TomlPlaces.Tables(doc)];
                        TableSyntaxBase[] own = [.. all.Where(t => Within(t.Path, row)).Select(t => t.Table)];
                        TableSyntaxBase last = all.Last(t => Within(t.Path, list)).Table;
                        int start = StartOfLine(text, own[0].Span.Start.Offset);
                        return [change(start, LastLine(text, own[^1]), LastLine(text, last))];
                    }
                )
        );
    }

    /// <summary>Edits where the row, if one is meant, is a table of its own.</summary>
    private static Stage<string> OnTable(string text, string fileName, string row, Func<Stage<string>> edit)
    {
        Stage<TomlTable> tree = TomlText.Parse(text, fileName);
        return !tree.Ok ? Stage.Failed<string>(tree.Findings)
            : row.Length > 0 && TomlPlaces.Tables(SyntaxParser.Parse(text, fileName)).All(t => t.Path != row)
                ? Stage.Failed<string>(ShopFindings.NoRow(fileName, row))
            : edit();
    }

    private static bool Within(string path, string above) =>
        path == above || (path.StartsWith(above, StringComparison.Ordinal) && path[above.Length] is '.' or '[');

    /// <summary>Takes one key out, so that its default holds again; a comment behind its value stays on a line of its own.</summary>
    public static Stage<string> Remove(string text, string fileName, string key) =>
        Edited(text, fileName, doc => Removal(text, doc, key.Split('.')));

    /// <summary>
    /// Replaces the fixed magnet places (part frame, mm): the first ones keep their tables and comments, what is left over
    /// is taken out, what is new is added behind the last.
    /// </summary>
    public static Stage<string> SetMagnets(string text, string fileName, IReadOnlyList<MagnetWish> places)
    {
        ArgumentNullException.ThrowIfNull(places);
        return Edited(
            text,
            fileName,
            doc => Tables(text, doc, "magnet", [.. places.Select(p => (p.At, (bool?)p.Locked))])
        );
    }

    /// <summary>States where the part lies: the drawing's origin on the plate, mm, and its turn, degrees.</summary>
    public static Stage<string> SetPlacement(string text, string fileName, Pose pose)
    {
        if (TomlText.Parse(text, fileName) is { Value: null } broken)
        {
            return Stage.Failed<string>(broken.Findings);
        }
        LengthUnit? unit = UnitOf(SyntaxParser.Parse(text, fileName));
        Stage<string> at = Set(text, fileName, "placement.at", Point(new Point2(pose.X, pose.Y), unit));
        return at.Ok ? Set(at.Value!, fileName, "placement.angle_deg", Number(pose.AngleDeg)) : at;
    }

    /// <summary>Replaces the fixed vacuum ports (part frame, mm) in the way of <see cref="SetMagnets"/>.</summary>
    public static Stage<string> SetPorts(string text, string fileName, IReadOnlyList<Point2> places)
    {
        ArgumentNullException.ThrowIfNull(places);
        return Edited(text, fileName, doc => Tables(text, doc, "port", [.. places.Select(p => (p, (bool?)null))]));
    }

    private readonly record struct Change(int Start, int End, string New);

    private static Stage<string> Edited(string text, string fileName, Func<DocumentSyntax, IEnumerable<Change>> changes)
    {
        Stage<TomlTable> checkedFirst = TomlText.Parse(text, fileName);
        if (checkedFirst.Value is null)
        {
            return Stage.Failed<string>(checkedFirst.Findings);
        }
        DocumentSyntax doc = SyntaxParser.Parse(text, fileName);
        string edited = text;
        foreach (Change c in changes(doc).OrderByDescending(c => c.Start))
        {
            edited = edited[..c.Start] + c.New + edited[c.End..];
        }
        Stage<TomlTable> after = TomlText.Parse(edited, fileName);
        return after.Value is null ? Stage.Failed<string>(after.Findings) : Stage.Answer(edited);
    }

    private static IEnumerable<Change> Removal(string text, DocumentSyntax doc, string[] path)
    {
        string table = string.Join('.', path[..^1]);
        IEnumerable<KeyValueSyntax> beside =
            path.Length == 1
                ? doc.KeyValues
                : TomlPlaces
                    .Tables(doc)
                    .Where(t => t.Path == table)
                    .SelectMany(t => t.Table.Items.OfType<KeyValueSyntax>());
        if ((Find(beside, path[^1..]) ?? Find(doc.KeyValues, path)) is { } pair)
        {
            int start = StartOfLine(text, pair.Span.Start.Offset);
            int end = EndOfLine(text, pair.Span.Start.Offset, pair);
            int comment = text.IndexOf('#', pair.Value!.Span.End.Offset + 1, end - pair.Value.Span.End.Offset - 1);
            yield return new Change(start, comment < 0 ? end : comment, "");
        }
    }

    private static Change SetValue(string text, DocumentSyntax doc, string[] path, string literal)
    {
        if (Find(doc.KeyValues, path) is { } top)
        {
            return Exchange(top, literal);
        }
        for (int depth = path.Length - 1; depth > 0; depth--)
        {
            string table = string.Join('.', path[..depth]);
            TableSyntaxBase? found = TomlPlaces.Tables(doc).FirstOrDefault(t => t.Path == table).Table;
            if (found is not null)
            {
                return Find(found.Items.OfType<KeyValueSyntax>(), path[depth..]) is { } old
                    ? Exchange(old, literal)
                    : Insert(text, LastLine(text, found), $"{string.Join('.', path[depth..])} = {literal}");
            }
        }
        if (path.Length == 1)
        {
            int before = doc.Tables.FirstOrDefault()?.Span.Start.Offset ?? text.Length;
            KeyValueSyntax? last = doc.KeyValues.LastOrDefault();
            int at = last is null ? Math.Min(before, text.Length) : EndOfLine(text, last.Span.Start.Offset, last);
            return Insert(text, at, $"{path[0]} = {literal}");
        }
        string header = string.Join('.', path[..^1]);
        return new Change(text.Length, text.Length, $"{Gap(text)}[{header}]\n{path[^1]} = {literal}\n");
    }

    /// <summary>The tables [[name]] with their places in order; a lock is written only where it is given.</summary>
    private static IEnumerable<Change> Tables(
        string text,
        DocumentSyntax doc,
        string name,
        (Point2 At, bool? Locked)[] places
    )
    {
        LengthUnit? unit = UnitOf(doc);
        TableSyntaxBase[] old =
        [
            .. doc.Tables.Where(t => t is TableArraySyntax && string.Join('.', TomlText.Parts(t.Name!)) == name),
        ];
        for (int i = 0; i < Math.Min(old.Length, places.Length); i++)
        {
            KeyValueSyntax[] pairs = [.. old[i].Items.OfType<KeyValueSyntax>()];
            string at = Point(places[i].At, unit);
            if (Find(pairs, ["at"]) is not { } place)
            {
                yield return Insert(text, LastLine(text, old[i]), "at = " + at);
            }
            else if (!Says(text, place, places[i].At, unit))
            {
                yield return Exchange(place, at);
            }
            if (places[i].Locked is not { } locked)
            {
                continue;
            }
            if (Find(pairs, ["locked"]) is { } flag)
            {
                yield return Exchange(flag, locked ? "true" : "false");
            }
            else if (!locked)
            {
                yield return Insert(text, LastLine(text, old[i]), "locked = false");
            }
        }
        foreach (TableSyntaxBase surplus in old.Skip(places.Length))
        {
            int start = StartOfLine(text, surplus.Span.Start.Offset);
            yield return new Change(start, SkipOneBlank(text, LastLine(text, surplus)), "");
        }
        if (places.Length > old.Length)
        {
            int end = old.Length > 0 ? LastLine(text, old[^1]) : text.Length;
            string gap = old.Length > 0 ? "\n" : Gap(text);
            IEnumerable<string> fresh = places
                .Skip(old.Length)
                .Select(p => $"[[{name}]]\nat = {Point(p.At, unit)}\n{(p.Locked == false ? "locked = false\n" : "")}");
            string lead = old.Length > 0 && text[end - 1] != '\n' ? "\n" : "";
            yield return new Change(end, end, lead + gap + string.Join('\n', fresh));
        }
    }

    private static KeyValueSyntax? Find(IEnumerable<KeyValueSyntax> pairs, string[] path) =>
        pairs.FirstOrDefault(p => TomlText.Parts(p.Key!).SequenceEqual(path));

    private static Change Exchange(KeyValueSyntax pair, string literal) =>
        new(pair.Value!.Span.Start.Offset, pair.Value.Span.End.Offset + 1, literal);

    private static Change Insert(string text, int at, string line)
    {
        bool open = at > 0 && text[at - 1] != '\n';
        return new Change(at, at, (open ? "\n" : "") + line + "\n");
    }

    /// <summary>Where the line after the table's last key (or its header) begins.</summary>
    private static int LastLine(string text, TableSyntaxBase table)
    {
        KeyValueSyntax? last = table.Items.OfType<KeyValueSyntax>().LastOrDefault();
        return last is null
            ? NextLine(text, table.Name!.Span.End.Offset)
            : EndOfLine(text, last.Span.Start.Offset, last);
    }

    private static int EndOfLine(string text, int start, KeyValueSyntax pair) =>
        NextLine(text, Math.Max(start, pair.Value!.Span.End.Offset));

    private static int NextLine(string text, int from)
    {
        int newline = text.IndexOf('\n', Math.Min(from, text.Length));
        return newline < 0 ? text.Length : newline + 1;
    }

    private static int StartOfLine(string text, int at) => at == 0 ? 0 : text.LastIndexOf('\n', at - 1) + 1;

    private static int SkipOneBlank(string text, int at)
    {
        int next = NextLine(text, at);
        return next > at && string.IsNullOrWhiteSpace(text[at..next]) ? next : at;
    }

    private static string Gap(string text) =>
        text.Length == 0 ? ""
        : text.EndsWith("\n\n", StringComparison.Ordinal) ? ""
        : text.EndsWith('\n') ? "\n"
        : "\n\n";

    // Null where the job states none: lengths then carry their own.
    private static LengthUnit? UnitOf(DocumentSyntax doc) =>
        Find(doc.KeyValues, ["units"])?.Value switch
        {
            StringValueSyntax { Value: "in" } => LengthUnit.Inch,
            null => null,
            _ => LengthUnit.Millimetre,
        };

    /// <summary>Whether the value is already written as these two numbers, in whatever way.</summary>
    private static bool Says(string text, KeyValueSyntax pair, Point2 p, LengthUnit? unit)
    {
        double k = unit == LengthUnit.Inch ? 1 / Units.MmPerInch : 1;
        string[] parts = text[pair.Value!.Span.Start.Offset..(pair.Value.Span.End.Offset + 1)]
            .Trim('[', ']')
            .Split(',');
        parts = unit is null ? [.. parts.Select(Unquoted)] : parts;
        return parts.Length == 2 && Same(parts[0], p.X * k) && Same(parts[1], p.Y * k);
    }

    // "12.5 mm" without its marks; another unit stays as it is and so reads as changed.
    private static string Unquoted(string part) =>
        part.Trim().Trim('"') is { } bare && bare.EndsWith(" mm", StringComparison.Ordinal) ? bare[..^3] : part;

    private static bool Same(string text, double value) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out double old)
        && Number(old) == Number(value);

    private static string Point(Point2 p, LengthUnit? unit)
    {
        double k = unit == LengthUnit.Inch ? 1 / Units.MmPerInch : 1;
        return unit is null
            ? $"[\"{Number(p.X)} mm\", \"{Number(p.Y)} mm\"]"
            : $"[{Number(p.X * k)}, {Number(p.Y * k)}]";
    }

    // A hundredth of a millimetre and less is kept: 4 decimals serve mm and inch.
    private static string Number(double value)
    {
        double rounded = Math.Round(value, 4);
        return (rounded == 0 ? 0 : rounded).ToString("0.0###", CultureInfo.InvariantCulture);
    }
}
