using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths.Moves;

/// <summary>
/// One trim cut in passes: down along the lead in the scrap, round, out along the lead, and to the next pass just above the shell. Below the bridges' height the tip
/// is lifted over each bridge by ramps. A slug to be milled away is cleared from its middle outward before the edge is cut.
/// </summary>
internal static class TrimPasses
{
    /// <summary>Slope up to a bridge, degrees (common practice, no source); down from it the tool's own limit counts.</summary>
    private const double RiseDeg = 30;

    /// <summary>Above the ground the ramp begins, mm.</summary>
    private const double AirGap = 0.1;

    public static Piece Piece(TrimCut cut, Job job, CutData data, Heights heights, Kernel kernel)
    {
        ImmutableArray<double> floors = Floors(cut, job, data, heights.Face);
        if (cut.Hold == SlugHold.MilledAway)
        {
            Region hole = Region.From(Contours.Ccw(cut.Edge));
            Piece? cleared = Clearing.Clear(
                cut.Name,
                hole,
                cut.Tool,
                data with
                {
                    StepOver = 0.4 * cut.Tool.Diameter,
                },
                heights,
                heights.Face,
                floors,
                0,
                Overlap.Length(cut.Tool.Radius, Measure.Length(cut.Path)),
                null,
                kernel
            );
            return cleared ?? throw new InvalidOperationException($"{cut.Name} is smaller than its cutter.");
        }
        double tabTop = job.Rules.FixtureHeight + job.Rules.TabThickness;
        // what stands in the scrap keeps a wall from both leads' reliefs, so nothing is between leads that are nearer to one another
        double mostLink = 2 * (cut.Tool.Radius + job.Rules.SideClearance + job.Rules.Wall);
        return new Piece(
            cut.Name,
            [new Way(cut.LeadIn.Start, cut.LeadOut.End, pen => Cut(pen, cut, data, floors, heights, tabTop, mostLink))]
        );
    }

    private static ImmutableArray<double> Floors(TrimCut cut, Job job, CutData data, double top)
    {
        double thickness = job.Shell.ThicknessMax;
        return [.. TrimFeeds.Depths(thickness, top - thickness - cut.FloorZ, data.StepDown).Select(d => top - d)];
    }

    private static void Cut(
        Pen pen,
        TrimCut cut,
        CutData data,
        ImmutableArray<double> floors,
        Heights heights,
        double tabTop,
        double mostLink
    )
    {
        double low = heights.Face + Heights.HopGap;
        // one low lift alone would look like a slip to who reads the program
        bool near = floors.Length > 2 && cut.LeadOut.End.DistanceTo(cut.LeadIn.Start) <= mostLink;
        double ground = heights.Face;
        foreach (double z in floors)
        {
            pen.Rapid(Point3.From(cut.LeadIn.Start, pen.At.Z));
            pen.RapidZ(Math.Min(pen.At.Z, low));
            pen.LineZ(ground + AirGap, data.Feed);
            GoDown(pen, cut, data, z);
            pen.Follow(cut.LeadIn.Segments, z, data.Feed);
            Round(pen, cut, data, z, tabTop);
            pen.Follow(cut.LeadOut.Segments, z, data.Feed);
            pen.RapidZ(near && z > floors[^1] ? low : heights.Hop);
            ground = z;
        }
    }

    /// <summary>Down in the scrap along the lead, forth and back, no steeper than the tool's limit; at z the tip is at the lead's beginning again.</summary>
    private static void GoDown(Pen pen, TrimCut cut, CutData data, double z)
    {
        ImmutableArray<Segment> forth = cut.LeadIn.Segments;
        ImmutableArray<Segment> back = [.. Along.Reversed(forth)];
        double length = forth.Sum(s => s.Length);
        double from = pen.At.Z;
        double ramp = (from - z) / Math.Tan(data.MaxRampDeg * Math.PI / 180);
        int turns = Math.Max(1, (int)Math.Ceiling(ramp / (2 * length)));
        for (int k = 0; k < turns; k++)
        {
            pen.Slope(forth, from + ((z - from) * ((2 * k) + 1) / (2 * turns)), data.Feed);
            pen.Slope(back, from + ((z - from) * ((2 * k) + 2) / (2 * turns)), data.Feed);
        }
    }

    /// <summary>Once round at z, the tip never below the bridges' top where a bridge is.</summary>
    private static void Round(Pen pen, TrimCut cut, CutData data, double z, double tabTop)
    {
        ImmutableArray<Segment> loop = cut.Path.Segments;
        double total = loop.Sum(s => s.Length);
        if (cut.Tabs.IsEmpty || z >= tabTop)
        {
            pen.Follow(loop, z, data.Feed);
            return;
        }
        double rise = (tabTop - z) / Math.Tan(RiseDeg * Math.PI / 180);
        double at = 0;
        ImmutableArray<(double From, double To)> bridges =
        [
            .. cut
                .Tabs.OrderBy(t => t.At)
                .Select(t => (t.At, Half: (t.Length + cut.Tool.Diameter) / 2))
                .Select(t => (t.At - t.Half, t.At + t.Half)),
        ];
        for (int k = 0; k < bridges.Length; k++)
        {
            (double from, double to) = bridges[k];
            double up = Math.Max(at, from - rise);
            pen.Follow(Along.Open(loop, at, up), z, data.Feed);
            pen.Slope([.. Along.Open(loop, up, from)], tabTop, data.Feed);
            pen.LineZ(tabTop, data.Feed);
            pen.Follow(Along.Open(loop, from, to), tabTop, data.Feed);
            at = Fall(pen, loop, to, k + 1 < bridges.Length ? bridges[k + 1].From : total, z, data);
        }
        pen.Follow(Along.Open(loop, at, total), z, data.Feed);
    }

    /// <summary>
    /// Down behind a bridge no steeper than the tool's limit: in one ramp where the cut has room before the next bridge, else
    /// to and fro as often as it takes, at each turn no deeper than a pass, back at the bridge when down. Returns where along the cut the
    /// tip then is.
    /// </summary>
    private static double Fall(
        Pen pen,
        ImmutableArray<Segment> loop,
        double from,
        double before,
        double z,
        CutData data
    )
    {
        double fall = (pen.At.Z - z) / Math.Tan(data.MaxRampDeg * Math.PI / 180);
        if (from + fall <= before)
        {
            pen.Slope([.. Along.Open(loop, from, from + fall)], z, data.Feed);
            return from + fall;
        }
        int byRoom = (int)Math.Ceiling(fall / (2 * (before - from)));
        int byDepth = (int)Math.Ceiling(((pen.At.Z - z) / data.StepDown) - 1e-9);
        int turns = Math.Max(1, Math.Max(byRoom, byDepth));
        ImmutableArray<Segment> forth = [.. Along.Open(loop, from, from + (fall / (2 * turns)))];
        ImmutableArray<Segment> back = [.. Along.Reversed(forth)];
        double top = pen.At.Z;
        for (int k = 1; k <= turns; k++)
        {
            pen.Slope(forth, top + ((z - top) * ((2 * k) - 1) / (2 * turns)), data.Feed);
            pen.Slope(back, top + ((z - top) * k / turns), data.Feed);
        }
        return from;
    }
}
