using System.Text.Json;
using FixtureGen.Drawing;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Roles;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Dxf;

public sealed class DrawingTextTest
{
    private static readonly JsonSerializerOptions CamelCase = new()
    {
        PropertyNamingPolicy = JsonNamingPolicy.CamelCase,
    };

    [Fact]
    public void Says_what_was_read_in_words()
    {
        Stage<DrawingContent> stage = Sketch.Stage(
            Sketch.Rectangle(0, 0, 120, 80, "OUTLINE")
                + Sketch.Circle(30, 40, 8, "CUTOUT")
                + Sketch.Line(200, 0, 210, 0, "NOTES"),
            header: "9 $ACADVER 1 AC1009 9 $INSUNITS 70 4"
        );
        Assert.Equal(
            """
            clip.dxf: DXF of release 11 or 12, drawn in mm, lengths in mm
              drawn with 1 CIRCLE, 5 LINE
              2 closed loops, 1 open chain
                outline: area 9600 mm2, once round 400 mm, layer OUTLINE
                  hole: area 201.062 mm2, once round 50.265 mm, layer CUTOUT
                open: 10 mm long from (200, 0) to (210, 0), gap 10 mm, layer NOTES
              a job reads one outline, 1 cutout: the drawing is fit for a fixture

            """,
            DrawingText.Render(Described("clip.dxf", stage)),
            ignoreLineEndingDifferences: true
        );
    }

    [Fact]
    public void Report_has_the_keys_of_the_command()
    {
        Stage<DrawingContent> stage = Sketch.Stage(
            Sketch.Rectangle(0, 0, 120, 80) + Sketch.Rectangle(0, 0, 120, 80) + Sketch.Line(200, 0, 210, 0)
        );
        JsonElement json = JsonSerializer.SerializeToElement(Described("clip.dxf", stage), CamelCase);
        Assert.Equal(
            ["file", "version", "unit", "entities", "loops", "open", "repairs", "findings", "part", "fit"],
            json.EnumerateObject().Select(p => p.Name)
        );
        Assert.Equal(
            (9600.0, 400.0, 0, "0"),
            (
                json.GetProperty("loops")[0].GetProperty("areaMm2").GetDouble(),
                json.GetProperty("loops")[0].GetProperty("perimeterMm").GetDouble(),
                json.GetProperty("loops")[0].GetProperty("depth").GetInt32(),
                json.GetProperty("loops")[0].GetProperty("layer").GetString()
            )
        );
        JsonElement open = json.GetProperty("open")[0];
        Assert.Equal(10, open.GetProperty("gapMm").GetDouble());
        Assert.Equal([200, 0], open.GetProperty("from").EnumerateArray().Select(v => v.GetDouble()));
        Assert.Equal([210, 0], open.GetProperty("to").EnumerateArray().Select(v => v.GetDouble()));
        JsonElement repair = Assert.Single(json.GetProperty("repairs").EnumerateArray());
        Assert.Equal(
            ("drawn-twice", 4),
            (repair.GetProperty("code").GetString(), repair.GetProperty("count").GetInt32())
        );
        Assert.Equal(9, json.GetProperty("entities").GetProperty("LINE").GetInt32());
    }

    [Fact]
    public void Every_drawing_of_other_programs_is_put_in_words()
    {
        Drawings.Need();
        foreach (string file in Drawings.Files)
        {
            string name = Path.GetFileName(file);
            Stage<DrawingContent> stage = DxfReader.Read(File.ReadAllBytes(file), name, null, Tolerances.House);
            string text = DrawingText.Render(Described(name, stage));
            Assert.StartsWith(name + ": DXF", text, StringComparison.Ordinal);
            Assert.DoesNotContain("NaN", text, StringComparison.Ordinal);
        }
    }

    private static DrawingReport Described(string name, Stage<DrawingContent> read)
    {
        Stage<Part>? part = read.Value is { } drawing ? PartBuilder.Build(drawing) : null;
        return DrawingReport.Describe(
            name,
            read,
            part,
            part is null ? read.Findings : [.. PartBuilder.BesideThePart(read.Findings), .. part.Findings]
        );
    }
}
