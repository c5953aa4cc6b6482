using System.Collections.Immutable;
using FixtureGen.Design.Forms;
using FixtureGen.Design.Seals;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Solve;

/// <summary>
/// Whether magnets leave the vacuum's net as it is without them: the room its grooves may run in, by the rules that the
/// design lays them by, stays joined with the port and comes within the stated reach of all that it reached before. Quick, for
/// the search; what is chosen is made once by <see cref="NetTrial"/>.
/// </summary>
internal sealed class NetPassage
{
    private const double Sample = 3;

    private readonly FixtureDesign _design;
    private readonly Job _job;
    private readonly ZoneRoom[] _zones;
    private readonly double _outset;
    private readonly double _pocket;
    private readonly double _reach;
    private readonly Kernel _kernel;

    /// <param name="held">Magnets that stand whatever they do to the net.</param>
    /// <param name="fromPockets">Between the net's grooves and the magnets' pockets, mm.</param>
    /// <param name="neck">Half of the narrowest way that counts as one, beside what the grooves need, mm.</param>
    public NetPassage(
        FixtureDesign design,
        Job job,
        Kernel kernel,
        IReadOnlyList<Point2> held,
        double fromPockets,
        double neck
    )
    {
        _design = design;
        _job = job;
        _kernel = kernel;
        double half = NetWidth.Choose(job)?.Radius ?? 0;
        _outset = fromPockets + half + neck;
        _pocket = MagnetPockets.Diameter(job) / 2;
        _reach = job.Rules.NetReach + half;
        ImmutableArray<Region> standing = Outset(held);
        _zones =
        [
            .. design.Zones.Select(z =>
                Zone(z, kernel.Offset([z.Boundary], -(Zones.Keep(job) + half + neck)), standing) with
                {
                    Feet = Feet(z, half - neck, standing),
                }
            ),
        ];
    }

    public bool Leaves(IReadOnlyList<Point2> magnets)
    {
        ImmutableArray<Region> pockets = Outset(magnets);
        return _zones.All(z => Leaves(z, magnets, pockets));
    }

    private bool Leaves(ZoneRoom zone, IReadOnlyList<Point2> magnets, ImmutableArray<Region> pockets)
    {
        ImmutableArray<Region> room = _kernel.Difference(zone.Room, pockets);
        bool whole = room.Length == 1;
        Region? joined = Joined(zone.Port, room);
        return zone.Points.Length == 0
            || (
                joined is not null
                && (zone.Feet.IsEmpty || _kernel.Intersect(zone.Feet, pockets).IsEmpty)
                && zone.Points.All(p =>
                    (whole && magnets.All(m => m.DistanceTo(p.At) > p.Clear)) || Reached(p.At, joined)
                )
            );
    }

    private ImmutableArray<Region> Outset(IReadOnlyList<Point2> magnets) =>
        _kernel.UnionAll([
            .. MagnetPockets.Outset([.. magnets.Select(m => new MagnetPlace(m, false, false))], _design, _outset, _job),
        ]);

    private static Region? Joined(Point2 port, ImmutableArray<Region> room) =>
        room.FirstOrDefault(r => Inside.Contains(r, port));

    private bool Reached(Point2 p, Region room) => Inside.Contains(room, p) || Measure.Distance(p, room) <= _reach;

    private ZoneRoom Zone(SealedZone zone, ImmutableArray<Region> room, ImmutableArray<Region> standing)
    {
        Region? joined = Joined(zone.PortAt, _kernel.Difference(room, standing));
        double around = (2 * _pocket) + _outset;
        SamplePoint[] points =
        [
            .. Samples(zone)
                .Where(p => joined is not null && Reached(p, joined))
                .Select(p => new SamplePoint(p, Inside.Contains(room, p) ? around : around + _reach)),
        ];
        return new ZoneRoom(zone.PortAt, room, points);
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

    /// <summary>
    /// The feet of plugs, outset so that pockets as they are outset here, which meet them, would stand nearer than they may to the
    /// grooves round the plugs; none where magnets that stay do so already.
    /// </summary>
    private ImmutableArray<Region> Feet(SealedZone zone, double by, ImmutableArray<Region> standing)
    {
        ImmutableArray<Region> feet = _kernel.Offset(zone.Plugs, by);
        return _kernel.Intersect(feet, standing).IsEmpty ? feet : [];
    }

    private sealed record ZoneRoom(Point2 Port, ImmutableArray<Region> Room, SamplePoint[] Points)
    {
        public ImmutableArray<Region> Feet { get; init; } = [];
    }

    /// <summary>
    /// A point of a zone that is reached without more magnets; while the room is in one piece, magnets farther off than Clear mm
    /// leave it within reach.
    /// </summary>
    private readonly record struct SamplePoint(Point2 At, double Clear);
}
