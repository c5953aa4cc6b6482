using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths.Methods;

/// <summary>
/// Corners cut as far as the smallest end mill of the whole setup gets into them: once that tool is in the changer for another
/// feature, a pocket made with a larger one is gone over in its corners too.
/// </summary>
internal static class SmallestTool
{
    public static ImmutableArray<Method> Complete(ImmutableArray<Method> chosen, Frame frame)
    {
        Tool? smallest = chosen
            .SelectMany(m => m.Cuttings)
            .Select(c => c.Tool)
            .Where(t => t.Kind == ToolKind.EndMill)
            .MinBy(t => t.Diameter);
        return smallest is null ? chosen : [.. chosen.Select(m => Complete(m, smallest, frame))];
    }

    private static Method Complete(Method method, Tool smallest, Frame frame)
    {
        ToolCut last = method.Cuttings[^1];
        if (method.Feature.Kind == FeatureKind.Plug)
        {
            return method;
        }
        if (method.Feature is PocketFeature { OnePass: not null } relief && last.Kind == OperationKind.Groove)
        {
            return last.Tool.Radius > smallest.Radius && !ReliefMethods.Left(relief, smallest, frame).IsEmpty
                ? method with
                {
                    Cuttings = method.Cuttings.Add(ReliefMethods.Corners(relief, smallest, frame)),
                }
                : method;
        }
        if (last.Kind is not (OperationKind.Clear or OperationKind.Profile) || last.Tool.Radius <= smallest.Radius)
        {
            return method;
        }
        ImmutableArray<Removal> removals = Fit.RemovalsIn(method.Feature, frame.Setup);
        ImmutableArray<Region> left = PocketMethods.Left(
            [.. removals.SelectMany(r => r.Area)],
            last.Tool.Radius,
            smallest.Radius,
            frame.Kernel
        );
        if (left.IsEmpty || frame.Reaching(removals.Min(r => r.FloorZ), t => t == smallest).IsEmpty)
        {
            return method;
        }
        return method with
        {
            Cuttings = method.Cuttings.Add(PocketMethods.Again(method.Feature, removals, last.Tool, smallest, frame)),
        };
    }
}
