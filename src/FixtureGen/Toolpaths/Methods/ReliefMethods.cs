using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Toolpaths.Moves;

namespace FixtureGen.Toolpaths.Methods;

/// <summary>
/// The ways to cut the outline's relief: in one pass along its lines by a cutter as wide as it is, with a smaller one for the corners that
/// this does not get into, or cleared like any pocket.
/// </summary>
internal static class ReliefMethods
{
    /// <summary>A cutter is of the relief's width within this, mm: each wall is off by at most half of it.</summary>
    private const double SameWidth = 0.02;

    /// <summary>What is no wider than this share of the cutter is taken at full depth at once, as a wall is finished (common practice, no source).</summary>
    private const double Sliver = 0.1;

    public static IEnumerable<Method> For(PocketFeature relief, Frame frame)
    {
        ImmutableArray<Removal> removals = Fit.RemovalsIn(relief, frame.Setup);
        if (relief.OnePass is { } lines && removals is [var only])
        {
            ImmutableArray<Tool> all = frame.Reaching(only.FloorZ, _ => true);
            foreach (Tool tool in all.Where(t => Math.Abs(t.Diameter - lines.Width) <= SameWidth))
            {
                ImmutableArray<Region> left = Left(relief, all[^1], frame);
                ToolCut channel = InOnePass(relief, lines, only, tool, frame);
                if (left.IsEmpty)
                {
                    yield return Method.Cut(relief, channel);
                    continue;
                }
                foreach (Tool second in all.Where(t => t.Diameter < tool.Diameter && Takes(t, left, only, frame)))
                {
                    yield return Method.Cut(relief, channel, Corners(relief, second, frame));
                }
            }
        }
        foreach (Method m in PocketMethods.For(relief, removals, frame))
        {
            yield return m;
        }
    }

    /// <summary>What the one pass leaves of what a tool gets into.</summary>
    public static ImmutableArray<Region> Left(PocketFeature relief, Tool tool, Frame frame)
    {
        Kernel kernel = frame.Kernel;
        Region loop = Region.From(Contours.Ccw(relief.OnePass!.Loop));
        double half = relief.OnePass.Width / 2;
        ImmutableArray<Region> cut =
        [
            .. kernel.Difference(kernel.Offset(loop, half), kernel.Offset(loop, -half)),
            .. relief.OnePass.Branches.Add(relief.OnePass.WayOut).SelectMany(r => kernel.Stroke(r, 2 * half)),
        ];
        ImmutableArray<Region> area = Fit.RemovalsIn(relief, frame.Setup)[0].Area;
        ImmutableArray<Region> wanted = [.. area.SelectMany(a => kernel.Open([a], tool.Radius))];
        return
        [
            .. kernel
                .Difference(wanted, kernel.UnionAll(cut))
                .Where(r => Measure.Area(r) > Rest.Thin * Rest.Thin && !kernel.Offset(r, -Rest.Thin / 2).IsEmpty),
        ];
    }

    /// <summary>The corners that the one pass leaves, by a smaller tool.</summary>
    public static ToolCut Corners(PocketFeature relief, Tool tool, Frame frame)
    {
        Removal removal = Fit.RemovalsIn(relief, frame.Setup)[0];
        double depth = removal.TopZ - removal.FloorZ;
        ImmutableArray<Region> left = Left(relief, tool, frame);
        CutData data = frame.Data(tool, tool.Diameter);
        bool slivers = left.All(r => frame.Kernel.Offset(r, -Sliver * tool.Diameter / 2).IsEmpty);
        data = slivers && tool.FluteLength >= depth ? data with { StepDown = depth } : data.Over(depth);
        double minutes = Passes.Count(depth, data.StepDown) * Measure.Area(left) / data.StepOver / data.Feed;
        return new ToolCut(
            tool,
            OperationKind.Profile,
            data,
            minutes,
            () =>
                [
                    .. removal.Area.SelectMany(a =>
                        Rest.Cut(
                            relief.Name,
                            a,
                            left,
                            tool,
                            data,
                            frame.Heights,
                            removal.TopZ,
                            removal.FloorZ,
                            frame.Kernel
                        )
                    ),
                ]
        );
    }

    private static bool Takes(Tool tool, ImmutableArray<Region> left, Removal removal, Frame frame)
    {
        ImmutableArray<Region> reached = [.. removal.Area.SelectMany(a => frame.Kernel.Open([a], tool.Radius))];
        return frame
            .Kernel.Difference(left, reached)
            .All(r => Measure.Area(r) <= Rest.Thin * Rest.Thin || frame.Kernel.Offset(r, -Rest.Thin / 2).IsEmpty);
    }

    private static ToolCut InOnePass(PocketFeature relief, OnePass lines, Removal removal, Tool tool, Frame frame)
    {
        double depth = removal.TopZ - removal.FloorZ;
        CutData data = frame.Data(tool, tool.Diameter).Over(depth);
        double way =
            Measure.Length(lines.Loop) + (2 * Measure.Length(lines.WayOut)) + (2 * lines.Branches.Sum(Measure.Length));
        return new ToolCut(
            tool,
            OperationKind.Groove,
            data,
            way * Passes.Count(depth, data.StepDown) / data.Feed,
            () => [Channel.Cut(relief.Name, lines, tool, data, frame.Heights, removal.TopZ, removal.FloorZ)]
        );
    }
}
