using System.Globalization;
using System.Text;
using FixtureGen.Drawing;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Dxf;

/// <summary>Hand-written drawings: groups as "code value code value ..." with blanks between; values hold no blanks.</summary>
internal static class Sketch
{
    public static string Text(string entities, string blocks = "", string header = "9 $INSUNITS 70 4") =>
        $"0 SECTION 2 HEADER {header} 0 ENDSEC 0 SECTION 2 BLOCKS {blocks} 0 ENDSEC 0 SECTION 2 ENTITIES {entities} 0 ENDSEC 0 EOF";

    /// <summary>The groups as a text drawing's lines.</summary>
    public static byte[] Bytes(string groups, string eol = "\n") =>
        Encoding.UTF8.GetBytes(
            string.Join(eol, groups.Split(' ', '\n').Where(w => w.Length > 0).Select(Unquoted)) + eol
        );

    public static Stage<DrawingContent> Stage(
        string entities,
        string blocks = "",
        string header = "9 $INSUNITS 70 4"
    ) => Read(Bytes(Text(entities, blocks, header)));

    public static Stage<DrawingContent> Read(byte[] bytes, LengthUnit? unit = null) =>
        DxfReader.Read(bytes, "sketch.dxf", unit, Tolerances.House);

    /// <summary>The drawing of entities that must be read without an error.</summary>
    public static DrawingContent Drawing(string entities, string blocks = "", string header = "9 $INSUNITS 70 4")
    {
        Stage<DrawingContent> stage = Stage(entities, blocks, header);
        Assert.DoesNotContain(stage.Findings, f => f.Severity == Severity.Error);
        return stage.Value!;
    }

    public static DrawnLoop OneLoop(string entities, string blocks = "") =>
        Assert.Single(Drawing(entities, blocks).Loops);

    public static string Line(double x0, double y0, double x1, double y1, string layer = "0") =>
        FormattableString.Invariant($" 0 LINE 8 {layer} 10 {x0:R} 20 {y0:R} 11 {x1:R} 21 {y1:R}");

    public static string Circle(double x, double y, double r, string layer = "0") =>
        FormattableString.Invariant($" 0 CIRCLE 8 {layer} 10 {x:R} 20 {y:R} 40 {r:R}");

    public static string Rectangle(double x0, double y0, double x1, double y1, string layer = "0") =>
        Line(x0, y0, x1, y0, layer)
        + Line(x1, y0, x1, y1, layer)
        + Line(x1, y1, x0, y1, layer)
        + Line(x0, y1, x0, y0, layer);

    public static bool Has(this Stage<DrawingContent> stage, string code) => stage.Findings.Any(f => f.Code == code);

    public static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    // _ stands for a blank or, alone, for an empty line
    private static string Unquoted(string word) => word == "_" ? "" : word.Replace('_', ' ');
}
