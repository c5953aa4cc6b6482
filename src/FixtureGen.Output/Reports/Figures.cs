using System.Globalization;
using FixtureGen.Model;

namespace FixtureGen.Output.Reports;

/// <summary>Numbers as papers print them: the invariant culture, a fixed number of decimals for each sort of quantity.</summary>
internal static class Figures
{
    private static readonly CultureInfo C = CultureInfo.InvariantCulture;

    public static string Whole(int v) => v.ToString(C);

    public static string Count(int n, string what) => $"{Whole(n)} {what}{(n == 1 ? "" : "s")}";

    /// <summary>A length or coordinate, mm, to 0.01.</summary>
    public static string Mm(double v) => Zero(v.ToString("0.00", C));

    /// <summary>An area, mm2, to 0.1.</summary>
    public static string Area(double v) => Zero(v.ToString("0.0", C));

    /// <summary>A force, N, or a vacuum level, kPa, to 0.1.</summary>
    public static string Force(double v) => Zero(v.ToString("0.0", C));

    public static string Minutes(double v) => v.ToString("0.0", C);

    /// <summary>A holding factor: two figures, rounded down.</summary>
    public static string Factor(double v) => FactorText.Two(v);

    /// <summary>A factor that may not have been computed: 0 prints as nothing.</summary>
    public static string FactorOrNone(double v) => v > 0 ? FactorText.Two(v) : "";

    /// <summary>An error of the judge's, mm, to 0.001.</summary>
    public static string Micron(double v) => Zero(v.ToString("0.000", C));

    /// <summary>The usual value with both ends.</summary>
    public static string Range(Interval v) =>
        string.Create(C, $"{v.Nominal:0.00} ({v.Least:0.00} to {v.Greatest:0.00})");

    public static string Degrees(double v) => Zero(v.ToString("0.##", C));

    public static string Rate(double v) => v.ToString("0", C);

    public static string Torque(double newtonMetres) =>
        $"{newtonMetres.ToString("0.0", C)} N·m ({(newtonMetres * 8.850746).ToString("0", C)} in·lbf)";

    public static string Vacuum(double kPa) => $"{Force(kPa)} kPa ({(kPa / Units.KPaPerInHg).ToString("0.0", C)} inHg)";

    public static string Seconds(double v) => v.ToString("0.00", C);

    public static string Setup(Setup setup) =>
        setup switch
        {
            FixtureGen.Model.Setup.Underside => "underside",
            FixtureGen.Model.Setup.Top => "top",
            FixtureGen.Model.Setup.Trim => "trim",
        };

    public static string Mode(HoldMode mode) =>
        mode switch
        {
            HoldMode.Slide => "slides",
            HoldMode.Lift => "lifts",
            HoldMode.Stop => "stop gives way",
            HoldMode.Tip => "tips",
        };

    private static string Zero(string text) => text.Trim('-', '0', '.').Length == 0 ? text.TrimStart('-') : text;
}
