using System.Collections.Immutable;
using FixtureGen.Design.Block;
using FixtureGen.Design.Seals;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Vacuum;

/// <summary>
/// The shallow grooves that carry the vacuum from the port to all of a zone: a ring along the zone's edge, a line through
/// the port, and as many further lines as leave no point farther from a groove than the stated reach.
/// </summary>
internal static class Net
{
    /// <summary>
    /// Zone is the one that the net feeds, with what it reaches; Holes are further ports that the net of a zone cut in two by
    /// magnets needed. FromPockets is what the net was made to keep from pockets, mm.
    /// </summary>
    public sealed record Laid(
        SealedZone Zone,
        GrooveFeature Groove,
        ImmutableArray<Feature> Holes,
        ImmutableArray<VacuumLink> Links,
        double FromPockets
    );

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
            if (new NetChoice(zone, pockets, cutter, job, kernel).Best() is not { } laid)
            {
                findings.Add(NetFindings.PortBlocked(zone.Index + 1, zone.PortAt));
                continue;
            }
            (NetLines lines, ImmutableArray<Region> room, double fromPockets) = laid;
            ImmutableArray<Way> further = Further(zone, room, lines, cutter, levels, job, kernel);
            nets.Add(Groove(zone, room, lines, fromPockets, further, cutter, levels, job, kernel));
        }
        return Stage.Answer(nets.ToImmutableArray(), findings);
    }

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
                    NetChoice.Ring(way.At, piece, allAlong: false, cutter, job, kernel),
                    job.Rules.NetReach
                )
            )
            {
                ways.Add(way);
            }
        }
        return [.. ways];
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
        double fromPockets,
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
        GrooveFeature groove = new()
        {
            Name = name,
            Kind = FeatureKind.Net,
            Setup = Setup.Top,
            Loops = lines.Rings,
            Runs = runs,
            Width = cutter.Diameter,
            TopZ = levels.Face,
            FloorZ = floor,
            Removals = [new(Setup.Top, FeatureKind.Net, name, area, levels.Face, floor)],
        };
        double section = cutter.Diameter * job.Rules.NetDepth;
        string[] holes = [Ports.HoleName(zone.Index), .. further.SelectMany(w => w.Features).Select(f => f.Name)];
        return new(
            zone with
            {
                Reached = ReachedArea.Around(area, lines.Opened, zone.Sealed, job.Rules.NetReach, kernel),
            },
            groove,
            [.. further.SelectMany(w => w.Features)],
            [
                .. further.SelectMany(w => w.Links),
                .. holes.Select(h => new VacuumLink(h, name, section, 0)),
                new(name, Names.Numbered("zone", zone.Index + 1), section, lines.Farthest.Distance),
            ],
            fromPockets
        );
    }
}
