using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Toolpaths.Methods;
using FixtureGen.Toolpaths.Moves;
using FixtureGen.Toolpaths.Routes;

namespace FixtureGen.Tests.Toolpaths;

/// <summary>
/// What no planner could beat for one operation with its tool, feed and step-down, from the design's own removals and no path,
/// so that padding moves or pieces does not change it. Cutting is the largest of three: the volume at the tool's greatest rate
/// of removal (a slot), the way down into solid ground at the tool's steepest ramp, the walls once round at feed; grooves,
/// strokes and drilled holes by their length at feed. Rapids: the shortest tree that joins the separate removals, and the way
/// up from each. Seconds and mm, without accelerations and tool changes.
/// </summary>
internal sealed record TimeBound(double CutSeconds, double RapidSeconds, double RapidMm)
{
    public double Seconds => CutSeconds + RapidSeconds;

    public static TimeBound Of(Work work, double hop, double clearance, Frame frame)
    {
        double rapid = RapidBound.Least(work, hop, clearance, frame.Setup) + Back(work, frame);
        return new TimeBound(CutLeast(work, frame), rapid / frame.Job.Plate.Machine.RapidMmPerMin * 60, rapid);
    }

    /// <summary>
    /// A face mill comes to every level from beside the block, and with the climb a level ends in its middle: what is skimmed in so many
    /// levels has the way back out between them, half the block's lesser side, mm. (End mills, which this bound was made for, took one.)
    /// </summary>
    private static double Back(Work work, Frame frame) =>
        work.Cutting is { Kind: OperationKind.Skim, Tool.Kind: ToolKind.FaceMill }
            ? (Levels(work, frame) - 1) * Math.Min(frame.Block.Width, frame.Block.Height) / 2
            : 0;

    private static int Levels(Work work, Frame frame) =>
        Passes.Count(
            frame.Job.BlankThickest - work.Features.OfType<PocketFeature>().Single().FloorZ,
            work.Cutting.Data.StepDown
        );

    private static double CutLeast(Work work, Frame frame)
    {
        CutData data = work.Cutting.Data;
        Tool tool = work.Cutting.Tool;
        double length = work.Cutting.Kind switch
        {
            OperationKind.Groove when work.Features.All(f => f is GrooveFeature) => work
                .Features.OfType<GrooveFeature>()
                .Sum(g =>
                    Passes.Count(g.TopZ - g.FloorZ, data.StepDown)
                    * (g.Loops.Sum(Measure.Length) + g.Runs.Sum(r => Measure.Length(r) - InTheOpen(r, g, tool, frame)))
                ),
            OperationKind.Engrave => work.Features.OfType<EngravingFeature>().Sum(e => e.Strokes.Sum(Measure.Length)),
            OperationKind.Drill => work
                .Features.OfType<HoleFeature>()
                .Sum(h => h.TopZ - h.FloorZ + tool.ConeHeight + Drilling.BreakThrough),
            OperationKind.Skim => Levels(work, frame) * frame.Block.Width * frame.Block.Height / data.StepOver,
            OperationKind.Profile => 0,
            _ => work
                .Features.SelectMany(f => Fit.RemovalsIn(f, frame.Setup))
                .Sum(r => r.Area.Sum(a => Milled(a, r.TopZ - r.FloorZ, work, frame))),
        };
        return length / (data.Feed / 60);
    }

    /// <summary>What of a run lies in ground that is cut before, mm: no tool need go along it.</summary>
    private static double InTheOpen(OpenPath run, GrooveFeature groove, Tool tool, Frame frame) =>
        NotchStart.InTheOpen(run, groove, tool, frame, 0) ?? 0;

    /// <summary>Way of the tool's centre, mm, in one region of some depth; a wall that was drilled before has neither core nor ramp.</summary>
    private static double Milled(Region area, double depth, Work work, Frame frame)
    {
        CutData data = work.Cutting.Data;
        Tool tool = work.Cutting.Tool;
        ImmutableArray<Region> centres = frame.Kernel.Offset(area, -tool.Radius);
        double walls = centres.Sum(c => c.Contours.Sum(Measure.Length));
        if (work is { IsSecond: true, Cutting.Kind: OperationKind.Bore })
        {
            return walls * Passes.Count(depth, data.StepDown);
        }
        Material material = frame.Job.BlockMaterial;
        double deepest = work.Cutting.Kind == OperationKind.Bore ? Feeds.StepDown(tool, material) : data.StepDown;
        double volume = Measure.Area(area) * depth / (deepest * tool.Diameter);
        double steepest = Math.Min(tool.MaxRampDeg > 0 ? tool.MaxRampDeg : 90, material.MaxRampDeg);
        double down = frame.OpenEdge(area) is null ? depth / Math.Sin(steepest * Math.PI / 180) : depth;
        return Math.Max(volume, down + walls);
    }
}
