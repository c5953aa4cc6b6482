using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Model;
using FixtureGen.Toolpaths.Moves;

namespace FixtureGen.Toolpaths.Methods;

/// <summary>
/// The ways to make a hole: a drill of its size where the point may pass through; a smaller drill and an end mill that goes
/// down in its hole and takes the rest; a helix of an end mill between half the hole and a little less than it, else clearing.
/// A hole through over a relief is cut a little past the plate's face.
/// </summary>
internal static class HoleMethods
{
    /// <summary>A drill is of the hole's size within this, mm on diameter.</summary>
    private const double SameSize = 0.02;

    /// <summary>A first drill leaves at least this on the wall: it wanders and cuts a little large, mm (common practice, no source).</summary>
    private const double LeastWall = 0.1;

    /// <summary>An end mill is at least this much thinner than the drilled hole that it goes down in, mm (common practice, no source).</summary>
    private const double LeastPlay = 0.15;

    /// <summary>A drill's point stays this far above the floor of a blind hole, mm.</summary>
    private const double AboveFloor = 0.05;

    /// <summary>An end mill goes this far below the block over a relief, mm.</summary>
    private const double Below = 0.3;

    /// <summary>What a relief must be wider all round and deeper than the tool that enters it, mm.</summary>
    private const double ReliefGap = 0.5;

    public static IEnumerable<Method> For(HoleFeature hole, Frame frame)
    {
        double floor = hole.FloorZ <= 0 && hole.BreaksThrough ? hole.FloorZ - Below : hole.FloorZ;
        ImmutableArray<Tool> turning = hole.SlotLength > 0 ? [] : RoundMethods.Turning(hole.Diameter, floor, frame);
        foreach (Tool drill in Drills(hole, frame).Where(d => IsOfSize(d, hole)))
        {
            yield return Method.Cut(hole, Drill(hole, drill, frame));
        }
        foreach (Method predrilled in Predrilled(hole, floor, frame))
        {
            yield return predrilled;
        }
        foreach (Method predrilled in DrilledToTheCone(hole, frame))
        {
            yield return predrilled;
        }
        foreach (Tool tool in turning)
        {
            yield return Method.Cut(
                hole,
                RoundMethods.Helix(hole, hole.At, hole.Diameter, hole.TopZ, floor, tool, frame)
            );
        }
        if (turning.IsEmpty || !hole.BreaksThrough)
        {
            ImmutableArray<Removal> removals = Fit.RemovalsIn(hole, frame.Setup);
            double widest = hole.Diameter / (turning.IsEmpty ? Bore.Least : Bore.Greatest);
            foreach (Method m in PocketMethods.For(hole, removals, widest, frame))
            {
                yield return m;
            }
        }
    }

    /// <summary>
    /// A drill first, as large as leaves the wall to the end mill, then the largest end mill that goes down in its hole. Where
    /// the wall does not reach the drill's hole all round, what lies between is a slot for the mill, as in a long slot.
    /// </summary>
    private static IEnumerable<Method> Predrilled(HoleFeature hole, double floor, Frame frame)
    {
        foreach (Tool drill in Drills(hole, frame).Where(d => d.Diameter <= hole.Diameter - (2 * LeastWall)))
        {
            ImmutableArray<Tool> mills = frame.Reaching(
                floor,
                t => t.Diameter <= drill.Diameter - LeastPlay && t.Diameter >= (hole.Diameter - drill.Diameter) / 2
            );
            if (!mills.IsEmpty)
            {
                yield return Method.Cut(
                    hole,
                    Drill(hole, drill, frame),
                    Walls.Cutting(hole, floor, floor, mills[0], frame)
                );
            }
        }
    }

    /// <summary>
    /// A blind round hole drilled until the point is just above its floor; then the largest end mill that goes down in the drilled hole
    /// takes the wall, and by a helix what the cone left.
    /// </summary>
    private static IEnumerable<Method> DrilledToTheCone(HoleFeature hole, Frame frame)
    {
        if (hole.BreaksThrough || hole.SlotLength > 0 || frame.Job.BlockMaterial.Drilling is null)
        {
            yield break;
        }
        foreach (
            Tool drill in frame.Job.Tools.Where(t =>
                t.Kind == ToolKind.Drill
                && t.Diameter <= hole.Diameter - (2 * LeastWall)
                && t.FluteLength >= hole.TopZ - hole.FloorZ
            )
        )
        {
            double bottom = hole.FloorZ + AboveFloor;
            double open = bottom + drill.ConeHeight;
            ImmutableArray<Tool> mills = frame.Reaching(
                hole.FloorZ,
                t =>
                    t.Diameter <= drill.Diameter - LeastPlay
                    && hole.Diameter >= Bore.Least * t.Diameter
                    && hole.Diameter <= Bore.Greatest * t.Diameter
            );
            if (!mills.IsEmpty && hole.TopZ - open > drill.Diameter)
            {
                yield return Method.Cut(
                    hole,
                    Drill(hole, drill, frame, bottom),
                    Walls.Cutting(hole, hole.FloorZ, open, mills[0], frame)
                );
            }
        }
    }

    /// <summary>A drill leaves a cone: it may only be used where the whole point passes into a relief.</summary>
    private static IEnumerable<Tool> Drills(HoleFeature hole, Frame frame) =>
        hole is { BreaksThrough: true, Opening: { } opening } && frame.Job.BlockMaterial.Drilling is not null
            ? frame.Job.Tools.Where(t =>
                t.Kind == ToolKind.Drill
                && opening.ReliefDiameter >= t.Diameter + (2 * ReliefGap)
                && opening.ReliefDepth >= t.ConeHeight + Drilling.BreakThrough + ReliefGap
                && t.FluteLength >= hole.TopZ - hole.FloorZ + t.ConeHeight
            )
            : [];

    private static bool IsOfSize(Tool drill, HoleFeature hole) =>
        hole.SlotLength <= 0 && Math.Abs(drill.Diameter - hole.Diameter) <= SameSize;

    private static ToolCut Drill(HoleFeature hole, Tool drill, Frame frame) =>
        Drill(hole, drill, frame, hole.FloorZ - drill.ConeHeight - Drilling.BreakThrough);

    private static ToolCut Drill(HoleFeature hole, Tool drill, Frame frame, double bottom)
    {
        CutData chart = DrillFeeds.For(
            drill,
            frame.Job.BlockMaterial,
            frame.Job.Plate.Machine,
            hole.TopZ - hole.FloorZ
        )!;
        CutData data = frame.Eased(chart, drill);
        return new ToolCut(
            drill,
            OperationKind.Drill,
            data,
            (hole.TopZ - hole.FloorZ) / data.Feed,
            () => [Drilling.Hole(hole.Name, hole.At, drill, data, frame.Heights, hole.TopZ, bottom)]
        );
    }
}
