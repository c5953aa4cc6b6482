using FixtureGen.Design.Block;
using FixtureGen.Design.Seals;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Vacuum;

/// <summary>What a wished port lacks: mm to what is too near and that thing's nearest point, plate frame.</summary>
public sealed record PortLack(double ShortBy, string Against, Point2 Nearest);

/// <summary>
/// The way of a zone's air through a hole just where the job asks for it: into a plate port or a plate groove that lies
/// under it, else into a channel cut from below. Where there is none, the least that is lacking. Plate frame, mm.
/// </summary>
internal static class WishedPort
{
    /// <summary>A channel shorter than this is no channel: the hole is beside the port that it cannot break into.</summary>
    private const double LeastChannel = 0.5;

    public static (Way? Way, PortLack? Lack) Feed(
        Point2 at,
        Region boundary,
        int zone,
        IReadOnlyList<Obstacle> obstacles,
        Levels levels,
        Job job,
        Kernel kernel
    )
    {
        Point2 groove = Measure.Closest(at, boundary);
        double room = at.DistanceTo(groove) - Zones.Keep(job);
        if (room < PortSize.LeastDiameter / 2)
        {
            return (null, new PortLack((PortSize.LeastDiameter / 2) - room, "the groove of its zone", groove));
        }
        if (PlateFeed.FeedAt(Ports.HoleName(zone), at, 2 * room, levels, job) is { } straight)
        {
            return (straight, null);
        }
        if (Channels.Width(job) is not { } width)
        {
            return (null, new PortLack(Channels.LeastWidth, "any cutter for a channel to it", at));
        }
        if (room < width / 2)
        {
            return (null, new PortLack((width / 2) - room, "the groove of its zone", groove));
        }
        IReadOnlyList<Region> inner = PlateSeal.Inner(job.Plate, job.Rules.Land, width / 2, kernel);
        if (!Inside.Contains(inner, at))
        {
            return (null, new PortLack(Measure.Distance(at, inner), "the plate's seal", Nearest(at, inner)));
        }
        return Channel(at, zone, width, obstacles, levels, job, kernel);
    }

    /// <summary>What keeps a port out that lies in none of the zones: how far it must go for the nearest to take it.</summary>
    public static PortLack Outside(Point2 at, IReadOnlyList<Region> boundaries, Job job)
    {
        Point2 nearest = Nearest(at, boundaries);
        double needed = at.DistanceTo(nearest) + Zones.Keep(job) + (PortSize.LeastDiameter / 2);
        return new PortLack(needed, "the outside of every zone", nearest);
    }

    private static (Way?, PortLack?) Channel(
        Point2 at,
        int zone,
        double width,
        IReadOnlyList<Obstacle> obstacles,
        Levels levels,
        Job job,
        Kernel kernel
    )
    {
        PortLack? least = null;
        foreach (
            PlateOpening port in job.Plate.Ports.OrderBy(p => Math.Round(p.At.DistanceTo(at), 3)).ThenBy(p => p.Name)
        )
        {
            PortLack? lack = InTheWay(port, at, width, obstacles, job);
            if (lack is null)
            {
                return (Ports.Over(new Channels.Found(port, at, width), zone, levels, job, kernel), null);
            }
            least = least is null || lack.ShortBy < least.ShortBy ? lack : least;
        }
        return (null, least ?? new PortLack(width, "a plate that has no port", at));
    }

    private static PortLack? InTheWay(
        PlateOpening port,
        Point2 at,
        double width,
        IReadOnlyList<Obstacle> obstacles,
        Job job
    )
    {
        double length = port.At.DistanceTo(at);
        if (length < LeastChannel)
        {
            return new PortLack(LeastChannel - length, $"{port.Name}, which has no relief for it,", port.At);
        }
        Segment run = Segment.Line(port.At, at);
        return obstacles
            .Select(o => new PortLack(
                o.Radius + (width / 2) + job.Rules.Wall - Measure.Distance(o.At, run),
                $"{o.Name} with its channel",
                o.At
            ))
            .Where(l => l.ShortBy > 0)
            .MaxBy(l => l.ShortBy);
    }

    private static Point2 Nearest(Point2 at, IReadOnlyList<Region> regions) =>
        regions.Count == 0 ? at : regions.Select(r => Measure.Closest(at, r)).MinBy(p => p.DistanceTo(at));
}
