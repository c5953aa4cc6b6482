using System.Text;
using FixtureGen.Drawing;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Svg;

/// <summary>Small SVG documents of 200 x 100 mm, one user unit a mm where the frame is not given.</summary>
internal static class SvgSketch
{
    public const string Frame = "width=\"200mm\" height=\"100mm\" viewBox=\"0 0 200 100\"";

    public static string Text(string inside, string frame = Frame) =>
        $"<svg xmlns=\"http://www.w3.org/2000/svg\" {frame} fill=\"none\" stroke=\"black\">{inside}</svg>";

    public static Stage<DrawingContent> Stage(string document, LengthUnit? unit = null) =>
        DxfReader.Read(Encoding.UTF8.GetBytes(document), "sketch.svg", unit, Tolerances.House);

    /// <summary>The drawing of shapes that must be read without an error.</summary>
    public static DrawingContent Drawing(string inside, string frame = Frame)
    {
        Stage<DrawingContent> stage = Stage(Text(inside, frame));
        Assert.True(stage.Ok, string.Join('\n', stage.Findings));
        return stage.Value!;
    }

    public static DrawnLoop OneLoop(string inside) => Assert.Single(Drawing(inside).Loops);
}
