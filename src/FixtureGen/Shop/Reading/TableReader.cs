using System.Collections.Immutable;
using System.Globalization;
using FixtureGen.Model;

namespace FixtureGen.Shop.Reading;

/// <summary>
/// Typed reading of one table. A key that is missing, of the wrong type or out of range is logged and a stand-in returned,
/// so that one run shows every mistake; the caller throws the result away when the log has failed.
/// </summary>
internal sealed class TableReader(TomlTable table, string path, ReadLog log)
{
    /// <summary>More than any plate or block has; each is compared with each other, so a longer list would only take long to refuse.</summary>
    private const int MostPoints = 100;

    private readonly List<string> _known = [];

    private readonly ValueReader _values = new(log);

    public TomlTable Table { get; } = table;

    public ReadLog Log { get; } = log;

    public bool Has(string key) => Table.Find(key) is not null;

    /// <summary>A measure in the inside unit of its kind, from least to greatest, ends allowed.</summary>
    public double Measure(string key, Quantity kind, double least, double greatest) =>
        MeasureOrNull(key, kind, least, greatest)
        ?? Missing(key, $"a number in {kind.BareUnit(Log.BareUnit)} or text such as \"6 {kind.Inside}\"", least);

    public double? MeasureOrNull(string key, Quantity kind, double least, double greatest) =>
        WithinOrNull(PlausibleRange.Possible(key, kind, least, greatest));

    /// <summary>The range's key, refused outside what is possible and warned of outside what is usual.</summary>
    public double Within(PlausibleRange range) =>
        WithinOrNull(range)
        ?? Missing(
            range.Key,
            range.Kind is { } kind
                ? $"a number in {kind.BareUnit(Log.BareUnit)} or text such as \"6 {kind.Inside}\""
                : "a number",
            range.Least
        );

    /// <summary>As <see cref="Within"/>, null where the key is left out.</summary>
    public double? WithinOrNull(PlausibleRange range) =>
        Asked(range.Key, KeyKind.Number, range) is { } e ? _values.Within(e.Value, PathOf(range.Key), range) : null;

    /// <summary>As <see cref="Within"/>; a key that is left out is <paramref name="fallback"/>, and a note says so.</summary>
    public double WithinOrAssumed(PlausibleRange range, double fallback) =>
        WithinOrNull(range) ?? Assumed(range.Key, fallback, range.Kind?.Inside ?? "");

    public double Length(string key, double least, double greatest) => Measure(key, Quantity.Length, least, greatest);

    public double LengthOr(string key, double fallback, double least, double greatest) =>
        MeasureOrNull(key, Quantity.Length, least, greatest) ?? fallback;

    /// <summary>A number that has no unit or whose unit is in its key.</summary>
    public double Number(string key, double least, double greatest) =>
        NumberOrNull(key, least, greatest) ?? Missing(key, "a number", least);

    public double NumberOr(string key, double fallback, double least, double greatest) =>
        NumberOrNull(key, least, greatest) ?? fallback;

    public double? NumberOrNull(string key, double least, double greatest) =>
        WithinOrNull(PlausibleRange.Possible(key, null, least, greatest));

    /// <summary>
    /// The range of a value read already, by a key for its lower and one for its upper end; refused where they do not enclose
    /// the value. An end that is left out is <paramref name="from"/> or <paramref name="to"/>, and a note says so.
    /// </summary>
    public Interval Range(string key, double nominal, PlausibleRange low, PlausibleRange high, double from, double to)
    {
        double least = WithinOrAssumed(low, Math.Min(nominal, Math.Max(low.Least, from)));
        double greatest = WithinOrAssumed(high, Math.Max(nominal, Math.Min(high.Greatest, to)));
        Rising(low.Key, least, key, nominal, "");
        Rising(key, nominal, high.Key, greatest, "");
        return new Interval(least, nominal, greatest);
    }

    public int Whole(string key, int least, int greatest) =>
        WholeOrNull(key, least, greatest) ?? (int)Missing(key, "a whole number", least);

    public int WholeOr(string key, int fallback, int least, int greatest) =>
        WholeOrNull(key, least, greatest) ?? fallback;

    public int? WholeOrNull(string key, int least, int greatest)
    {
        if (Asked(key, KeyKind.Whole, PlausibleRange.Possible(key, null, least, greatest)) is not { } e)
        {
            return null;
        }
        if (e.Value is not TomlNumber { IsWhole: true } n)
        {
            Log.Findings.Add(ShopFindings.WrongType(Log.File, e.Value, PathOf(key), "a whole number"));
            return least;
        }
        return (int)_values.InRange(n, PathOf(key), n.Value, least, greatest);
    }

    public bool FlagOr(string key, bool fallback)
    {
        if (Asked(key, KeyKind.Flag) is not { } e)
        {
            return fallback;
        }
        if (e.Value is TomlFlag f)
        {
            return f.Value;
        }
        Log.Findings.Add(ShopFindings.WrongType(Log.File, e.Value, PathOf(key), "true or false"));
        return fallback;
    }

