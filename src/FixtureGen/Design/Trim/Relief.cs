using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Design.Block;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Trim;

/// <summary>
/// Where the block gives way to the trim cutter: everything the cutter sweeps, leads and ramps included, outset by the
/// side clearance (shell slack + run-out + path error). Its inner wall therefore stands that clearance inside the
/// finished edge and the cutter never touches the block. The outline's relief breaks out to the block's edge for chips.
/// </summary>
internal static class Relief
{
    private const double Sliver = 0.01;

    /// <summary>
    /// No relief is narrower than that of an eighth-inch cutter, mm: the block's own cutter must get down into it at a sensible size
    /// (common practice, no source).
    /// </summary>
    private const double Narrowest = 4.175;

    /// <summary>
    /// The outline's relief is widened to the next cutter of the block, which cuts it in one pass, up to so many times what it needs
    /// (common practice, no source).
    /// </summary>
    private const double WidestForOnePass = 1.3;

    /// <summary>A lead this short has no branch of its own in the relief's one pass, mm.</summary>
    private const double ShortLead = 0.2;

    /// <summary>The relief of the outline cut without its way out.</summary>
    /// <param name="trims">All cuts: the outline's corners are among them.</param>
    public static ImmutableArray<Region> Around(TrimCut outline, ImmutableArray<TrimCut> trims, Job job, Kernel kernel)
    {
        ImmutableArray<Region> swept = WithCorners(outline, trims, job, kernel);
        return kernel.UnionAll([.. swept, .. Fins(swept, outline.Edge, job, kernel)]);
    }

    /// <summary>
    /// What would stand thinner than a wall between two passes in the scrap, as in a slot little wider than two cuts, and
    /// break off: it is cleared too. Nothing under the part is.
    /// </summary>
    private static IEnumerable<Region> Fins(ImmutableArray<Region> swept, Contour edge, Job job, Kernel kernel)
    {
        ImmutableArray<Region> closed = kernel.Close(swept, job.Rules.Wall / 2);
        Region part = Region.From(Contours.Ccw(edge));
        return kernel
            .Difference(closed, kernel.UnionAll([.. swept, part]))
            .Where(f => kernel.Offset(f, -Sliver).Length > 0);
    }

    public static Stage<PocketFeature> Outline(
        TrimCut outline,
        ImmutableArray<Region> around,
        IReadOnlyList<Obstacle> obstacles,
        Box2 block,
        Levels levels,
        Job job,
        Kernel kernel
    )
    {
        BreakOut.Search search = WayOut(outline, Middle(outline, job, kernel), obstacles, block, job);
        if (BreakOut.Shortest(search) is not { } way)
        {
            return Stage.Failed<PocketFeature>(TrimFindings.NoBreakOut(search.Width, job.Rules.Wall));
        }
        ImmutableArray<Region> area = kernel.Union(around, kernel.Stroke(way, search.Width));
        double width = Width(outline, job);
        Contour middle = search.Line;
        return Stage.Answer(
            Pocket("relief", FeatureKind.Relief, area, levels) with
            {
                OnePass = new OnePass(width, Contours.Cw(middle), way, Branches(outline, middle, width, job)),
            }
        );
    }

    /// <summary>The channel is as wide as the relief itself, so that one cutter clears both.</summary>
    /// <param name="middle">Of the outline's relief: <see cref="Middle"/>.</param>
    public static BreakOut.Search WayOut(
        TrimCut outline,
        Contour middle,
        IReadOnlyList<Obstacle> obstacles,
        Box2 block,
        Job job
    ) => new(outline, middle, obstacles, block, Width(outline, job), job.Rules.Wall, job.Plate.PlacingTolerance);

    /// <summary>One pocket for each cutout that the trim cuts; a slug that is milled away leaves no island in it.</summary>
    public static ImmutableArray<PocketFeature> Cutouts(
        ImmutableArray<TrimCut> cuts,
        Levels levels,
        Job job,
        Kernel kernel
    ) =>
        [
            .. cuts.Where(c => c.Kind == TrimKind.Cutout)
                .Select(c =>
                    Pocket(
                        $"relief of {c.Name}",
                        FeatureKind.CutoutRelief,
                        WithoutThinIslands(c, cuts, job, kernel),
                        levels
                    )
                ),
        ];

    /// <summary>Room under a drilled hole for the drill's point and its chips, with the side clearance round the hole as drawn.</summary>
    public static IEnumerable<PocketFeature> Holes(IEnumerable<DrilledHole> holes, Levels levels, Job job) =>
        holes.Select(h =>
            Pocket(
                $"relief of {h.Name}",
                FeatureKind.CutoutRelief,
                [Region.From(Contours.Circle(h.At, (DrillChoice.Diameter(h.Edge) / 2) + job.Rules.SideClearance))],
                levels with
                {
                    ReliefFloor = Math.Min(levels.ReliefFloor, h.FloorZ - job.Rules.ReliefFloorBelowTip),
                }
            )
        );

    private static ImmutableArray<Region> WithoutThinIslands(
        TrimCut cut,
        ImmutableArray<TrimCut> cuts,
        Job job,
        Kernel kernel
    )
    {
        ImmutableArray<Region> swept = WithCorners(cut, cuts, job, kernel);
        return [.. swept.Select(r => new Region(r.Outer, [.. r.Holes.Where(h => Stands(h, cut, job, kernel))]))];
    }

