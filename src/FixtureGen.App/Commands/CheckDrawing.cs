using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization;
using FixtureGen.Dxf;
using FixtureGen.Model;

namespace FixtureGen.App.Commands;

/// <summary><c>check DRAWING.dxf</c>: what the reader makes of a drawing, without a job. Exit 0 where at least one clean closed outline was found.</summary>
public static class CheckDrawing
{
    public static int Run(Say say, string path, string? unit, bool json)
    {
        Stage<Drawing> read = Read(path, unit);
        DrawingReport report = DrawingReport.Of(Path.GetFileName(path), read);
        say.Findings(read.Findings);
        if (json)
        {
            say.Json(DrawingJson.Text(report));
        }
        else
        {
            Print(say, report);
        }
        return report.HasCleanOutline ? Program.Made : Program.Refused;
    }

    private static Stage<Drawing> Read(string path, string? unit)
    {
        if (!File.Exists(path))
        {
            return Stage.Failed<Drawing>(
                new Finding("drawing-missing", Severity.Error, path, "there is no such drawing", "check the path")
            );
        }
        if (new FileInfo(path).Length > DxfReader.MostBytes)
        {
            return Stage.Failed<Drawing>(DxfReader.TooLarge(path, new FileInfo(path).Length));
        }
        LengthUnit? stated = unit switch
        {
            "in" => LengthUnit.Inch,
            "mm" => LengthUnit.Millimetre,
            _ => null,
        };
        try
        {
            return DxfReader.Read(File.ReadAllBytes(path), path, stated, Tolerances.House);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            return Stage.Failed<Drawing>(
                new Finding(
                    "file-unreadable",
                    Severity.Error,
                    path,
                    e.Message,
                    "free the file or its folder's permissions"
                )
            );
        }
    }

    private static void Print(Say say, DrawingReport report)
    {
        CultureInfo c = CultureInfo.InvariantCulture;
        string u = report.Unit is null ? "drawing units" : "mm";
        say.Line($"{report.File}: {report.Version ?? "no version stated"}, unit {report.Unit ?? "not stated"}");
        say.Line(
            $"  entities: {(report.Entities.Count == 0 ? "none" : string.Join(", ", report.Entities.Select(e => string.Create(c, $"{e.Value} {e.Key}"))))}"
        );
        say.Line(string.Create(c, $"  closed loops: {report.Loops.Length}"));
        foreach (DrawingReport.ClosedLoop l in report.Loops)
        {
            string what = l.Depth == 0 ? "outermost" : string.Create(c, $"inside {l.Depth} other(s)");
            say.Line(
                string.Create(
                    c,
                    $"    area {l.AreaMm2:0.###} {u}2, perimeter {l.PerimeterMm:0.###} {u}, layer {l.Layer}, {what}{(l.Clean ? "" : ", NOT clean: it crosses itself or another")}"
                )
            );
        }
        foreach (DrawingReport.Chain o in report.Open)
        {
            say.Line(
                string.Create(
                    c,
                    $"  open chain on layer {o.Layer}: length {o.LengthMm:0.###} {u}, its ends {o.GapMm:0.####} {u} apart, from {o.From[0]:0.###},{o.From[1]:0.###} to {o.To[0]:0.###},{o.To[1]:0.###}"
                )
            );
        }
        foreach (Repair r in report.Repairs)
        {
            say.Line(string.Create(c, $"  repaired {r.Count} x {r.Code}: {r.Message}"));
        }
    }
}

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.CamelCase,
    WriteIndented = true,
    NewLine = "\n"
)]
[JsonSerializable(typeof(DrawingReport))]
internal sealed partial class DrawingJson : JsonSerializerContext
{
    public static string Text(DrawingReport report)
    {
        System.Text.Json.Nodes.JsonObject node = JsonSerializer
            .SerializeToNode(report, Default.DrawingReport)!
            .AsObject();
        node["ok"] = report.HasCleanOutline;
        return AppJson.Text(node);
    }
}
