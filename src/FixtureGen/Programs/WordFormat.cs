using System.Globalization;
using FixtureGen.Model;

namespace FixtureGen.Programs;

/// <summary>
/// Numbers as a control reads them. Lengths are counted in ticks, whole multiples of the last decimal in the control's
/// unit, so that what was rounded is known exactly when arcs and modal words are compared.
/// </summary>
internal sealed class WordFormat(Control control)
{
    private readonly double _ticksPerMm =
        Math.Pow(10, control.Decimals) / (control.Unit == LengthUnit.Inch ? Units.MmPerInch : 1);

    private readonly double _feedsPerMm = 1 / (control.Unit == LengthUnit.Inch ? Units.MmPerInch : 1);

    /// <summary>The rounding error allowed between an arc's two radii, ticks: 0.002 mm or 0.0002 in (RS274/NGC, NISTIR 6556 3.5.3).</summary>
    public double ArcLimitTicks { get; } =
        Math.Pow(10, control.Decimals) * (control.Unit == LengthUnit.Inch ? 0.0002 : 0.002);

    public long Ticks(double mm) => (long)Math.Round(mm * _ticksPerMm, MidpointRounding.AwayFromZero);

    public double ExactTicks(double mm) => mm * _ticksPerMm;

    public string Length(long ticks) => Written(ticks, control.Decimals);

    public string Length(double mm) => Length(Ticks(mm));

    /// <summary>Feed in the control's unit a minute, never faster than asked and never zero.</summary>
    public string Feed(double mmPerMin)
    {
        double scaled = mmPerMin * _feedsPerMm * Math.Pow(10, control.FeedDecimals);
        return Written(Math.Max(1, (long)Math.Floor(scaled + 1e-6)), control.FeedDecimals);
    }

    public static string Rpm(double rpm) => ((long)Math.Floor(rpm + 1e-6)).ToString(CultureInfo.InvariantCulture);

    /// <summary>A dwell word's number, in the control's dwell unit; milliseconds are whole.</summary>
    public string Dwell(double seconds) =>
        control.Dwell == DwellUnit.Milliseconds
            ? ((long)Math.Ceiling((seconds * 1000) - 1e-6)).ToString(CultureInfo.InvariantCulture)
            : Written((long)Math.Round(seconds * 1000), 3);

    private string Written(long scaled, int decimals)
    {
        string sign = scaled < 0 ? "-" : "";
        string digits = Math.Abs(scaled).ToString(CultureInfo.InvariantCulture).PadLeft(decimals + 1, '0');
        string whole = digits[..^decimals];
        string rest = digits[^decimals..];
        if (control.Numbers == DecimalHabit.Fixed)
        {
            return decimals == 0 ? $"{sign}{whole}." : $"{sign}{whole}.{rest}";
        }
        rest = rest.TrimEnd('0');
        return rest.Length > 0 ? $"{sign}{whole}.{rest}"
            : control.Numbers == DecimalHabit.AlwaysPoint ? $"{sign}{whole}."
            : sign + whole;
    }
}