    /// <summary>One relief for a cut and the corners of its edge.</summary>
    private static ImmutableArray<Region> WithCorners(TrimCut cut, ImmutableArray<TrimCut> cuts, Job job, Kernel kernel)
    {
        ImmutableArray<Region> own = Cleared(cut, job, kernel);
        Region[] corners =
        [
            .. cuts.Where(c => c.Kind == TrimKind.Corner && c.AtEdgeOf == cut.Name)
                .SelectMany(c => kernel.Offset(c.Sweep, job.Rules.SideClearance)),
        ];
        return corners.Length == 0 ? own : kernel.UnionAll([.. own, .. corners]);
    }

    private static bool Stands(Contour island, TrimCut cut, Job job, Kernel kernel) =>
        cut.Hold != SlugHold.MilledAway
        && kernel.Offset([Region.From(Contours.Ccw(island))], -job.Rules.Wall).Length > 0;

    /// <summary>The middle of the outline's relief: the trim path, or for a thin cutter a line farther out.</summary>
    public static Contour Middle(TrimCut outline, Job job, Kernel kernel)
    {
        double outward = (Width(outline, job) / 2) - job.Rules.SideClearance;
        return outward <= outline.Tool.Radius + 1e-9
            ? outline.Path
            : kernel.Offset(Region.From(Contours.Ccw(outline.Edge)), outward).MaxBy(r => Measure.Area(r))!.Outer;
    }

    /// <summary>How far outside the finished edge the outline's relief reaches, mm.</summary>
    public static double Outward(Job job) => Width(job.TrimTool, job) - job.Rules.SideClearance;

    private static double Width(TrimCut cut, Job job) =>
        cut.Kind == TrimKind.Outline ? Width(cut.Tool, job) : Needed(cut.Tool, job);

    /// <summary>By how much the outline's relief is narrower than one pass would make it, mm; 0 where it is not.</summary>
    public static double NarrowerBy(Job job) =>
        job.NarrowRelief ? Width(job.TrimTool, job with { NarrowRelief = false }) - Width(job.TrimTool, job) : 0;

    private static double Needed(Tool tool, Job job) =>
        Math.Max(Narrowest, tool.Diameter + (2 * job.Rules.SideClearance));

    /// <summary>As wide as it needs, and where there is room on to the width of the block's next cutter, so that one pass makes it.</summary>
    private static double Width(Tool tool, Job job)
    {
        double needed = Needed(tool, job);
        if (job.NarrowRelief)
        {
            return needed;
        }
        double depth = job.Rules.TipBelowShell + job.Rules.ReliefFloorBelowTip;
        return BlockMills
            .For(job)
            .Where(t =>
                t.Diameter >= needed - 1e-9 && t.Diameter <= WidestForOnePass * needed && t.FluteLength >= depth
            )
            .Select(t => t.Diameter)
            .DefaultIfEmpty(needed)
            .Min();
    }

    /// <summary>
    /// What the block's cutter follows where the trim cutter leads in and out: turns about the leads' own centres, tighter by as much as the
    /// relief's middle lies outside the trim path, so that they cover what the leads sweep.
    /// </summary>
    private static ImmutableArray<OpenPath> Branches(TrimCut outline, Contour middle, double width, Job job)
    {
        double shift = (width / 2) - job.Rules.SideClearance - outline.Tool.Radius;
        return
        [
            .. new[] { outline.LeadIn.Segments[^1].Reversed, outline.LeadOut.Segments[^1] }
                .Where(s =>
                    s.IsArc && s.Radius - shift > ShortLead && Measure.Distance(s.End, outline.Path) > ShortLead
                )
                .Select(s => Closer(s, shift))
                .Where(s => Measure.Distance(s.Start, middle) < 1e-3)
                .Select(s => new OpenPath([s])),
        ];
    }

    private static Segment Closer(Segment arc, double shift)
    {
        double share = (arc.Radius - shift) / arc.Radius;
        return Segment.Arc(
            arc.Centre + ((arc.Start - arc.Centre) * share),
            arc.Centre + ((arc.End - arc.Centre) * share),
            arc.Centre,
            arc.IsCcw
        );
    }

    /// <summary>The sweep with its clearance; of a thin cutter it is widened away from the part, so that nothing more is left without block.</summary>
    private static ImmutableArray<Region> Cleared(TrimCut cut, Job job, Kernel kernel)
    {
        double side = job.Rules.SideClearance;
        double width = Width(cut, job);
        ImmutableArray<Region> swept = kernel.Offset(kernel.UnionAll(cut.Sweep), side);
        if (width <= cut.Tool.Diameter + (2 * side))
        {
            return swept;
        }
        Region inside = Region.From(Contours.Ccw(cut.Edge));
        double outward = cut.Kind == TrimKind.Outline ? width - side : side;
        ImmutableArray<Region> band = kernel.Difference(
            kernel.Offset(inside, outward),
            kernel.Offset(inside, outward - width)
        );
        IEnumerable<OpenPath> branches =
            cut.Kind == TrimKind.Outline ? Branches(cut, Middle(cut, job, kernel), width, job) : [];
        return kernel.UnionAll([.. swept, .. band, .. branches.SelectMany(b => kernel.Stroke(b, width))]);
    }

    private static PocketFeature Pocket(string name, FeatureKind kind, ImmutableArray<Region> area, Levels levels) =>
        new()
        {
            Name = name,
            Kind = kind,
            Setup = Setup.Top,
            Area = area,
            TopZ = levels.Face,
            FloorZ = levels.ReliefFloor,
            Removals = [new(Setup.Top, kind, name, area, levels.Face, levels.ReliefFloor)],
        };
}
