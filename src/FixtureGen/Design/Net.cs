using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design;

/// <summary>
/// The shallow grooves that carry the vacuum from the port to all of a zone: a ring along the zone's edge, a line through
/// the port, and as many further lines as leave no point farther from a groove than the stated reach.
/// </summary>
internal static class Net
{
    /// <summary>Holes are further ports that the net of a zone cut in two by magnets needed.</summary>
    public sealed record Laid(GrooveFeature Groove, ImmutableArray<Feature> Holes, ImmutableArray<VacuumLink> Links);

    public static Stage<ImmutableArray<Laid>> Lay(
        IReadOnlyList<SealedZone> zones,
        IReadOnlyList<Region> pockets,
        Levels levels,
        Job job,
        Kernel kernel
    )
    {
        if (NetWidth.Choose(job) is not { } cutter)
        {
            return Stage.Failed<ImmutableArray<Laid>>(NetFindings.NoNetTool());
        }
        List<Finding> findings = [.. NetWidth.Check(cutter, job)];
        List<Laid> nets = [];
        foreach (SealedZone zone in zones)
        {
            if (BestLaying(zone, pockets, cutter, job, kernel) is not { } laid)
            {
                findings.Add(NetFindings.PortBlocked(zone.Index + 1, zone.PortAt));
                continue;
            }
            (NetLines lines, ImmutableArray<Region> room, double fromPockets) = laid;
            if (fromPockets < job.Rules.Land)
            {
                findings.Add(NetFindings.NetNearPocket(zone.Index + 1, zone.PortAt, job.Rules.Land, fromPockets));
            }
            ImmutableArray<Way> further = Further(zone, room, lines, cutter, levels, job, kernel);
            if (lines.Farthest is var (at, farthest) && farthest > job.Rules.NetReach)
            {
                findings.Add(NetFindings.NetReach(zone.Index + 1, at, farthest, job.Rules.NetReach));
            }
            nets.Add(Groove(zone, room, lines, further, cutter, levels, job, kernel));
        }
        return Stage.Of(nets.ToImmutableArray(), findings);
    }

    /// <summary>How much nearer a way has to come than one before it, mm.</summary>
    private const double Better = 0.1;

    private sealed record Laying(NetLines Lines, ImmutableArray<Region> Room, double FromPockets);

    /// <summary>
    /// The first way that keeps the reach, else the one that comes nearest to it: a land from pockets or only a wall, with the
    /// ring in the wide places or all along the room. Null where the port lies outside every room.
    /// </summary>
    private static Laying? BestLaying(
        SealedZone zone,
        IReadOnlyList<Region> pockets,
        Tool cutter,
        Job job,
        Kernel kernel
    )
    {
        Laying? best = null;
        Point2[] samples = [.. NetLines.Samples(zone)];
        double[] distances = [job.Rules.Land, job.Rules.Wall];
        ImmutableArray<Region>[] rooms = [.. distances.Select(d => Room(zone, pockets, d, cutter, job, kernel))];
        foreach (bool allAlong in new[] { false, true })
        {
            foreach ((double fromPockets, ImmutableArray<Region> room) in distances.Zip(rooms))
            {
                Laying way = new(new NetLines(samples, cutter.Radius), room, fromPockets);
                if (
                    MayBeBetter(room, zone.PortAt, best, cutter)
                    && FromPort(zone, way, allAlong, cutter, job, kernel)
                    && (best is null || way.Lines.Farthest.Distance < best.Lines.Farthest.Distance - Better)
                )
                {
                    best = way;
                }
                if (best?.Lines.Farthest.Distance <= job.Rules.NetReach)
                {
                    return best;
                }
            }
        }
        return best;
    }

    /// <summary>
    /// False where no line in the room comes nearer to the point that the best way is farthest from: whatever is laid in it
    /// would not be taken.
    /// </summary>
    private static bool MayBeBetter(IReadOnlyList<Region> room, Point2 port, Laying? best, Tool cutter)
    {
        if (best is null || room.FirstOrDefault(r => Inside.Contains(r, port)) is not { } own)
        {
            return true;
        }
        (Point2 at, double distance) = best.Lines.Farthest;
        double nearest = (Inside.Contains(own, at) ? 0 : Measure.Distance(at, own)) - cutter.Radius;
        return nearest < distance - Better + NetLines.Rounding;
    }

    /// <summary>Where a groove's centre line may run: a land from the gasket grooves, a distance from magnet pockets.</summary>
    private static ImmutableArray<Region> Room(
        SealedZone zone,
        IReadOnlyList<Region> pockets,
        double fromPockets,
        Tool cutter,
        Job job,
        Kernel kernel
    ) =>
        kernel.Difference(
            kernel.Offset([zone.Boundary], -(Zones.Keep(job) + cutter.Radius)),
            kernel.Offset(pockets, fromPockets + cutter.Radius)
        );

