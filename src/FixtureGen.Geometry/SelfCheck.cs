using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Proves a result without looking at how it came about. Distance: samples of the result lie at the distance from the
/// source. Area: the swept band is no larger than Steiner's formula allows and no smaller than what the result's own curves
/// sweep. Along scan lines: every stretch is in the result exactly where the definition says so.
/// </summary>
internal sealed class SelfCheck(Slack slack)
{
    private const int MostSamples = 24;

    // Where the scan lines cross the box; odd fractions, so that drawings at round numbers have no vertex there.
    private static readonly double[] Fractions = [0.41421356, 0.61803399, 0.30901699];

    private readonly ScanLine scan = new();
    private readonly List<int> found = [];

    // Twice what the distance test lets through.
    private double Slop => 4 * slack.Slice;

    /// <summary>True when the loops are the source's parallel at <paramref name="distance"/> mm.</summary>
    public bool Proves(OffsetSource source, double distance, List<Loop> loops) =>
        DistanceHolds(source, distance, loops)
        && AreaHolds(source, distance, loops)
        && ScanHolds(source, distance, loops, alongY: false)
        && ScanHolds(source, distance, loops, alongY: true);

    /// <summary>True when the loops bound what is wanted of A and B; <paramref name="curves"/> indexes A's, then B's.</summary>
    public bool Proves(
        CurveIndex curves,
        ReadOnlySpan<Curve> all,
        int countA,
        Func<bool, bool, bool> wanted,
        List<Loop> loops
    ) =>
        curves.Count == 0
        || (
            ScanHolds(curves, all, countA, wanted, loops, alongY: false)
            && ScanHolds(curves, all, countA, wanted, loops, alongY: true)
        );

    private bool DistanceHolds(OffsetSource source, double distance, List<Loop> loops)
    {
        int total = 0;
        foreach (Loop loop in loops)
        {
            total += loop.Contour.Segments.Length;
        }
        int step = Math.Max(1, total / Math.Clamp(total / 4, 4, MostSamples));
        int skip = 0;
        foreach (Loop loop in loops)
        {
            for (; skip < loop.Contour.Segments.Length; skip += step)
            {
                Point2 p = Curve.Of(loop.Contour.Segments[skip]).Probe;
                double d = source.Index.Nearest(p, distance + (2 * Slop), out _);
                if (Math.Abs(d - distance) > Slop)
                {
                    return false;
                }
            }
            skip -= loop.Contour.Segments.Length;
        }
        return true;
    }

    private bool AreaHolds(OffsetSource source, double distance, List<Loop> loops)
    {
        LoopSums sums = default;
        foreach (Loop loop in loops)
        {
            sums += source.Reversed ? loop.Sums.Reversed : loop.Sums;
        }
        double band = source.Sums.Area - sums.Area;
        double slop = Slop * (1 + source.Sums.Length + sums.Length);
        double swept = (sums.Length * distance) + (sums.Sweeps * distance * distance / 2);
        int count = source.LoopStarts.Count - 1;
        double most = (source.Sums.Length * distance) + (count * Math.PI * distance * distance);
        return loops.Count == 0 ? band <= most + slop : band >= swept - slop && band <= most + slop;
    }

    private bool ScanHolds(OffsetSource source, double distance, List<Loop> loops, bool alongY)
    {
        if (source.Count == 0)
        {
            return loops.Count == 0;
        }
        Box2 box = source.Index.Bounds;
        foreach (double fraction in Fractions)
        {
            double at = BeginAcross(box, fraction, alongY, source.Index);
            foreach (int i in found)
            {
                scan.Add(source.Curves[i], 0);
            }
            AddLoops(loops, alongY, at);
            if (scan.Sort())
            {
                return EveryStretchAgrees(source, distance);
            }
        }
        // Each of three lines met a vertex: nothing was shown, so nothing is believed.
        return false;
    }

    private bool EveryStretchAgrees(OffsetSource source, double distance)
    {
        while (scan.MoveNext())
        {
            if (scan.Width < slack.Stub / 10)
            {
                continue;
            }
            int winding = source.Reversed ? -scan.Winding(0) : scan.Winding(0);
            double d = source.Index.Nearest(scan.Point, distance + Slop, out _);
            bool far = d > distance;
            if (Math.Abs(d - distance) < Slop && d < distance + Slop)
            {
                continue;
            }
            bool wanted = source.Reversed ? winding > 0 || !far : winding > 0 && far;
            if (scan.Winding(2) != (wanted ? 1 : 0))
            {
                return false;
            }
        }
        return true;
    }

    private bool ScanHolds(
        CurveIndex curves,
        ReadOnlySpan<Curve> all,
        int countA,
        Func<bool, bool, bool> wanted,
        List<Loop> loops,
        bool alongY
    )
    {
        foreach (double fraction in Fractions)
        {
            double at = BeginAcross(curves.Bounds, fraction, alongY, curves);
            foreach (int i in found)
            {
                scan.Add(all[i], i < countA ? 0 : 1);
            }
            AddLoops(loops, alongY, at);
            if (scan.Sort())
            {
                return EveryStretchAgrees(wanted);
            }
        }
        return false;
    }

    private bool EveryStretchAgrees(Func<bool, bool, bool> wanted)
    {
        while (scan.MoveNext())
        {
            bool inside = wanted(scan.Winding(0) > 0, scan.Winding(1) > 0);
            if (scan.Width > slack.Stub / 10 && scan.Winding(2) != (inside ? 1 : 0))
            {
                return false;
            }
        }
        return true;
    }

    private double BeginAcross(in Box2 box, double fraction, bool alongY, CurveIndex index)
    {
        double at = alongY ? box.MinX + (fraction * box.Width) : box.MinY + (fraction * box.Height);
        scan.Begin(alongY, at);
        found.Clear();
        index.Touching(
            alongY
                ? new(at, double.NegativeInfinity, at, double.PositiveInfinity)
                : new(double.NegativeInfinity, at, double.PositiveInfinity, at),
            found
        );
        return at;
    }

    private void AddLoops(List<Loop> loops, bool alongY, double at)
    {
        foreach (Loop loop in loops)
        {
            Box2 b = loop.Box;
            if (alongY ? b.MinX <= at && at <= b.MaxX : b.MinY <= at && at <= b.MaxY)
            {
                scan.Add(loop.Contour.Segments, 2);
            }
        }
    }
}
