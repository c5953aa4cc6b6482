using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Model;
using FixtureGen.Toolpaths.Moves;

namespace FixtureGen.Toolpaths.Methods;

/// <summary>Lettering is cut with the engraver whose cut is as wide as wanted at that depth, or the nearest to it.</summary>
internal static class EngravingMethods
{
    public static IEnumerable<Method> For(EngravingFeature text, Frame frame)
    {
        Tool? tool = Nearest(frame.Job.Tools, text.Width, text.Depth);
        if (tool is null)
        {
            yield break;
        }
        CutData data = EngraverFeeds.For(tool, text.Width, frame.Job.BlockMaterial, frame.Job.Plate.Machine);
        double length = text.Strokes.Sum(s => s.Segments.Sum(x => x.Length));
        yield return Method.Cut(
            text,
            new ToolCut(
                tool,
                OperationKind.Engrave,
                data,
                length / data.Feed,
                () => [.. Engraving.Strokes(text.Name, text.Strokes, data, frame.Heights, text.TopZ, text.Depth)]
            )
        );
    }

    public static Tool? Nearest(ImmutableArray<Tool> tools, double width, double depth) =>
        tools.Where(t => t.Kind == ToolKind.Engraver).MinBy(t => Math.Abs(EngraverFeeds.WidthAt(t, depth) - width));
}