    private static bool FromPort(SealedZone zone, Laying way, bool allAlong, Tool cutter, Job job, Kernel kernel) =>
        way.Room.FirstOrDefault(r => Inside.Contains(r, zone.PortAt)) is { } own
        && way.Lines.Lay(zone.PortAt, own, Ring(zone.PortAt, own, allAlong, cutter, job, kernel), job.Rules.NetReach);

    /// <summary>
    /// Where pockets cut the room in two, the far piece gets a hole of its own into the plate's vacuum, if a port or groove
    /// lies under it and the reach is not kept without.
    /// </summary>
    private static ImmutableArray<Way> Further(
        SealedZone zone,
        ImmutableArray<Region> room,
        NetLines lines,
        Tool cutter,
        Levels levels,
        Job job,
        Kernel kernel
    )
    {
        List<Way> ways = [];
        foreach (
            Region piece in room.Where(r => !Inside.Contains(r, zone.PortAt))
                .OrderByDescending(r => Math.Round(Measure.Area(r), 3))
        )
        {
            if (lines.Farthest.Distance <= job.Rules.NetReach)
            {
                break;
            }
            string hole = Names.Numbered("port", zone.Index + 1, ways.Count + 2);
            Way? way = PlateFeed.Straight(
                hole,
                r => kernel.Offset([piece], -Math.Max(0, r - cutter.Radius)),
                levels,
                job
            );
            if (
                way is not null
                && lines.Lay(
                    way.At,
                    piece,
                    Ring(way.At, piece, allAlong: false, cutter, job, kernel),
                    job.Rules.NetReach
                )
            )
            {
                ways.Add(way);
            }
        }
        return [.. ways];
    }

    /// <summary>
    /// The ring goes where a wall stays between its own two sides; narrower places are reached by lines. In a room too
    /// narrow for that, or where lines do not reach, it goes round all of it but for cusps.
    /// </summary>
    private static Contour Ring(Point2 port, Region room, bool allAlong, Tool cutter, Job job, Kernel kernel)
    {
        double[] opened = allAlong ? [cutter.Radius / 4] : [cutter.Radius + (job.Rules.Wall / 2), cutter.Radius / 4];
        foreach (double radius in opened)
        {
            ImmutableArray<Region> wide = kernel.Open([room], radius);
            if (wide.Length > 0)
            {
                return wide.MinBy(r => Inside.Contains(r, port) ? 0 : Measure.Distance(port, r))!.Outer;
            }
        }
        return room.Outer;
    }

    private static ImmutableArray<Region> Swept(
        IEnumerable<Contour> rings,
        IEnumerable<OpenPath> runs,
        Tool cutter,
        Kernel kernel
    ) =>
        kernel.UnionAll([
            .. rings.SelectMany(r => kernel.Stroke(r, cutter.Diameter)),
            .. runs.SelectMany(r => kernel.Stroke(r, cutter.Diameter)),
        ]);

    private static Laid Groove(
        SealedZone zone,
        ImmutableArray<Region> room,
        NetLines lines,
        ImmutableArray<Way> further,
        Tool cutter,
        Levels levels,
        Job job,
        Kernel kernel
    )
    {
        string name = Names.Numbered("net", zone.Index + 1);
        double floor = levels.Face - job.Rules.NetDepth;
        ImmutableArray<Region> laid = Swept(lines.Rings, lines.Runs, cutter, kernel);
        ImmutableArray<OpenPath> slivers = NetSlivers.Runs(laid, room, cutter.Diameter, job.Rules.Wall, kernel);
        ImmutableArray<OpenPath> runs = [.. lines.Runs, .. slivers];
        ImmutableArray<Region> area = slivers.IsEmpty ? laid : Swept(lines.Rings, runs, cutter, kernel);
        GrooveFeature groove = new(
            name,
            FeatureKind.Net,
            Setup.Top,
            lines.Rings,
            runs,
            cutter.Diameter,
            levels.Face,
            floor,
            [new(Setup.Top, FeatureKind.Net, name, area, levels.Face, floor)]
        );
        double section = cutter.Diameter * job.Rules.NetDepth;
        string[] holes = [Ports.HoleName(zone.Index), .. further.SelectMany(w => w.Features).Select(f => f.Name)];
        return new(
            groove,
            [.. further.SelectMany(w => w.Features)],
            [
                .. further.SelectMany(w => w.Links),
                .. holes.Select(h => new VacuumLink(h, name, section, 0)),
                new(name, Names.Numbered("zone", zone.Index + 1), section, lines.Farthest.Distance),
            ]
        );
    }
}
