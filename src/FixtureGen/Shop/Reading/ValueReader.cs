using System.Globalization;
using FixtureGen.Model;

namespace FixtureGen.Shop.Reading;

/// <summary>
/// Reads one value at one place of a file: its type, its unit and its range. What does not hold is logged and a stand-in
/// returned, as by a <see cref="TableReader"/>.
/// </summary>
internal sealed class ValueReader(ReadLog log)
{
    /// <summary>Two lengths, each within plus and minus reach, mm.</summary>
    public Point2 Point(TomlValue value, string where, double reach)
    {
        if (value is TomlList { Items: [TomlValue x, TomlValue y] })
        {
            PlausibleRange range = PlausibleRange.Possible("", Quantity.Length, -reach, reach);
            return new Point2(
                Measure(x, where + "[0]", Quantity.Length, range),
                Measure(y, where + "[1]", Quantity.Length, range)
            );
        }
        log.Findings.Add(ShopFindings.WrongType(log.File, value, where, "two lengths such as [1.5, 2]"));
        return default;
    }

    /// <summary>The value that a range is of: a measure in the inside unit of its kind, or a plain number.</summary>
    public double Within(TomlValue value, string where, PlausibleRange range)
    {
        if (range.Kind is { } kind)
        {
            return Measure(value, where, kind, range);
        }
        if (value is TomlNumber n)
        {
            return Held(n, where, n.Value, range, Number(n.Value), Between);
        }
        log.Findings.Add(ShopFindings.WrongType(log.File, value, where, "a number"));
        return range.Least;
    }

    /// <summary>A measure in the inside unit of its kind, bare in the file's unit or text with its own.</summary>
    private double Measure(TomlValue value, string where, Quantity kind, PlausibleRange range)
    {
        switch (value)
        {
            case TomlNumber n when log.Unit is null && kind.BareInch != kind.BareMm:
                log.Findings.Add(ShopFindings.NoUnit(log.File, n, where));
                return range.Least;
            case TomlNumber n when kind.BareInch != kind.BareMm && log.UnitInDoubt:
                return Math.Clamp(n.Value, range.Least, range.Greatest);
            case TomlNumber n:
                return Written(
                    n,
                    where,
                    kind.FromBare(n.Value, log.BareUnit),
                    range,
                    kind,
                    kind.BareUnit(log.BareUnit)
                );
            case TomlString s when kind.FromText(s.Text) is (double v, string written):
                return Written(s, where, v, range, kind, written);
            case TomlString s:
                log.Findings.Add(ShopFindings.UnknownUnit(log.File, s, where, kind.UnitNames));
                return range.Least;
            default:
                log.Findings.Add(
                    ShopFindings.WrongType(log.File, value, where, $"a number or text such as \"6 {kind.Inside}\"")
                );
                return range.Least;
        }
    }

    /// <summary>Said in the unit it was written in, the ends of ranges rounded inwards so that they may be copied.</summary>
    private double Written(TomlValue at, string where, double v, PlausibleRange range, Quantity kind, string written)
    {
        if (written == kind.Inside)
        {
            return Held(at, where, v, range, Inv($"{Number(v)} {written}"), (a, b) => Between(a, b) + " " + written);
        }
        double factor = kind.Factor(written);
        return Held(
            at,
            where,
            v,
            range,
            $"{Number(v / factor)} {written} ({Number(v)} {kind.Inside})",
            (low, high) =>
                Inv(
                    $"from {Math.Ceiling((1000 * low / factor) - 1e-6) / 1000:0.###} to {Math.Floor((1000 * high / factor) + 1e-6) / 1000:0.###} {written} ({Number(low)} to {Number(high)} {kind.Inside})"
                )
        );
    }

    private static string Between(double low, double high) => $"from {Number(low)} to {Number(high)}";

    /// <summary>The value where it is possible, else the range's least with a refusal; a warning where it is not practice.</summary>
    private double Held(
        TomlValue at,
        string where,
        double v,
        PlausibleRange range,
        string given,
        Func<double, double, string> between
    )
    {
        string published = range.Source.Length == 0 ? "" : $"{between(range.From, range.To)}: {range.Source}";
        if (!range.Allows(v))
        {
            string possible = between(range.Least, range.Greatest);
            log.Findings.Add(ShopFindings.OutOfRange(log.File, at, where, given, possible, published));
            return range.Least;
        }
        if (!range.IsPractice(v))
        {
            log.Findings.Add(ShopFindings.NotPractice(log.File, at, where, given, published));
        }
        return v;
    }

    /// <summary>A whole number, held to its range, ends allowed.</summary>
    public double InRange(TomlValue at, string where, double v, double least, double greatest) =>
        Held(at, where, v, PlausibleRange.Possible("", null, least, greatest), Number(v), Between);

    /// <summary>Five decimals, and as many more as a small number needs to show three figures.</summary>
    private static string Number(double v) =>
        v != 0 && Math.Abs(v) < 1e-3 ? Inv($"{v:0.########}") : Inv($"{v:0.#####}");

    private static string Inv(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);
}
