using System.Globalization;
using FixtureGen.Model;

namespace FixtureGen.Shop.Reading;

/// <summary>
/// A kind of measure that shop files state, the units its strings may carry with their factor to the inside unit, and
/// the unit that a bare number has in an inch file and in a millimetre file.
/// </summary>
internal sealed record Quantity(
    string Inside,
    string BareInch,
    string BareMm,
    params (string Unit, double Factor)[] Units
)
{
    private const double PoundForceN = 4.4482216152605;

    public static Quantity Length { get; } =
        new(
            "mm",
            "in",
            "mm",
            ("mm", 1),
            ("cm", 10),
            ("m", 1000),
            ("um", 0.001),
            ("in", FixtureGen.Model.Units.MmPerInch)
        );

    public static Quantity Area { get; } =
        new(
            "mm2",
            "in2",
            "mm2",
            ("mm2", 1),
            ("in2", FixtureGen.Model.Units.MmPerInch * FixtureGen.Model.Units.MmPerInch)
        );

    /// <summary>Feed and rapid rates, mm/min.</summary>
    public static Quantity Rate { get; } =
        new(
            "mm/min",
            "in/min",
            "mm/min",
            ("mm/min", 1),
            ("m/min", 1000),
            ("in/min", FixtureGen.Model.Units.MmPerInch),
            ("mm/s", 60)
        );

    /// <summary>Surface speed, m/min.</summary>
    public static Quantity Speed { get; } =
        new("m/min", "ft/min", "m/min", ("m/min", 1), ("ft/min", 0.3048), ("m/s", 60));

    /// <summary>Vacuum level or pressure, kPa; inHg at 0 C.</summary>
    public static Quantity Pressure { get; } =
        new(
            "kPa",
            "inHg",
            "kPa",
            ("kPa", 1),
            ("Pa", 0.001),
            ("bar", 100),
            ("mbar", 0.1),
            ("inHg", FixtureGen.Model.Units.KPaPerInHg),
            ("psi", 6.894757293168)
        );

    /// <summary>Tightening torque, N.m.</summary>
    public static Quantity Torque { get; } =
        new(
            "N.m",
            "lbf.in",
            "N.m",
            ("N.m", 1),
            ("lbf.in", PoundForceN * FixtureGen.Model.Units.MmPerInch / 1000),
            ("lbf.ft", PoundForceN * FixtureGen.Model.Units.MmPerInch * 12 / 1000)
        );

    /// <summary>Height above the sea, m.</summary>
    public static Quantity Altitude { get; } = new("m", "ft", "m", ("m", 1), ("ft", 0.3048));

    /// <summary>Acceleration, mm/s2.</summary>
    public static Quantity Acceleration { get; } =
        new("mm/s2", "in/s2", "mm/s2", ("mm/s2", 1), ("m/s2", 1000), ("in/s2", FixtureGen.Model.Units.MmPerInch));

    public string UnitNames => string.Join(", ", Units.Select(u => u.Unit));

    /// <summary>The unit of a file's bare numbers.</summary>
    public string BareUnit(LengthUnit fileUnit) => fileUnit == LengthUnit.Inch ? BareInch : BareMm;

    /// <summary>A bare number of a file to the inside unit.</summary>
    public double FromBare(double value, LengthUnit fileUnit) => value * Factor(BareUnit(fileUnit));

    /// <summary>How many inside units one of this unit is.</summary>
    public double Factor(string unit) => Units.First(u => u.Unit == unit).Factor;

    /// <summary>
    /// "6 mm", "0.25 in", "17/64 in", "1-1/2 in" to the inside unit, with the unit as written; null where the text is not a
    /// number and a known unit.
    /// </summary>
    public (double Value, string Unit)? FromText(string text)
    {
        string t = text.Trim();
        foreach ((string unit, double factor) in Units.OrderByDescending(u => u.Unit.Length))
        {
            if (t.EndsWith(unit, StringComparison.Ordinal) && Number(t[..^unit.Length].TrimEnd()) is { } n)
            {
                return (n * factor, unit);
            }
        }
        return null;
    }

    private static double? Number(string text)
    {
        int slash = text.IndexOf('/', StringComparison.Ordinal);
        if (slash < 0)
        {
            return Plain(text);
        }
        int dash = text.LastIndexOf('-', slash);
        double? whole = dash > 0 ? Plain(text[..dash]) : 0;
        double? top = Plain(text[(dash > 0 ? dash + 1 : 0)..slash]);
        double? bottom = Plain(text[(slash + 1)..]);
        return bottom is > 0 ? whole + (top / bottom) : null;
    }

    private static double? Plain(string text) =>
        double.TryParse(
            text,
            NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint,
            CultureInfo.InvariantCulture,
            out double v
        ) && double.IsFinite(v)
            ? v
            : null;
}
