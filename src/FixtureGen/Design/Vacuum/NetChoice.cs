using System.Collections.Immutable;
using FixtureGen.Design.Seals;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Vacuum;

/// <summary>
/// Chooses how the net of one zone runs: a land from pockets or only a wall, with the ring in the wide places or all along
/// the room.
/// </summary>
internal sealed class NetChoice(SealedZone zone, IReadOnlyList<Region> pockets, Tool cutter, Job job, Kernel kernel)
{
    /// <summary>How much nearer a way has to come than one before it, mm.</summary>
    private const double Better = 0.1;

    /// <summary>How far inside the room the groove round a plug runs, mm.</summary>
    private const double Touching = 0.02;

    private readonly Point2[] _samples = [.. NetLines.Samples(zone)];
    private readonly Dictionary<Way, Laying?> _known = [];

    public sealed record Laying(NetLines Lines, ImmutableArray<Region> Room, double FromPockets);

    /// <summary>Least is what the farthest point stays from any groove in the room at least, mm.</summary>
    private sealed record Way(double FromPockets, ImmutableArray<Region> Room, bool AllAlong, double Least);

    /// <summary>
    /// The first way that keeps the reach, else the one that comes nearest to it. Null where the port lies outside every room.
    /// A way that must stay far beyond the reach and beyond others is made last, and not at all where another comes so much
    /// nearer that it would be taken whatever stood before it.
    /// </summary>
    public Laying? Best()
    {
        double[] distances = [job.Rules.Land, job.Rules.Wall];
        Way[] wide = [.. distances.Select(d => Room(d)).Zip(distances, (r, d) => new Way(d, r, false, Least(r)))];
        Way[] ways = [.. wide, .. wide.Select(w => w with { AllAlong = true })];
        double slack = Better * ways.Length;
        double hopeless = Math.Max(job.Rules.NetReach, ways.Min(w => w.Least)) + slack;
        Laying? likely = First(ways.Where(w => w.Least <= hopeless));
        return ways.All(w => w.Least <= hopeless || likely?.Lines.Farthest.Distance < w.Least - slack)
            ? likely
            : First(ways);
    }

    private Laying? First(IEnumerable<Way> ways)
    {
        Laying? best = null;
        foreach (Way way in ways)
        {
            if (
                MayBeBetter(way.Room, best)
                && Lay(way) is { } laid
                && (best is null || laid.Lines.Farthest.Distance < best.Lines.Farthest.Distance - Better)
            )
            {
                best = laid;
            }
            if (best?.Lines.Farthest.Distance <= job.Rules.NetReach)
            {
                return best;
            }
        }
        return best;
    }

    /// <summary>Null where no straight groove leads from the port to the ring.</summary>
    private Laying? Lay(Way way)
    {
        if (!_known.TryGetValue(way, out Laying? laid))
        {
            NetLines lines = new(_samples, zone.Hollows, Moats(), cutter.Radius, kernel);
            bool leads =
                Own(way.Room) is { } own
                && lines.Lay(
                    zone.PortAt,
                    own,
                    Ring(zone.PortAt, own, way.AllAlong, cutter, job, kernel),
                    job.Rules.NetReach
                );
            laid = leads ? new Laying(lines, way.Room, way.FromPockets) : null;
            _known.Add(way, laid);
        }
        return laid;
    }

    /// <summary>
    /// False where no line in the room comes nearer to the point that the best way is farthest from: whatever is made in it
    /// would not be taken.
    /// </summary>
    private bool MayBeBetter(ImmutableArray<Region> room, Laying? best)
    {
        if (best is null || Own(room) is not { } own)
        {
            return true;
        }
        (Point2 at, double distance) = best.Lines.Farthest;
        double nearest = (Inside.Contains(own, at) ? 0 : Measure.Distance(at, own)) - cutter.Radius;
        return nearest < distance - Better + NetLines.Rounding;
    }

    /// <summary>Looked for in a room in pieces alone: in one piece it is hardly ever far from any point.</summary>
    private double Least(ImmutableArray<Region> room)
    {
        if (room.Length < 2 || Own(room) is not { } own)
        {
            return 0;
        }
        RegionIndex within = new([own]);
        double farthest = 0;
        foreach (Point2 p in _samples)
        {
            double away = within.Contains(p) ? 0 : within.Closest(p).DistanceTo(p);
            farthest = Math.Max(farthest, away - cutter.Radius - NetLines.Rounding);
        }
        return farthest;
    }

    private Region? Own(ImmutableArray<Region> room) => room.FirstOrDefault(r => Inside.Contains(r, zone.PortAt));

    /// <summary>Where a groove's centre line may run: a land from the gasket grooves, a distance from magnet pockets.</summary>
    private ImmutableArray<Region> Room(double fromPockets) =>
        kernel.Difference(
            kernel.Offset([zone.Boundary], -(Zones.Keep(job) + cutter.Radius)),
            kernel.UnionAll([
                .. kernel.Offset(pockets, fromPockets + cutter.Radius),
                .. kernel.Offset(zone.Plugs, cutter.Radius - Touching),
            ])
        );

    /// <summary>Centre lines of the grooves round the plugs' feet.</summary>
    private ImmutableArray<Region> Moats() =>
        [.. kernel.Offset(zone.Plugs, cutter.Radius).Select(r => Region.From(r.Outer))];

    /// <summary>Half of the narrowest neck of the room that the ring goes through, mm.</summary>
    public static double Cusp(double cutterRadius) => cutterRadius / 4;

    /// <summary>The same of the ring that keeps a wall between its own two sides, mm.</summary>
    public static double Wide(double cutterRadius, Job job) => cutterRadius + (job.Rules.Wall / 2);

    /// <summary>
    /// The ring goes where a wall stays between its own two sides; narrower places are reached by lines. In a room too
    /// narrow for that, or where lines do not reach, it goes round all of it but for cusps.
    /// </summary>
    public static Contour Ring(Point2 port, Region room, bool allAlong, Tool cutter, Job job, Kernel kernel)
    {
        double[] opened = allAlong ? [Cusp(cutter.Radius)] : [Wide(cutter.Radius, job), Cusp(cutter.Radius)];
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
}
