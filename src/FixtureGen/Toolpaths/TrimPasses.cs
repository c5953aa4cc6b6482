using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths;

/// <summary>
/// One trim cut in passes: down in the scrap, in along the lead, round, out along the lead. Below the bridges' height the tip
/// is lifted over each bridge by ramps. A slug to be milled away is cleared from its middle outward before the edge is cut.
/// </summary>
internal static class TrimPasses
{
    /// <summary>Slope up to a bridge, degrees (common practice, no source); down from it the tool's own limit counts.</summary>
    private const double RiseDeg = 30;

    public static Piece Piece(TrimCut cut, Job job, CutData data, Heights heights, Kernel kernel)
    {
        if (cut.Hold == SlugHold.MilledAway)
        {
            Region hole = Region.Of(Contours.Ccw(cut.Edge));
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
                cut.FloorZ,
                0,
                null,
                kernel
            );
            return cleared ?? throw new InvalidOperationException($"{cut.Name} is smaller than its cutter.");
        }
        double tabTop = job.Rules.FixtureHeight + job.Rules.TabThickness;
        return new Piece(
            cut.Name,
            [new Way(cut.LeadIn.Start, cut.LeadOut.End, pen => Cut(pen, cut, job, data, heights, tabTop))]
        );
    }

    private static void Cut(Pen pen, TrimCut cut, Job job, CutData data, Heights heights, double tabTop)
    {
        foreach (double z in Levels(heights.Face, job.Rules.FixtureHeight, cut.FloorZ, data.StepDown))
        {
            pen.Rapid(Point3.At(cut.LeadIn.Start, pen.At.Z));
            pen.RapidZ(Math.Min(pen.At.Z, heights.Face + Heights.HopGap));
            GoDown(pen, cut, data, z);
            pen.Follow(cut.LeadIn.Segments, z, data.Feed);
            Round(pen, cut, data, z, tabTop);
            pen.Follow(cut.LeadOut.Segments, z, data.Feed);
            pen.RapidZ(heights.Hop);
        }
    }

    /// <summary>Equal passes through the shell's thickness; the last goes on to the tip's height in the relief, where there is only air.</summary>
    private static IEnumerable<double> Levels(double shellTop, double underside, double floorZ, double stepDown)
    {
        double[] through = [.. Passes.Down(shellTop, underside, stepDown)];
        return through[..^1].Append(floorZ);
    }

    private static void GoDown(Pen pen, TrimCut cut, CutData data, double z)
    {
        if (cut.Tool.CentreCutting)
        {
            pen.LineZ(z, data.Plunge);
            return;
        }
        ImmutableArray<Segment> forth = cut.LeadIn.Segments;
        ImmutableArray<Segment> back = [.. Along.Reversed(forth)];
        double length = forth.Sum(s => s.Length);
        double from = pen.At.Z;
        int turns = Math.Max(
            1,
            (int)Math.Ceiling((from - z) / Math.Tan(data.MaxRampDeg * Math.PI / 180) / (2 * length))
        );
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
        double fall = (tabTop - z) / Math.Tan(data.MaxRampDeg * Math.PI / 180);
        double at = 0;
        foreach (Tab tab in cut.Tabs.OrderBy(t => t.At))
        {
            double half = (tab.Length + cut.Tool.Diameter) / 2;
            double up = Math.Max(at, tab.At - half - rise);
            double down = Math.Min(total, tab.At + half + fall);
            pen.Follow(Along.Open(loop, at, up), z, data.Feed);
            pen.Slope([.. Along.Open(loop, up, tab.At - half)], tabTop, data.Feed);
            pen.Follow(Along.Open(loop, tab.At - half, tab.At + half), tabTop, data.Feed);
            pen.Slope([.. Along.Open(loop, tab.At + half, down)], z, data.Feed);
            at = down;
        }
        pen.Follow(Along.Open(loop, at, total), z, data.Feed);
    }
}
