using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Toolpaths.Moves;

namespace FixtureGen.Toolpaths.Methods;

/// <summary>The ways to clear an area: one end mill that leaves nothing, or a larger one and a smaller for what it leaves.</summary>
internal static class PocketMethods
{
    /// <summary>A first tool must clear at least this share, or the second may do it all.</summary>
    private const double WorthIt = 0.5;

    /// <summary>A round pocket is bored by tools that turn in it and cleared by smaller ones, any other cleared.</summary>
    public static IEnumerable<Method> For(Feature feature, ImmutableArray<Removal> removals, Frame frame)
    {
        if (removals is [{ Area: [var only] } r] && RoundMethods.Circle(only) is { } circle)
        {
            ImmutableArray<Tool> turning = RoundMethods.Turning(circle.Diameter, r.FloorZ, frame);
            if (!turning.IsEmpty)
            {
                return turning
                    .Select(t =>
                        Method.Cut(
                            feature,
                            RoundMethods.Helix(feature, circle.Centre, circle.Diameter, r.TopZ, r.FloorZ, t, frame)
                        )
                    )
                    .Concat(For(feature, removals, circle.Diameter / Bore.Greatest, frame));
            }
        }
        return For(feature, removals, double.PositiveInfinity, frame);
    }

    /// <summary>With end mills up to a diameter.</summary>
    public static IEnumerable<Method> For(Feature feature, ImmutableArray<Removal> removals, double widest, Frame frame)
    {
        double floor = removals.Min(r => r.FloorZ);
        ImmutableArray<Tool> tools = frame.Reaching(floor, t => t.Diameter <= widest);
        ImmutableArray<Region> areas = [.. removals.SelectMany(r => r.Area)];
        ImmutableArray<Tool> roomy = [.. tools.Where(t => HasRoom(t, areas, frame.Kernel))];
        tools = roomy.IsEmpty ? tools : roomy;
        double least = tools.IsEmpty ? 0 : tools[^1].Radius;
        foreach (Tool tool in tools)
        {
            ImmutableArray<Region> left = Left(areas, tool.Radius, least, frame.Kernel);
            ToolCut first = Clear(feature, removals, tool, frame);
            if (left.IsEmpty)
            {
                yield return Method.Cut(feature, first);
                continue;
            }
            if (Measure.Area(left) > WorthIt * Measure.Area(areas))
            {
                continue;
            }
            foreach (Tool second in tools.Where(t => t.Radius < tool.Radius))
            {
                if (second.Radius <= least || Left(areas, second.Radius, least, frame.Kernel).IsEmpty)
                {
                    yield return Method.Cut(feature, first, Again(feature, removals, tool, second, frame));
                }
            }
        }
    }

    /// <summary>False where the tool nearly fills a pocket, so that it would ramp down on the spot.</summary>
    private static bool HasRoom(Tool tool, ImmutableArray<Region> areas, Kernel kernel) =>
        areas.All(a => kernel.Offset(a, -tool.Radius).All(r => Measure.Length(r.Outer) > tool.Diameter));

    /// <summary>The second tool's share: what the first left of each area.</summary>
    public static ToolCut Again(Feature feature, ImmutableArray<Removal> removals, Tool first, Tool second, Frame frame)
    {
        CutData data = frame.Data(second, second.Diameter).Over(removals.Max(r => r.TopZ - r.FloorZ));
        double area = removals.Sum(r => Measure.Area(Left(r.Area, first.Radius, second.Radius, frame.Kernel)));
        double depth = removals.Max(r => r.TopZ - r.FloorZ);
        return new ToolCut(
            second,
            OperationKind.Profile,
            data,
            Estimate(area, 0, 0, depth, data),
            () =>
                [
                    .. removals.SelectMany(r =>
                        r.Area.SelectMany(a =>
                            Rest.Cut(
                                feature.Name,
                                a,
                                Rest.Left(a, first.Radius, second.Radius, frame.Kernel),
                                second,
                                data,
                                frame.Heights,
                                r.TopZ,
                                r.FloorZ,
                                frame.Kernel
                            )
                        )
                    ),
                ]
        );
    }

    private static ToolCut Clear(Feature feature, ImmutableArray<Removal> removals, Tool tool, Frame frame)
    {
        CutData data = frame
            .Data(tool, frame.Data(tool, tool.Diameter).StepOver)
            .Over(removals.Max(r => r.TopZ - r.FloorZ));
        double deep = frame.Heights.Face - removals.Min(r => r.FloorZ);
        double allowance = RoundMethods.Allowance(feature.Kind, tool, deep);
        double minutes = removals.Sum(r =>
        {
            ImmutableArray<Region> centres = frame.Kernel.Offset(r.Area, -tool.Radius);
            double walls = centres.Sum(c => c.Contours.Sum(Measure.Length));
            return Estimate(Measure.Area(centres), walls, centres.Length, r.TopZ - r.FloorZ, data);
        });
        return new ToolCut(
            tool,
            OperationKind.Clear,
            data,
            minutes,
            () =>
                [
                    .. removals.SelectMany(r =>
                        r.Area.SelectMany(a => OpenEdge.Extend(a, frame.Block, tool.Diameter + 1, frame.Kernel))
                            .Select(a =>
                                Clearing.Clear(
                                    feature.Name,
                                    a,
                                    tool,
                                    data,
                                    frame.Heights,
                                    r.TopZ,
                                    [.. Passes.Down(r.TopZ, r.FloorZ, data.StepDown)],
                                    allowance,
                                    0,
                                    frame.OpenEdge(a),
                                    frame.Kernel
                                )
                            )
                            .OfType<Piece>()
                    ),
                ]
        );
    }

    public static ImmutableArray<Region> Left(
        ImmutableArray<Region> areas,
        double larger,
        double smallest,
        Kernel kernel
    ) => [.. areas.SelectMany(a => Rest.Left(a, larger, smallest, kernel))];

    /// <summary>
    /// Minutes of the rings that a tool's centre runs: a step apart over its area, the outermost along its walls, and a ramp
    /// down to each pass of each piece.
    /// </summary>
    private static double Estimate(double area, double walls, int pieces, double depth, CutData data)
    {
        int passes = Passes.Count(depth, data.StepDown);
        double ramps = pieces * depth / Math.Tan(data.MaxRampDeg * Math.PI / 180);
        return ((passes * ((area / data.StepOver) + (walls / 2))) + ramps) / data.Feed;
    }
}
