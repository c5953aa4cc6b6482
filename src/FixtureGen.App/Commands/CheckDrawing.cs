using System.Text.Json;
using System.Text.Json.Serialization;
using FixtureGen.App.Terminal;
using FixtureGen.Drawing;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Roles;
using FixtureGen.Model;

namespace FixtureGen.App.Commands;

/// <summary><c>check DRAWING.dxf</c>: what the reader and a fresh job make of a drawing; findings and verdict are the job's own. Exit 0 where at least one clean closed outline was found.</summary>
internal static class CheckDrawing
{
    /// <summary>Reads and reports; the exit code. A drawing that cannot be read is a finding.</summary>
    /// <param name="say">Where to.</param>
    /// <param name="path">The drawing.</param>
    /// <param name="unit">in, mm, or null for what the drawing says.</param>
    /// <param name="json">One JSON object in place of text.</param>
    public static int Run(Say say, string path, string? unit, bool json)
    {
        Stage<DrawingContent> read = Read(path, unit);
        Stage<Part>? part = read is { Ok: true, Value: { } drawing } ? PartBuilder.Build(drawing) : null;
        IReadOnlyList<Finding> findings = part is null
            ? read.Findings
            : [.. PartBuilder.BesideThePart(read.Findings), .. part.Findings];
        DrawingReport report = DrawingReport.Describe(Path.GetFileName(path), read, part, findings);
        say.Findings(findings);
        if (json)
        {
            say.Json(DrawingJson.Text(report));
        }
        else
        {
            say.Line(DrawingText.Render(report).TrimEnd());
        }
        return report.HasCleanOutline ? ExitCode.Made : ExitCode.Refused;
    }

    private static Stage<DrawingContent> Read(string path, string? unit)
    {
        if (!File.Exists(path))
        {
            return Stage.Failed<DrawingContent>(
                new Finding("drawing-missing", Severity.Error, path, "there is no such drawing", "check the path")
            );
        }
        if (new FileInfo(path).Length > DxfReader.MostBytes)
        {
            return Stage.Failed<DrawingContent>(DxfReader.TooLarge(path, new FileInfo(path).Length));
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
            return Stage.Failed<DrawingContent>(
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
