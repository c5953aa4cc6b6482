using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>Looks for what makes a region none.</summary>
internal static class RegionFaults
{
    /// <summary>
    /// Throws where a coordinate is not finite, a contour is open by more than the grid or runs the wrong way, an arc's radii
    /// differ or it ends where it starts, or a hole reaches beyond its outer contour's extents. One pass; overlaps are not
    /// looked for.
    /// </summary>
    /// <exception cref="RegionException">It does.</exception>
    public static void ThrowIfBroken(IReadOnlyList<Region> regions, Slack slack)
    {
        for (int i = 0; i < regions.Count; i++)
        {
            if (!IsSound(regions[i], slack) && Find(regions, slack) is { IsEmpty: false } faults)
            {
                throw new RegionException(faults);
            }
        }
    }

    /// <summary>The same for one chain, which may run either way.</summary>
    /// <exception cref="RegionException">It is broken.</exception>
    public static void ThrowIfBroken(ImmutableArray<Segment> chain, bool closed, Slack slack)
    {
        List<RegionFault> faults = [];
        Walk(chain, 0, 0, closed, slack, faults);
        if (faults.Count > 0)
        {
            throw new RegionException([.. faults]);
        }
    }

    /// <summary>Everything but overlaps.</summary>
    public static ImmutableArray<RegionFault> Find(IReadOnlyList<Region> regions, Slack slack)
    {
        List<RegionFault> faults = [];
        for (int i = 0; i < regions.Count; i++)
        {
            int k = 0;
            int before = faults.Count;
            foreach (Contour contour in regions[i].Contours)
            {
                int own = faults.Count;
                Walk(contour.Segments, i, k, closed: true, slack, faults);
                if (faults.Count == own && RunsWrong(contour, k > 0, slack))
                {
                    faults.Add(new(RegionFaultKind.WrongWay, i, k, -1, contour.Segments[0].Start, 0));
                }
                k++;
            }
            if (faults.Count == before)
            {
                FindOutside(regions[i], i, slack, faults);
            }
        }
        return [.. faults];
    }

    private static bool IsSound(Region region, Slack slack)
    {
        ContourLook outer = ContourLook.LookAt(region.Outer.Segments.AsSpan(), slack);
        bool sound = outer.IsWhole && (outer.TurnsLeft || !RunsWrong(region.Outer, hole: false, slack));
        foreach (Contour hole in region.Holes)
        {
            ContourLook look = ContourLook.LookAt(hole.Segments.AsSpan(), slack);
            sound =
                sound
                && look.IsWhole
                && (look.TurnsRight || !RunsWrong(hole, hole: true, slack))
                && (look.LiesWithin(outer, slack) || Reach(region.Outer, hole) <= slack.Grid);
        }
        return sound;
    }

    /// <summary>What encloses next to nothing runs neither way.</summary>
    private static bool RunsWrong(Contour contour, bool hole, Slack slack)
    {
        double area = Measure.Area(contour);
        return (hole ? area : -area) > slack.Thin * Measure.Length(contour);
    }

    private static void FindOutside(Region region, int index, Slack slack, List<RegionFault> faults)
    {
        for (int k = 0; k < region.Holes.Length; k++)
        {
            Contour hole = region.Holes[k];
            if (Reach(region.Outer, hole) is { } reach && reach > slack.Grid)
            {
                faults.Add(new(RegionFaultKind.HoleOutside, index, k + 1, -1, hole.Segments[0].Start, reach));
            }
        }
    }

    /// <summary>How far a hole's extents reach beyond the outer contour's, mm.</summary>
    private static double Reach(Contour outer, Contour hole)
    {
        if (hole.Segments.IsEmpty)
        {
            return 0;
        }
        if (outer.Segments.IsEmpty)
        {
            return double.PositiveInfinity;
        }
        Box2 o = Measure.Bounds(outer);
        Box2 h = Measure.Bounds(hole);
        return Math.Max(Math.Max(o.MinX - h.MinX, h.MaxX - o.MaxX), Math.Max(o.MinY - h.MinY, h.MaxY - o.MaxY));
    }

    private static void Walk(
        ImmutableArray<Segment> segments,
        int region,
        int contour,
        bool closed,
        Slack slack,
        List<RegionFault> faults
    )
    {
        for (int i = 0; i < segments.Length; i++)
        {
            Segment s = segments[i];
            double sum = s.Start.X + s.Start.Y + s.End.X + s.End.Y + s.Centre.X + s.Centre.Y;
            if (!double.IsFinite(sum))
            {
                faults.Add(new(RegionFaultKind.NotFinite, region, contour, i, s.Start, 0));
                continue;
            }
            if (i > 0 || closed)
            {
                double gap = s.Start.DistanceTo(segments[i == 0 ? segments.Length - 1 : i - 1].End);
                if (gap > slack.Grid)
                {
                    faults.Add(new(RegionFaultKind.Open, region, contour, i, s.Start, gap));
                }
            }
            if (s.IsArc && s.Start == s.End && s.Radius > slack.Touch)
            {
                faults.Add(new(RegionFaultKind.WholeTurn, region, contour, i, s.Start, 0));
            }
            double radii = s.IsArc ? Math.Abs(s.Start.DistanceTo(s.Centre) - s.End.DistanceTo(s.Centre)) : 0;
            if (radii > slack.Radii)
            {
                faults.Add(new(RegionFaultKind.RadiiDiffer, region, contour, i, s.Start, radii));
            }
        }
    }
}
