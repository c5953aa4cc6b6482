using System.Globalization;
using FixtureGen.Model;
using FixtureGen.Output.Reports;

namespace FixtureGen.Output.Papers;

/// <summary>
/// Lengths on a paper: in the unit that the machine's control shows, since there the operator compares them, and the other in brackets.
/// Inches to 0.001, millimetres to 0.01.
/// </summary>
internal sealed record Lengths(LengthUnit Unit)
{
    private bool Inch => Unit == LengthUnit.Inch;

    public static Lengths For(Job job) => new(job.Control.Unit);

    /// <summary>The unit's sign: in or mm.</summary>
    public string Sign => Inch ? "in" : "mm";

    private string Other => Inch ? "mm" : "in";

    /// <summary>One length with its unit, such as 0.500 in (12.70 mm).</summary>
    public string Long(double mm) => $"{First(mm)} {Sign} ({Second(mm)} {Other})";

    /// <summary>Two or three lengths with a cross between them.</summary>
    public string Size(params IEnumerable<double> mm) =>
        $"{string.Join(" x ", mm.Select(First))} {Sign} ({string.Join(" x ", mm.Select(Second))} {Other})";

    /// <summary>A range, such as 0.980 to 1.020 in (24.89 to 25.91 mm).</summary>
    public string Range(double from, double to) =>
        $"{First(from)} to {First(to)} {Sign} ({Second(from)} to {Second(to)} {Other})";

    /// <summary>A place on the plate.</summary>
    public string Place(Point2 p) =>
        $"X {First(p.X)}  Y {First(p.Y)} {Sign} (X {Second(p.X)}  Y {Second(p.Y)} {Other})";

    /// <summary>A cell of a table whose head says the units.</summary>
    public string Cell(double mm) => $"{First(mm)} ({Second(mm)})";

    /// <summary>A diameter that a fit depends on: a tenth finer.</summary>
    public string Fine(double mm) =>
        Inch
            ? $"{Text(mm / Units.MmPerInch, "0.0000")} ({Text(mm, "0.000")})"
            : $"{Text(mm, "0.000")} ({Text(mm / Units.MmPerInch, "0.0000")})";

    /// <summary>A feed, mm/min, as a cell: whole mm/min, inches to a tenth.</summary>
    public string Feed(double mmPerMin)
    {
        string inch = Text(mmPerMin / Units.MmPerInch, "0.0");
        return Inch ? $"{inch} ({Figures.Rate(mmPerMin)})" : $"{Figures.Rate(mmPerMin)} ({inch})";
    }

    /// <summary>How far a tool goes, as a cell: inches, metres to a tenth.</summary>
    public string Way(double mm)
    {
        (string inch, string metres) = (Text(mm / Units.MmPerInch, "0"), Text(mm / 1000, "0.0"));
        return Inch ? $"{inch} ({metres})" : $"{metres} ({inch})";
    }

    /// <summary>The head of a column of lengths.</summary>
    public string Head(string name) => $"{name} {Sign} ({Other})".TrimStart();

    /// <summary>The head of a column of feeds.</summary>
    public string FeedHead => Inch ? "in/min (mm/min)" : "mm/min (in/min)";

    /// <summary>A whole length that needs no digits behind the point in mm, such as how far a pacemaker stays away.</summary>
    public string Far(double mm)
    {
        string inch = Text(Math.Ceiling(mm / Units.MmPerInch), "0");
        return Inch ? $"{inch} in ({Figures.Rate(mm)} mm)" : $"{Figures.Rate(mm)} mm ({inch} in)";
    }

    private string First(double mm) => Inch ? Figures.Micron(mm / Units.MmPerInch) : Figures.Mm(mm);

    private string Second(double mm) => Inch ? Figures.Mm(mm) : Figures.Micron(mm / Units.MmPerInch);

    private static string Text(double v, string form) => v.ToString(form, CultureInfo.InvariantCulture);
}
