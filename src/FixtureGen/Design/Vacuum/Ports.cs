using System.Collections.Immutable;
using FixtureGen.Design.Block;
using FixtureGen.Design.Forms;
using FixtureGen.Design.Seals;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Vacuum;

/// <summary>
/// Every zone's way to the plate's vacuum: a hole straight over a plate port, else over a plate groove, else a hole over
/// a channel cut from below that starts at the nearest port. Each way is written as links of the vacuum path.
/// </summary>
internal static class Ports
{
    /// <summary>How far a hole from the top reaches into a channel from below, so that no film is left between, mm.</summary>
    private const double Overlap = 0.5;

    /// <summary>Beside a mark that is engraved on the shell the block bears it so far, mm: over a hole the point would press it in.</summary>
    private const double UnderMark = 1;

    public sealed record Fed(
        ImmutableArray<SealedZone> Zones,
        ImmutableArray<Feature> Features,
        ImmutableArray<VacuumLink> Links
    );

    public static Stage<Fed> Feed(
        IReadOnlyList<Region> boundaries,
        IReadOnlyList<Region> plugs,
        IReadOnlyList<Obstacle> obstacles,
        IReadOnlyList<Point2> keptForMagnets,
        IReadOnlyList<EngraveMark> marks,
        IReadOnlyList<Point2> asked,
        int first,
        Levels levels,
        Job job,
        Kernel kernel
    )
    {
        List<Finding> findings = [];
        List<SealedZone> zones = [];
        List<Way> ways = [];
        findings.AddRange(NotInAZone(boundaries, asked, job));
        foreach (Region all in boundaries)
        {
            // a hole keeps clear of a plug as of a groove
            Region boundary = plugs.Count == 0 ? all : kernel.Difference([all], plugs)[0];
            int index = first + zones.Count;
            Region[] sealedArea = [.. kernel.Offset([all], -job.Gasket.GrooveWidth / 2)];
            Way? way =
                Asked(boundary, index, asked, obstacles, levels, job, kernel, findings)
                ?? PlateFeed.Straight(
                    HoleName(index),
                    r =>
                        kernel.Difference(ClearRoom(boundary, r, keptForMagnets, job, kernel), Under(marks, r, kernel)),
                    levels,
                    job
                )
                ?? PlateFeed.Straight(HoleName(index), r => HoleRoom(boundary, r, job, kernel), levels, job)
                ?? OverChannel(boundary, index, obstacles, keptForMagnets, levels, job, kernel);
            if (way is null)
            {
                findings.Add(
                    ZoneFindings.ZoneWithoutPort(
                        index + 1,
                        Measure.Bounds(boundary.Outer).Middle,
                        Measure.Area(boundary)
                    )
                );
                continue;
            }
            if (way.Features.Any(f => f.Setup == Setup.Underside))
            {
                findings.AddRange(PassedOver(boundary, job, kernel));
            }
            ways.Add(way);
            zones.Add(new(index, all, [.. sealedArea], way.At, way.Feeds));
        }
        if (zones.Count == 0)
        {
            findings.Add(ZoneFindings.NoPort(job.Plate.Name));
            return Stage.Failed<Fed>(findings);
        }
        return Stage.Answer(
            new Fed([.. zones], [.. ways.SelectMany(w => w.Features)], [.. ways.SelectMany(w => w.Links)]),
            findings
        );
    }

    private static IEnumerable<Finding> NotInAZone(
        IReadOnlyList<Region> boundaries,
        IReadOnlyList<Point2> asked,
        Job job
    ) =>
        asked
            .Where(a => boundaries.Count > 0 && !Inside.Contains(boundaries, a))
            .Select(a => PortFindings.OutsideZones(a, WishedPort.Outside(a, boundaries, job)));

    /// <summary>The way through the port that the job asks for in this zone; where that cannot be, an error says why.</summary>
    private static Way? Asked(
        Region boundary,
        int zone,
        IReadOnlyList<Point2> asked,
        IReadOnlyList<Obstacle> obstacles,
        Levels levels,
        Job job,
        Kernel kernel,
        List<Finding> findings
    )
    {
        Point2[] here = [.. asked.Where(a => Inside.Contains(boundary, a))];
        if (here.Length == 0)
        {
            return null;
        }
        findings.AddRange(here.Skip(1).Select(a => PortFindings.Surplus(a, zone + 1, here[0])));
        (Way? way, PortLack? lack) = WishedPort.Feed(here[0], boundary, zone, obstacles, levels, job, kernel);
        if (lack is not null)
        {
            findings.Add(PortFindings.Misplaced(here[0], lack));
        }
        return way;
    }

    /// <summary>Ports that lie under a zone which a hole may not be bored into.</summary>
    private static IEnumerable<Finding> PassedOver(Region boundary, Job job, Kernel kernel) =>
        job
            .Plate.Ports.Where(p => Inside.Contains(HoleRoom(boundary, PortSize.LeastDiameter / 2, job, kernel), p.At))
            .SelectMany(p => BreakThrough.Check(p, PortSize.UsualDiameter, 0));

    public static string HoleName(int zone) => Names.Numbered("port", zone + 1);

    /// <summary>Where a hole of this radius keeps a land from every groove wall of the zone.</summary>
    public static ImmutableArray<Region> HoleRoom(Region boundary, double radius, Job job, Kernel kernel) =>
        kernel.Offset([boundary], -(Zones.Keep(job) + radius));

    /// <summary>The same less where a magnet is asked for.</summary>
    public static ImmutableArray<Region> ClearRoom(
        Region boundary,
        double radius,
        IReadOnlyList<Point2> keptForMagnets,
        Job job,
        Kernel kernel
    )
    {
        double magnet = (MagnetPockets.Diameter(job) / 2) + job.Rules.Wall + radius;
        Region[] discs = [.. keptForMagnets.Select(m => Region.From(Contours.Circle(m, magnet)))];
        return kernel.Difference(HoleRoom(boundary, radius, job, kernel), kernel.UnionAll(discs));
    }

    private static ImmutableArray<Region> Under(IReadOnlyList<EngraveMark> marks, double radius, Kernel kernel) =>
        kernel.UnionAll([
            .. marks.SelectMany(m => m.Strokes).SelectMany(s => kernel.Stroke(s, 2 * (radius + UnderMark))),
        ]);

    private static Way? OverChannel(
        Region boundary,
        int zone,
        IReadOnlyList<Obstacle> obstacles,
        IReadOnlyList<Point2> keptForMagnets,
        Levels levels,
        Job job,
        Kernel kernel
    )
    {
        Channels.Found? route = Channels.Route(boundary, obstacles, keptForMagnets, job, kernel);
        return route is null ? null : Over(route, zone, levels, job, kernel);
    }

    /// <summary>A hole from the top into the end of a channel from below.</summary>
    public static Way Over(Channels.Found route, int zone, Levels levels, Job job, Kernel kernel)
    {
        GrooveFeature channel = Channels.Cut(Names.Numbered("channel", zone + 1), route, levels, job, kernel);
        double diameter = Math.Min(PortSize.UsualDiameter, route.Width);
        HoleFeature hole = RoundHole.Make(
            HoleName(zone),
            FeatureKind.Port,
            Setup.Top,
            route.Hole,
            diameter,
            levels.Face,
            channel.TopZ - Overlap
        );
        return new(
            route.Hole,
            channel.Name,
            [channel, hole],
            [
                new(route.Port.Name, channel.Name, PortSize.Section(route.Port.Diameter), 0),
                new(channel.Name, hole.Name, route.Width * channel.TopZ, route.Port.At.DistanceTo(route.Hole)),
            ]
        );
    }
}
