using System.Collections.Immutable;
using FixtureGen.Design.Block;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Trim;

/// <summary>
/// What a trim cut leaves in the inner corners and narrow bays of its edge, milled away by a thinner end mill of the rack before it: for
/// each corner that keeps too much a room in the scrap, bounded by the finished edge and a little wider than the thin cutter. Plate
/// frame, mm.
/// </summary>
internal static class CornerCuts
{
    /// <summary>How much wider than its cutter a room is, mm: the cutter overlaps what the first one takes (common practice, no source).</summary>
    private const double Beyond = 0.5;

    /// <summary>So near to a corner's worst point is what stands in it, mm.</summary>
    private const double Near = 0.2;

    /// <summary>
    /// The corners of a cut by the thickest cutter that leaves no more than is allowed, and the cut with its bridges beside them; no corners
    /// where none does.
    /// </summary>
    public static (ImmutableArray<TrimCut> Corners, TrimCut Cut) Plan(TrimCut cut, Job job, Kernel kernel)
    {
        foreach ((ImmutableArray<TrimCut> corners, double left) in Tried(cut, job, kernel))
        {
            if (left <= job.Rules.CornerLeft && TrimTabs.Beside(cut, corners) is { } beside)
            {
                return (corners, beside);
            }
        }
        return ([], cut);
    }

    /// <summary>The cutter that leaves least of a cut's corners and what that is, mm; null where none gets in.</summary>
    public static (Tool Tool, double Left)? Best(TrimCut cut, Job job, Kernel kernel)
    {
        (ImmutableArray<TrimCut> Cuts, double Left)[] tried = [.. Tried(cut, job, kernel)];
        if (tried.Length == 0)
        {
            return null;
        }
        (ImmutableArray<TrimCut> cuts, double left) = tried.MinBy(t => t.Left);
        return (cuts[0].Tool, left);
    }

    private static IEnumerable<(ImmutableArray<TrimCut> Cuts, double Left)> Tried(TrimCut cut, Job job, Kernel kernel)
    {
        Point2[] corners = [.. TrimReach.Refused(cut, job.Rules.CornerLeft)];
        foreach (Tool tool in SecondCutter.Candidates(job).Where(t => t.Diameter < cut.Tool.Diameter - 1e-9))
        {
            ImmutableArray<TrimCut> cuts = With(cut, corners, tool, job, kernel);
            if (!cuts.IsEmpty)
            {
                yield return (cuts, TrimReach.Worst(cut, cuts));
            }
        }
    }

    private static ImmutableArray<TrimCut> With(
        TrimCut cut,
        IReadOnlyList<Point2> corners,
        Tool tool,
        Job job,
        Kernel kernel
    )
    {
        var cuts = ImmutableArray.CreateBuilder<TrimCut>();
        foreach (Region room in Rooms(cut, corners, tool, kernel))
        {
            ImmutableArray<Region> inner = kernel.Offset(room, -tool.Radius);
            if (inner.Length != 1 || inner[0].Holes.Length > 0 || room.Holes.Length > 0)
            {
                return [];
            }
            TrimStart start = TrimLeads.AlongItself(inner[0].Outer);
            cuts.Add(
                new TrimCut
                {
                    Name = FormattableString.Invariant($"corner {cuts.Count + 1} of the {cut.Name}"),
                    Kind = TrimKind.Corner,
                    AtEdgeOf = cut.Name,
                    Edge = Contours.Reverse(room.Outer),
                    Path = start.Path,
                    LeadIn = start.In,
                    LeadOut = start.Out,
                    Clearing = TrimEdges.ClearingRings(room, tool, kernel),
                    Tabs = [],
                    Hold = SlugHold.MilledAway,
                    Tool = tool,
                    FloorZ = Levels.From(job).TrimTip,
                    Sweep = kernel.Offset(inner, tool.Radius),
                }
            );
        }
        return cuts.ToImmutable();
    }

    /// <summary>The scrap round each corner, as far as the cutter needs it; corners near each other share a room.</summary>
    private static IEnumerable<Region> Rooms(TrimCut cut, IReadOnlyList<Point2> corners, Tool tool, Kernel kernel)
    {
        Region inside = Region.From(Contours.Ccw(cut.Edge));
        bool outline = cut.Kind == TrimKind.Outline;
        double r = cut.Tool.Radius;
        ImmutableArray<Region> left = outline
            ? kernel.Difference(kernel.Close([inside], r), [inside])
            : kernel.Difference([inside], kernel.Offset(kernel.Offset(inside, -r), r));
        ImmutableArray<Region> standing =
        [
            .. left.Where(l => corners.Any(c => Inside.Contains(l, c) || Measure.Distance(c, l) < Near)),
        ];
        if (standing.IsEmpty)
        {
            return [];
        }
        ImmutableArray<Region> wide = kernel.Offset(standing, tool.Diameter + Beyond);
        ImmutableArray<Region> rooms = outline ? kernel.Difference(wide, [inside]) : kernel.Intersect(wide, [inside]);
        return rooms.Where(room => standing.Any(s => Inside.Contains(room, Middle(s, kernel))));
    }

    /// <summary>A point well inside of what stands: where discs grown in it vanish last.</summary>
    private static Point2 Middle(Region standing, Kernel kernel)
    {
        ImmutableArray<Region> now = [standing];
        for (double step = Math.Sqrt(Measure.Area(standing)) / 4; step > 1e-3; step /= 2)
        {
            ImmutableArray<Region> smaller = kernel.Offset(now, -step);
            now = smaller.IsEmpty ? now : smaller;
        }
        Region last = now.MaxBy(Measure.Area)!;
        Segment first = last.Outer.Segments[0];
        Point2 on = Measure.PointAt(first, 0.5);
        return on + (Measure.TangentAt(first, 0.5).Left * 1e-4);
    }
}
