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
        double rapid = RapidBound.Least(work, hop, clearance, frame.Setup);
        return new TimeBound(CutLeast(work, frame), rapid / frame.Job.Plate.Machine.RapidMmPerMin * 60, rapid);
    }

    private static double CutLeast(Work work, Frame frame)
    {
        CutData data = work.Cutting.Data;
        Tool tool = work.Cutting.Tool;
        double length = work.Cutting.Kind switch
        {
            OperationKind.Groove => work
                .Features.OfType<GrooveFeature>()
                .Sum(g =>
                    Passes.Count(g.TopZ - g.FloorZ, data.StepDown)
                    * (g.Loops.Sum(Measure.Length) + g.Runs.Sum(r => Measure.Length(r) - InTheOpen(r, g, tool, frame)))
                ),
            OperationKind.Engrave => work.Features.OfType<EngravingFeature>().Sum(e => e.Strokes.Sum(Measure.Length)),
            OperationKind.Drill => work
                .Features.OfType<HoleFeature>()
                .Sum(h => h.TopZ - h.FloorZ + tool.ConeHeight + Drilling.BreakThrough),
            OperationKind.Skim => frame.Block.Width * frame.Block.Height / data.StepOver,
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
