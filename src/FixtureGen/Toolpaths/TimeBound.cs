using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Holding;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths;

/// <summary>
/// What no planner could beat for one operation with its tool, feed and steps: Cut is the volume wanted at the tool's best (a slot's)
/// rate of removal, or the length of centre line at feed where that is more; Rapid the shortest tree that joins the pieces
/// and the way down and up of each. Seconds and mm, without accelerations. Padding the moves does not change it.
/// </summary>
internal sealed record TimeBound(double CutSeconds, double RapidSeconds, double RapidMm)
{
    public double Seconds => CutSeconds + RapidSeconds;

    public static TimeBound Of(Work work, double hop, double clearance, Frame frame)
    {
        double rapid = RapidLeast(work, hop, clearance);
        return new TimeBound(CutLeast(work, frame), rapid / frame.Job.Plate.Machine.RapidMmPerMin * 60, rapid);
    }

    private static double CutLeast(Work work, Frame frame)
    {
        CutData data = work.Cutting.Data;
        Tool tool = work.Cutting.Tool;
        double feed = data.Feed / 60;
        return work.Cutting.Kind switch
        {
            OperationKind.Groove => work
                .Features.OfType<GrooveFeature>()
                .Sum(g =>
                    Passes.Down(g.TopZ, g.FloorZ, data.StepDown).Count()
                    * (g.Loops.Sum(Measure.Length) + g.Runs.Sum(Measure.Length))
                    / feed
                ),
            OperationKind.Engrave => work.Features.OfType<EngravingFeature>().Sum(e => e.Strokes.Sum(Measure.Length))
                / feed,
            OperationKind.Drill => work.Features.OfType<HoleFeature>().Sum(h => (h.TopZ - h.FloorZ) / feed),
            OperationKind.Skim => frame.Block.Width * frame.Block.Height / data.StepOver / feed,
            OperationKind.Bore => work.Features.Sum(f => BoreLeast(f, tool, data, frame) / feed),
            OperationKind.Profile => 0,
            _ => work.Features.SelectMany(f => Fit.Of(f, frame.Setup))
                .Sum(r => Measure.Area(r.Area) * (r.TopZ - r.FloorZ)) / (data.StepDown * tool.Diameter * feed),
        };
    }

    /// <summary>The helix at its steepest and one flat turn.</summary>
    private static double BoreLeast(Feature feature, Tool tool, CutData data, Frame frame)
    {
        Removal hole = Fit.Of(feature, frame.Setup)[^1];
        double turn = Math.PI * (RoundMethods.Circle(hole.Area[0])!.Value.Diameter - tool.Diameter);
        double pitch = Math.Min(data.StepDown, turn * Math.Tan(data.MaxRampDeg * Math.PI / 180));
        return turn * (1 + ((hole.TopZ - hole.FloorZ) / pitch));
    }

    /// <summary>A least spanning tree over the pieces, nearest ends counted, and for each piece its retract; down to the hop and up from it once.</summary>
    private static double RapidLeast(Work work, double hop, double clearance)
    {
        ImmutableArray<Piece> pieces = work.Pieces;
        double[] nearest = [.. Enumerable.Repeat(double.PositiveInfinity, pieces.Length)];
        bool[] joined = new bool[pieces.Length];
        double tree = 0;
        int at = 0;
        for (int k = 0; k < pieces.Length; k++)
        {
            joined[at] = true;
            tree += k == 0 ? 0 : nearest[at];
            int next = -1;
            for (int p = 0; p < pieces.Length; p++)
            {
                if (!joined[p])
                {
                    nearest[p] = Math.Min(nearest[p], Between(pieces[at], pieces[p]));
                    next = next < 0 || nearest[p] < nearest[next] ? p : next;
                }
            }
            at = next;
        }
        double floor = work.Features.Length == 0 ? hop : Floor(work);
        double up = work.Cutting.Kind == OperationKind.Drill ? 0 : pieces.Length * (hop - floor);
        return tree + up + (2 * (clearance - hop));
    }

    private static double Floor(Work work) => work.Features.SelectMany(f => f.Removals).Max(r => r.FloorZ);

    private static double Between(Piece a, Piece b) =>
        Math.Min(
            a.Ways.Min(x => b.Ways.Min(y => x.End.DistanceTo(y.Start))),
            a.Ways.Min(x => b.Ways.Min(y => y.End.DistanceTo(x.Start)))
        );
}
