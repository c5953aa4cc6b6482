using System.Collections.Immutable;
using FixtureGen.Design;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Holding;

/// <summary>
/// Whether the vacuum's net can still get round magnets: the room its grooves may run in stays joined with the port and
/// comes within the stated reach of every part of the zone. The net itself is laid later, by the design.
/// </summary>
internal sealed class NetPassage
{
    private const double Sample = 3;

    private readonly ZoneRoom[] zones;
    private readonly double keep;
    private readonly double reach;
    private readonly Kernel kernel;

    public NetPassage(FixtureDesign design, Job job, Kernel kernel)
    {
        this.kernel = kernel;
        double half = (NetWidth.Choose(job)?.Diameter ?? 0) / 2;
        keep = (MagnetPockets.Diameter(job) / 2) + job.Rules.Wall + half;
        reach = job.Rules.NetReach + half;
        zones = [.. design.Zones.Select(z => Zone(z, kernel.Offset([z.Boundary], -(Zones.Keep(job) + half))))];
    }

    public bool Leaves(IReadOnlyList<Point2> magnets) => zones.All(z => Leaves(z, magnets));

    private bool Leaves(ZoneRoom zone, IReadOnlyList<Point2> magnets)
    {
        Region[] pockets = [.. magnets.Select(m => Region.Of(Contours.Circle(m, keep)))];
        ImmutableArray<Region> room = kernel.Difference(zone.Room, kernel.UnionAll(pockets));
        Region? joined = room.FirstOrDefault(r => Inside.Contains(r, zone.Port));
        return joined is not null
            && zone.Points.All(p =>
                (room.Length == 1 && magnets.All(m => m.DistanceTo(p.At) > p.Clear)) || Reached(p.At, joined)
            );
    }

    private bool Reached(Point2 p, Region room) => Inside.Contains(room, p) || Measure.Distance(p, room) <= reach;

    private ZoneRoom Zone(SealedZone zone, ImmutableArray<Region> room)
    {
        double Clear(Point2 p) =>
            Inside.Contains(room, p) ? keep
            : room.Any(r => Reached(p, r)) ? keep + reach
            : double.PositiveInfinity;
        return new ZoneRoom(zone.PortAt, room, [.. Samples(zone).Select(p => new SamplePoint(p, Clear(p)))]);
    }

    private static IEnumerable<Point2> Samples(SealedZone zone)
    {
        Box2 box = Measure.Bounds(zone.Boundary);
        for (double y = box.MinY + (Sample / 2); y < box.MaxY; y += Sample)
        {
            for (double x = box.MinX + (Sample / 2); x < box.MaxX; x += Sample)
            {
                Point2 p = new(x, y);
                if (Inside.Contains(zone.Sealed, p))
                {
                    yield return p;
                }
            }
        }
    }

    private sealed record ZoneRoom(Point2 Port, ImmutableArray<Region> Room, SamplePoint[] Points);

    /// <summary>A point of a zone; while the room is in one piece, magnets farther off than Clear mm leave it within reach.</summary>
    private readonly record struct SamplePoint(Point2 At, double Clear);
}
