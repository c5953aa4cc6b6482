using System.Globalization;
using FixtureGen.Dxf;
using FixtureGen.Tests.Support;

namespace FixtureGen.Tests.Dxf;

/// <summary>Holds a read drawing against the independent reading: loops by area and perimeter, 1e-4 where closed form, 1e-3 where flattened, and open chains.</summary>
internal static class CorpusComparison
{
    /// <summary>The difference that is known and explained for a file; null where there must be none. This list may only shrink.</summary>
    public static string? Known(string name) => KnownDifferences.GetValueOrDefault(name);

    private static readonly Dictionary<string, string> KnownDifferences = new(StringComparer.Ordinal) { };

    public static string? Difference(Stage<Drawing> read, OracleDrawing oracle)
    {
        if (read.Value is not { } drawing)
        {
            return "refused: " + string.Join(" ", read.Findings.Select(f => f.Message));
        }
        double unit = drawing.Unit is { } u ? DxfUnits.Millimetres(u) : 1;
        List<DrawnLoop> own = [.. drawing.Loops];
        var missing = new List<string>();
        foreach (OracleLoop loop in oracle.Loops.Where(l => !l.Duplicate))
        {
            double slack = loop.ClosedForm ? 1e-4 : 1e-3;
            int found = own.FindIndex(o =>
                Near(o.AreaMm2 / unit / unit, loop.Area, slack) && Near(o.PerimeterMm / unit, loop.Perimeter, slack)
            );
            if (found < 0)
            {
                missing.Add(Text($"no loop of area {loop.Area:R} perimeter {loop.Perimeter:R}"));
                continue;
            }
            if (loop.Depth is { } depth && own[found].Depth != depth)
            {
                missing.Add(Text($"depth {own[found].Depth} for {depth}"));
            }
            if (own[found].Clean != loop.Valid)
            {
                missing.Add(Text($"loop of area {loop.Area:R} clean: {own[found].Clean}, valid: {loop.Valid}"));
            }
            own.RemoveAt(found);
        }
        missing.AddRange(own.Select(o => Text($"loop of area {o.AreaMm2 / unit / unit:R} not in the other reading")));
        if (drawing.Open.Length != oracle.OpenLengths.Count && oracle.Branched == 0)
        {
            missing.Add(Text($"{drawing.Open.Length} open chains for {oracle.OpenLengths.Count}"));
        }
        if (drawing.Version != oracle.Version)
        {
            missing.Add($"version {drawing.Version} for {oracle.Version}");
        }
        return missing.Count == 0 ? null : string.Join("; ", missing);
    }

    private static bool Near(double a, double b, double slack) => Math.Abs(a - b) <= slack * Math.Abs(b);

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