    public string Text(string key)
    {
        if (TextOrNull(key) is not { } text)
        {
            Missing(key, "text in quotes", 0);
            return "";
        }
        if (Table.Find(key)!.Value is TomlString said && string.IsNullOrWhiteSpace(said.Text))
        {
            Log.Findings.Add(ShopFindings.EmptyText(Log.File, said, PathOf(key)));
        }
        return text;
    }

    /// <summary>A text that may be left out, but not empty where it is written.</summary>
    public string TextOr(string key, string fallback) => Asked(key, KeyKind.Text) is null ? fallback : Text(key);

    public string? TextOrNull(string key)
    {
        if (Asked(key, KeyKind.Text) is not { } e)
        {
            return null;
        }
        if (e.Value is TomlString s)
        {
            return s.Text;
        }
        Log.Findings.Add(ShopFindings.WrongType(Log.File, e.Value, PathOf(key), "text in quotes"));
        return "";
    }

    public ImmutableArray<string> Texts(string key)
    {
        if (Asked(key, KeyKind.List) is not { } e)
        {
            return [];
        }
        if (e.Value is TomlList list && list.Items.All(i => i is TomlString))
        {
            return [.. list.Items.Cast<TomlString>().Select(s => s.Text)];
        }
        Log.Findings.Add(ShopFindings.WrongType(Log.File, e.Value, PathOf(key), "a list of texts in quotes"));
        return [];
    }

    /// <summary>One name or a list of them, a whole number as its digits; none where the key is left out, empty names refused.</summary>
    public ImmutableArray<string> Names(string key)
    {
        if (Asked(key, KeyKind.List) is not { } e)
        {
            return [];
        }
        IReadOnlyList<TomlValue> items = e.Value is TomlList list ? list.Items : [e.Value];
        string?[] names = [.. items.Select(NameOf)];
        if (Array.TrueForAll(names, n => n is not null))
        {
            return [.. names!];
        }
        Log.Findings.Add(
            ShopFindings.WrongType(
                Log.File,
                e.Value,
                PathOf(key),
                "one name in quotes or a list such as [\"A\", \"B\"]"
            )
        );
        return [];
    }

    private static string? NameOf(TomlValue value) =>
        value switch
        {
            TomlString s when s.Text.Trim().Length > 0 => s.Text.Trim(),
            TomlNumber { IsWhole: true } n => Inv($"{n.Value:0}"),
            _ => null,
        };

    public T Choice<T>(string key, params (string Word, T Value)[] words)
        where T : struct, Enum
    {
        if (ChoiceOrNull(key, words) is { } value)
        {
            return value;
        }
        Missing(key, $"one of {string.Join(", ", words.Select(w => w.Word))}", 0);
        return words[0].Value;
    }

    public T? ChoiceOrNull<T>(string key, params (string Word, T Value)[] words)
        where T : struct, Enum
    {
        Asked(key, KeyKind.Choice, null, [.. words.Select(w => w.Word)]);
        if (TextOrNull(key) is not { } text)
        {
            return null;
        }
        foreach ((string word, T value) in words)
        {
            if (string.Equals(word, text, StringComparison.OrdinalIgnoreCase))
            {
                return value;
            }
        }
        if (Table.Find(key)!.Value is TomlString s)
        {
            string all = string.Join(", ", words.Select(w => w.Word));
            string? near = Nearest.Find(text, words.Select(w => w.Word));
            Log.Findings.Add(ShopFindings.NotAChoice(Log.File, s, PathOf(key), all, near));
        }
        return words[0].Value;
    }

    public Point2 Point(string key, double reach) =>
        PointOrNull(key, reach) ?? new Point2(Missing(key, "two lengths such as [1.5, 2]", 0), 0);

    public Point2? PointOrNull(string key, double reach) =>
        Asked(key, KeyKind.List) is { } e ? _values.Point(e.Value, PathOf(key), reach) : null;

    /// <summary>A list of [x, y], each coordinate within plus and minus reach, mm.</summary>
    public ImmutableArray<Point2> Points(string key, double reach)
    {
        if (Asked(key, KeyKind.List) is not { } e)
        {
            return [];
        }
        if (e.Value is TomlList list)
        {
            if (list.Items.Length > MostPoints)
            {
                string given = string.Create(CultureInfo.InvariantCulture, $"a list of {list.Items.Length} places");
                string range = string.Create(CultureInfo.InvariantCulture, $"at most {MostPoints} places");
                Log.Findings.Add(ShopFindings.OutOfRange(Log.File, e.Value, PathOf(key), given, range, ""));
                return [];
            }
            return [.. list.Items.Select((v, i) => _values.Point(v, Item(key, i), reach))];
        }
        Log.Findings.Add(ShopFindings.WrongType(Log.File, e.Value, PathOf(key), "a list of [x, y]"));
        return [];
    }

