using System.Collections.Immutable;
using FixtureGen.Holding;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths;

/// <summary>
/// The ways to make a hole: a drill of its size where the point may pass through, a helix of an end mill between half the
/// hole and a little less than it, else clearing. A hole through over a relief is cut a little past the plate's face.
/// </summary>
internal static class HoleMethods
{
    /// <summary>A drill is of the hole's size within this, mm on diameter.</summary>
    private const double SameSize = 0.02;

    /// <summary>An end mill goes this far below the block over a relief, mm.</summary>
    private const double Below = 0.3;

    /// <summary>What a relief must be wider all round and deeper than the tool that enters it, mm.</summary>
    private const double ReliefGap = 0.5;

    public static IEnumerable<Method> For(HoleFeature hole, Frame frame)
    {
        double floor = hole.FloorZ <= 0 && hole.BreaksThrough ? hole.FloorZ - Below : hole.FloorZ;
        ImmutableArray<Tool> turning = hole.SlotLength > 0 ? [] : RoundMethods.Turning(hole.Diameter, floor, frame);
        foreach (Tool drill in frame.Job.Tools.Where(t => t.Kind == ToolKind.Drill && Drills(t, hole)))
        {
            yield return Method.Of(hole, Drill(hole, drill, frame));
        }
        foreach (Tool tool in turning)
        {
            yield return Method.Of(
                hole,
                RoundMethods.Helix(hole, hole.At, hole.Diameter, hole.TopZ, floor, tool, frame)
            );
        }
        if (turning.IsEmpty)
        {
            ImmutableArray<Removal> removals = Fit.Of(hole, frame.Setup);
            foreach (Method m in PocketMethods.For(hole, removals, hole.Diameter / Bore.Least, frame))
            {
                yield return m;
            }
        }
    }

    /// <summary>A drill leaves a cone: it may only be used where the whole point passes into a relief.</summary>
    private static bool Drills(Tool drill, HoleFeature hole) =>
        hole.SlotLength <= 0
        && Math.Abs(drill.Diameter - hole.Diameter) <= SameSize
        && hole is { BreaksThrough: true, Opening: { } opening }
        && opening.ReliefDiameter >= drill.Diameter + (2 * ReliefGap)
        && opening.ReliefDepth >= drill.ConeHeight + Drilling.BreakThrough + ReliefGap
        && drill.FluteLength >= hole.TopZ - hole.FloorZ + drill.ConeHeight;

    private static Cutting Drill(HoleFeature hole, Tool drill, Frame frame)
    {
        CutData data = frame.Eased(Feeds.ForDrill(drill, frame.Job.BlockMaterial, frame.Job.Plate.Machine), drill);
        return new Cutting(
            drill,
            OperationKind.Drill,
            data,
            (hole.TopZ - hole.FloorZ) / data.Feed,
            () => [Drilling.Hole(hole.Name, hole.At, drill, data, frame.Heights, hole.TopZ, hole.FloorZ)]
        );
    }
}
