using System.Globalization;
using FixtureGen.Model;

namespace FixtureGen.Shop;

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
            return new Point2(
                Measure(x, where + "[0]", Quantity.Length, -reach, reach),
                Measure(y, where + "[1]", Quantity.Length, -reach, reach)
            );
        }
        log.Findings.Add(ShopFindings.WrongType(log.File, value, where, "two lengths such as [1.5, 2]"));
        return default;
    }

    /// <summary>A measure in the inside unit of its kind, bare in the file's unit or text with its own.</summary>
    public double Measure(TomlValue value, string where, Quantity kind, double least, double greatest)
    {
        switch (value)
        {
            case TomlNumber n when log.Unit is null && kind.BareInch != kind.BareMm:
                log.Findings.Add(ShopFindings.NoUnit(log.File, n, where));
                return least;
            case TomlNumber n when kind.BareInch != kind.BareMm && log.UnitInDoubt:
                return Math.Clamp(n.Value, least, greatest);
            case TomlNumber n:
                return InRange(
                    n,
                    where,
                    kind.FromBare(n.Value, log.BareUnit),
                    least,
                    greatest,
                    kind,
                    kind.BareUnit(log.BareUnit)
                );
            case TomlString s when kind.FromText(s.Text) is (double v, string written):
                return InRange(s, where, v, least, greatest, kind, written);
            case TomlString s:
                log.Findings.Add(ShopFindings.UnknownUnit(log.File, s, where, kind.UnitNames));
                return least;
            default:
                log.Findings.Add(
                    ShopFindings.WrongType(log.File, value, where, $"a number or text such as \"6 {kind.Inside}\"")
                );
                return least;
        }
    }

    /// <summary>A number without a unit, held to its range, ends allowed.</summary>
    public double InRange(TomlValue at, string where, double v, double least, double greatest)
    {
        if (v >= least && v <= greatest)
        {
            return v;
        }
        string range = Inv($"from {least:0.#####} to {greatest:0.#####}");
        log.Findings.Add(ShopFindings.OutOfRange(log.File, at, where, Inv($"{v:0.#####}"), range));
        return least;
    }

    /// <summary>As without a unit; said in the unit it was written in, its ends rounded inwards so that they may be copied.</summary>
    private double InRange(
        TomlValue at,
        string where,
        double v,
        double least,
        double greatest,
        Quantity kind,
        string written
    )
    {
        if (v >= least && v <= greatest)
        {
            return v;
        }
        string given = Inv($"{v:0.#####} {kind.Inside}");
        string range = Inv($"from {least:0.#####} to {greatest:0.#####} {kind.Inside}");
        if (written != kind.Inside)
        {
            double factor = kind.Factor(written);
            double low = Math.Ceiling(1000 * least / factor) / 1000;
            double high = Math.Floor(1000 * greatest / factor) / 1000;
            given = Inv($"{v / factor:0.#####} {written} ({given})");
            range = Inv(
                $"from {low:0.###} to {high:0.###} {written} ({least:0.#####} to {greatest:0.#####} {kind.Inside})"
            );
        }
        log.Findings.Add(ShopFindings.OutOfRange(log.File, at, where, given, range));
        return least;
    }

    private static string Inv(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);
}