    /// <summary>An inner table that must be there; an empty stand-in (not checked for its own keys) where it is not.</summary>
    public TableReader? Inner(string key)
    {
        if (InnerOrNull(key) is { } inner)
        {
            return inner;
        }
        if (!Has(key))
        {
            Missing(key, $"a table [{PathOf(key)}]", 0);
        }
        return null;
    }

    public TableReader? InnerOrNull(string key)
    {
        if (Entry(key) is not { } e)
        {
            return Log.AskWhole ? new TableReader(new TomlTable([], 1, 1), PathOf(key), Log) : null;
        }
        if (e.Value is TomlTable t)
        {
            return new TableReader(t, PathOf(key), Log);
        }
        Log.Findings.Add(ShopFindings.WrongType(Log.File, e.Value, PathOf(key), $"a table [{PathOf(key)}]"));
        return null;
    }

    public ImmutableArray<TableReader> Inners(string key)
    {
        if (Entry(key) is not { } e)
        {
            return [];
        }
        if (e.Value is TomlList list && list.Items.All(i => i is TomlTable))
        {
            return [.. list.Items.Select((t, i) => new TableReader((TomlTable)t, Item(key, i), Log))];
        }
        Log.Findings.Add(ShopFindings.WrongType(Log.File, e.Value, PathOf(key), $"tables [[{PathOf(key)}]]"));
        return [];
    }

    /// <summary>Called last: every key that nobody asked for is unknown.</summary>
    public void Close()
    {
        foreach (TomlEntry e in Table.Entries.Where(e => !_known.Contains(e.Key)))
        {
            string all = string.Join(", ", _known);
            Log.Findings.Add(ShopFindings.UnknownKey(Log.File, e, PathOf(e.Key), Nearest.Find(e.Key, _known), all));
        }
    }

    /// <summary>What two values say against each other, reported at one of them; nothing while the file's unit is in doubt.</summary>
    /// <param name="row">Of a key that holds tables, the one that is meant, from 0.</param>
    public void Contradict(string key, string message, string remedy, int? row = null)
    {
        TomlValue at = Table.Find(key)?.Value ?? Table;
        if (at is TomlList list && row is { } i)
        {
            at = list.Items[i];
        }
        if (!Log.UnitInDoubt)
        {
            Log.Findings.Add(ShopFindings.Contradiction(Log.File, at, message, remedy));
        }
    }

    /// <summary>Refuses a pair whose greatest lies below its least, both in <paramref name="unit"/>, which may be empty.</summary>
    public void Rising(string low, double least, string high, double greatest, string unit)
    {
        if (greatest < least)
        {
            string of = unit.Length > 0 ? " " + unit : "";
            Contradict(
                high,
                Inv($"'{high}' is {greatest:0.####}{of}, less than '{low}', {least:0.####}{of}."),
                "Exchange the two."
            );
        }
    }

    /// <summary>Warns of what is possible but not what is published or common practice.</summary>
    public void Unusual(string key, string message, string remedy) =>
        Log.Findings.Add(ShopFindings.OutsidePractice(Log.File, Table.Find(key)?.Value ?? Table, message, remedy));

    /// <summary>Refuses a key that files once had, with what took its place.</summary>
    public void Gone(string key, string why, string remedy)
    {
        if (Table.Find(key) is { } e)
        {
            _known.Add(key);
            Log.Findings.Add(ShopFindings.KeyGone(Log.File, e, PathOf(key), why, remedy));
        }
    }

    /// <summary>The value taken for a key that is left out, remembered for the file's note.</summary>
    public double Assumed(string key, double value, string unit)
    {
        Log.Assumed.Add(Inv($"{PathOf(key)} {value:0.####}{(unit.Length > 0 ? " " + unit : "")}"));
        return value;
    }

    /// <summary>The key's entry; what was asked of it first is remembered where somebody wants to know.</summary>
    private TomlEntry? Asked(
        string key,
        KeyKind kind,
        PlausibleRange? range = null,
        IReadOnlyList<string>? words = null
    )
    {
        string at = PathOf(key);
        if (
            Log.Asked is { } asked
            && (Log.AskWhole || !at.Contains('[', StringComparison.Ordinal))
            && asked.TrueForAll(a => a.Path != at)
        )
        {
            asked.Add(new AskedKey(at, kind, range, words ?? []));
        }
        return Entry(key);
    }

    private TomlEntry? Entry(string key)
    {
        if (!_known.Contains(key))
        {
            _known.Add(key);
        }
        return Table.Find(key);
    }

    private double Missing(string key, string wanted, double standIn)
    {
        Log.Findings.Add(ShopFindings.MissingKey(Log.File, Table, PathOf(key), wanted));
        return standIn;
    }

    private static string Inv(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);

    private string PathOf(string key) => path.Length == 0 ? key : path + "." + key;

    private string Item(string key, int i) => string.Create(CultureInfo.InvariantCulture, $"{PathOf(key)}[{i}]");
}
