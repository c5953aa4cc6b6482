using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths;

/// <summary>Lettering is cut with the engraver whose cut is as wide as wanted at that depth, or the nearest to it.</summary>
internal static class EngravingMethods
{
    /// <summary>Chip load of a point as a share of its diameter at the face (common practice, no source).</summary>
    private const double PointShare = 0.45;

    public static IEnumerable<Method> For(EngravingFeature text, Frame frame)
    {
        Tool? tool = Nearest(frame.Job.Tools, text.Width, text.Depth);
        if (tool is null)
        {
            yield break;
        }
        CutData data = Data(tool, text.Width, frame.Job.BlockMaterial, frame.Job.Plate.Machine);
        double length = text.Strokes.Sum(s => s.Segments.Sum(x => x.Length));
        yield return Method.Of(
            text,
            new Cutting(
                tool,
                OperationKind.Engrave,
                data,
                length / data.Feed,
                () => [.. Engraving.Strokes(text.Name, text.Strokes, data, frame.Heights, text.TopZ, text.Depth)]
            )
        );
    }

    /// <summary>Width of a cut at a depth, mm: the flat and twice the cone's reach.</summary>
    public static double WidthAt(Tool engraver, double depth) =>
        engraver.TipDiameter + (2 * depth * Math.Tan(engraver.TipAngleDeg * Math.PI / 360));

    public static Tool? Nearest(ImmutableArray<Tool> tools, double width, double depth) =>
        tools.Where(t => t.Kind == ToolKind.Engraver).MinBy(t => Math.Abs(WidthAt(t, depth) - width));

    /// <summary>A point runs at the chip load of its own width, not of its shank's.</summary>
    public static CutData Data(Tool tool, double width, Material material, Machine machine)
    {
        CutData data = Feeds.For(
            tool with
            {
                Diameter = Math.Max(width, 0.1) / PointShare,
            },
            material,
            machine,
            width,
            0
        );
        return data with { StepDown = tool.ConeHeight, StepOver = width };
    }
}
