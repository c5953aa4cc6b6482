using System.Globalization;
using System.Text;
using FixtureGen.Drawing.Chaining;

namespace FixtureGen.Drawing;

/// <summary>The report of a drawing in words, for reading at the bench. Findings are not repeated here: they go to standard error, a line each.</summary>
public static class DrawingText
{
    private const int MostLoops = 40;
    private const int MostChains = 10;

    /// <summary>
    /// Several lines, each ended by a line feed: units, entities, loops (40 at most), open chains (10 at most), repairs,
    /// verdict. mm, or drawing units while no unit is known.
    /// </summary>
    public static string Render(DrawingReport report)
    {
        var text = new StringBuilder();
        string unit = report.Unit is null ? "units" : "mm";
        Line(text, $"{report.File}: {Release(report.Version)}, {Unit(report.Unit)}");
        if (report.Entities.Count > 0)
        {
            Line(text, $"  drawn with {string.Join(", ", report.Entities.Select(Count))}");
        }
        Line(text, $"  {Plural(report.Loops.Length, "closed loop")}, {Plural(report.Open.Length, "open chain")}");
        foreach (DrawingReport.ClosedLoop loop in report.Loops.Take(MostLoops))
        {
            string indent = new(' ', 2 * Math.Min(loop.Depth, 10));
            Line(
                text,
                $"    {indent}{Role(loop)}: area {loop.AreaMm2:0.###} {unit}2, once round {loop.PerimeterMm:0.###} {unit}, layer {loop.Layer}"
            );
        }
        More(text, report.Loops.Length - MostLoops, "loops");
        foreach (DrawingReport.Chain chain in report.Open.Take(MostChains))
        {
            Line(
                text,
                $"    open: {chain.LengthMm:0.###} {unit} long from ({Place(chain.From)}) to ({Place(chain.To)}), gap {chain.GapMm:0.###} {unit}, layer {chain.Layer}"
            );
        }
        More(text, report.Open.Length - MostChains, "open chains");
        foreach (Repair repair in report.Repairs)
        {
            Line(text, $"  put right: {repair.Message}");
        }
        Line(text, $"  {Verdict(report)}");
        return text.ToString();
    }

    private static string Role(DrawingReport.ClosedLoop loop)
    {
        string what =
            loop.Depth == 0 ? "outline"
            : loop.Depth % 2 == 1 ? "hole"
            : "island";
        return loop.Clean ? what : $"{what} THAT CROSSES ITSELF";
    }

    private static string Verdict(DrawingReport report)
    {
        if (report.Part is { } part)
        {
            string more = string.Concat(
                Counted(part.Cutouts, "cutout"),
                Counted(part.KeepOuts, "keep-out"),
                Counted(part.Magnets, "magnet place"),
                Counted(part.Engravings, "engraving")
            );
            return $"a job reads one outline{more}: the drawing is fit for a fixture";
        }
        string[] codes = [.. report.Findings.Where(f => f.Severity == "error").Select(f => f.Code).Distinct()];
        return report.Loops.Length == 0 && codes.Length == 0
            ? "no clean closed outline: no fixture can be made of this drawing as it is"
            : $"a job refuses this drawing as it is: {string.Join(", ", codes)}";
    }

    private static string Counted(int count, string noun) => count == 0 ? "" : ", " + Plural(count, noun);

    private static string Release(string? version) =>
        version switch
        {
            null => "DXF of a release that it does not say",
            "SVG" => "SVG",
            "AC1002" => "DXF of release 2.5",
            "AC1003" => "DXF of release 2.6",
            "AC1004" => "DXF of release 9",
            "AC1006" => "DXF of release 10",
            "AC1009" => "DXF of release 11 or 12",
            "AC1012" => "DXF of release 13",
            "AC1014" => "DXF of release 14",
            "AC1015" => "DXF 2000",
            "AC1018" => "DXF 2004",
            "AC1021" => "DXF 2007",
            "AC1024" => "DXF 2010",
            "AC1027" => "DXF 2013",
            "AC1032" => "DXF 2018",
            _ => $"DXF {version}",
        };

    private static string Unit(string? unit) =>
        unit is null ? "no unit stated, lengths in drawing units" : $"drawn in {unit}, lengths in mm";

    private static string Count(KeyValuePair<string, int> entity) =>
        string.Create(CultureInfo.InvariantCulture, $"{entity.Value} {entity.Key}");

    private static string Plural(int count, string noun) =>
        string.Create(CultureInfo.InvariantCulture, $"{count} {noun}{(count == 1 ? "" : "s")}");

    private static string Place(double[] p) =>
        string.Create(CultureInfo.InvariantCulture, $"{p[0]:0.###}, {p[1]:0.###}");

    private static void More(StringBuilder text, int more, string what)
    {
        if (more > 0)
        {
            Line(text, $"    and {more} more {what}");
        }
    }

    private static void Line(StringBuilder text, FormattableString line) =>
        text.Append(line.ToString(CultureInfo.InvariantCulture)).Append('\n');
}
