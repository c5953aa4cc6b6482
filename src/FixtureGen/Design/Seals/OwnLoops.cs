using System.Collections.Immutable;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Seals;

/// <summary>
/// Rounds a zone loop by loop, for one choice of who shares a loop. A cord bends along one loop, so each obstacle inside the
/// room is rounded alone and has a groove of its own wherever a land stands between that groove and the next, however narrow
/// the zone is there. Obstacles too near each other are rounded together; one too near the edge is rounded with the edge,
/// which takes a neck twice the bend radius wide to pass it.
/// </summary>
internal sealed class OwnLoops
{
    private readonly IReadOnlyList<Region> _room;
    private readonly IReadOnlyList<Region> _cores;
    private readonly ImmutableArray<Region> _lands;
    private readonly Measures _m;
    private readonly Kernel _kernel;
    private readonly ImmutableArray<Region> _obstacles;
    private readonly Dictionary<string, Group?> _alone = [];

    /// <param name="room">Where the boundary may run; its holes are the obstacles.</param>
    /// <param name="cores">What the room keeps clear of.</param>
    /// <param name="lands">Forms inside the seal with their land: no loop of an obstacle crosses them.</param>
    public OwnLoops(
        IReadOnlyList<Region> room,
        IReadOnlyList<Region> cores,
        ImmutableArray<Region> lands,
        Measures measures,
        Kernel kernel
    )
    {
        _room = room;
        _cores = cores;
        _lands = lands;
        _m = measures;
        _kernel = kernel;
        _obstacles = [.. room.SelectMany(r => r.Holes).Select(h => Region.From(Contours.Ccw(h)))];
    }

    /// <summary>
    /// Distances, mm. Keep: centre line to a core. Radius: least of the boundary. Between: of two centre lines with a land
    /// between their grooves. Passage: centre line to the middle of a net groove. Reach: from there to the farthest point
    /// that counts as fed. HalfGroove: of the cord's. Port: centre line to the middle of the least port hole.
    /// </summary>
    public sealed record Measures(
        double Keep,
        double Radius,
        double Between,
        double Passage,
        double Reach,
        double HalfGroove,
        double Port
    );

    /// <summary>Obstacles that share a groove, by their number in rising order, and the areas inside its centre line.</summary>
    public sealed record Group(ImmutableArray<int> Obstacles, ImmutableArray<Region> Rounded);

    /// <summary>A settled choice: groups with loops of their own, obstacles outside the edge's loop, the zones, and the area fed, mm2.</summary>
    public sealed record Layout(
        ImmutableArray<Group> Own,
        ImmutableArray<int> WithEdge,
        BendRadius.Rounded Rounded,
        double Fed
    );

    /// <summary>The number of obstacles.</summary>
    public int Count => _obstacles.Length;

    /// <summary>
    /// The layout nearest to what is asked for: sets of obstacles that have a loop together, all others with the edge. Sets that
    /// are nearer to each other than a distance are joined, those nearer to the edge or without a loop that a cord can follow go
    /// to the edge.
    /// </summary>
    /// <param name="apart">Between centre lines, mm; a land stands between their grooves at <see cref="Measures.Between"/>.</param>
    public Layout Settle(IEnumerable<ImmutableArray<int>> together, double apart)
    {
        List<Group> own = [];
        foreach (ImmutableArray<int> set in together)
        {
            Add(own, set);
        }
        while (true)
        {
            JoinNear(own, apart);
            Region[] inside = [.. own.SelectMany(g => g.Rounded)];
            int[] withEdge = [.. Enumerable.Range(0, Count).Except(own.SelectMany(g => g.Obstacles))];
            BendRadius.Rounded edge = Edge(withEdge, inside);
            if (own.RemoveAll(g => !Stands(g, edge.Zone, apart)) == 0)
            {
                BendRadius.Rounded rounded = edge with { Zone = _kernel.Difference(edge.Zone, inside) };
                double fed = rounded.Sharp.IsEmpty ? rounded.Zone.Sum(Fed) : 0;
                return new Layout([.. own], [.. withEdge], rounded, Math.Round(fed, 3));
            }
        }
    }

    /// <summary>
    /// All that the choice of loops depends on, in words: distances, and every segment of room, cores and lands from the room's own
    /// corner, mm to a millionth, so that where on the plate the part lies makes no difference.
    /// </summary>
    public string Describe()
    {
        Box2 box = _room.Count == 0 ? default : Measure.Bounds(_room);
        StringBuilder words = new(_m.ToString());
        foreach (
            Segment s in _room.Concat(_cores).Concat(_lands).SelectMany(r => r.Contours).SelectMany(c => c.Segments)
        )
        {
            words.Append(
                CultureInfo.InvariantCulture,
                $"|{s.Kind}{s.Start.X - box.MinX:0.######} {s.Start.Y - box.MinY:0.######} {s.End.X - box.MinX:0.######} {s.End.Y - box.MinY:0.######} {s.Centre.X - box.MinX:0.######} {s.Centre.Y - box.MinY:0.######}"
            );
        }
        return Convert.ToHexString(SHA256.HashData(Encoding.UTF8.GetBytes(words.ToString())));
    }

    /// <summary>The number of the obstacle that holds a point, -1 where none does.</summary>
    public int Holding(Point2 p) => Array.FindIndex([.. _obstacles], o => Inside.Contains(o, p));

    /// <summary>
    /// How far the loop of an obstacle alone would stay from every other loop, mm, were it not in theirs; negative by how
    /// far it would stick out of the zone. Null where no cord follows a loop round it.
    /// </summary>
    public double? RoomFor(int obstacle, Layout layout)
    {
        if (Alone([obstacle]) is not { } group)
        {
            return null;
        }
        ImmutableArray<Region>[] others =
        [
            .. layout
                .Own.Select(g => g.Obstacles.Remove(obstacle))
                .Where(o => o.Length > 0)
                .Select(o => Alone(o)?.Rounded ?? []),
        ];
        Region[] inside = [.. others.SelectMany(o => o)];
        ImmutableArray<Region> zone = _kernel.Difference(
            Edge([.. layout.WithEdge.Remove(obstacle)], inside).Zone,
            inside
        );
        return group
            .Rounded.SelectMany(r => Flatten.Points(r.Outer, _m.HalfGroove / 20))
            .Min(p => Inside.Contains(zone, p) ? Measure.Distance(p, zone) : -Measure.Distance(p, zone));
    }

    private BendRadius.Rounded Edge(IEnumerable<int> withEdge, IReadOnlyList<Region> inside) =>
        PieceByPiece.Round(
            _kernel.Difference([.. _room.Select(r => Region.From(r.Outer))], [.. withEdge.Select(i => _obstacles[i])]),
            _kernel.Difference(_cores, inside),
            _m,
            _kernel
        );

    /// <summary>True where two sets' grooves, each alone, are nearer than a distance.</summary>
    public bool Near(ImmutableArray<int> a, ImmutableArray<int> b, double distance) =>
        Alone(a) is { } one && Alone(b) is { } other && Nearer(one.Rounded, other.Rounded, distance);

    private void Add(List<Group> own, ImmutableArray<int> set)
    {
        if (Alone(set) is { } group)
        {
            own.Add(group);
        }
    }

    private void JoinNear(List<Group> own, double apart)
    {
        while (NearPair(own, apart) is var (a, b))
        {
            ImmutableArray<int> both = [.. own[a].Obstacles.Concat(own[b].Obstacles).Order()];
            own.RemoveAt(b);
            own.RemoveAt(a);
            Add(own, both);
        }
    }

    private (int A, int B)? NearPair(List<Group> own, double apart)
    {
        for (int a = 0; a < own.Count; a++)
        {
            for (int b = a + 1; b < own.Count; b++)
            {
                if (Nearer(own[a].Rounded, own[b].Rounded, apart))
                {
                    return (a, b);
                }
            }
        }
        return null;
    }

    /// <summary>Whether a group's centre line keeps a distance from the edge's all round, and is on the flange.</summary>
    private bool Stands(Group group, ImmutableArray<Region> zone, double apart)
    {
        if (!_lands.IsEmpty && Measure.Area(_kernel.Intersect(group.Rounded, _lands)) >= 1e-6)
        {
            return false;
        }
        ImmutableArray<Region> wide = _kernel.Offset(group.Rounded, apart);
        return _kernel.Intersect(wide, zone).Length == 0 || Measure.Area(_kernel.Difference(wide, zone)) < 1e-6;
    }

    /// <summary>
    /// The sealed area, mm2, within reach of a net that runs in one piece of the zone; nothing where no port has room. Of
    /// several pieces that the loops leave, the one that feeds most.
    /// </summary>
    private double Fed(Region zone)
    {
        if (_kernel.Offset([zone], -_m.Port).Length == 0)
        {
            return 0;
        }
        ImmutableArray<Region> sealedArea = _kernel.Offset([zone], -_m.HalfGroove);
        return _kernel
            .Offset([zone], -_m.Passage)
            .Select(net => Measure.Area(_kernel.Intersect(_kernel.Offset([net], _m.Reach), sealedArea)))
            .DefaultIfEmpty(0)
            .Max();
    }

    /// <summary>The obstacles with a boundary that a cord can follow, nothing else near; null where none came out.</summary>
    private Group? Alone(ImmutableArray<int> set)
    {
        string key = string.Join(' ', set);
        if (!_alone.TryGetValue(key, out Group? group))
        {
            ImmutableArray<Region> rounded = Round([.. set.Select(i => _obstacles[i])]);
            group = rounded.IsEmpty ? null : new Group(set, rounded);
            _alone.Add(key, group);
        }
        return group;
    }

    private ImmutableArray<Region> Round(ImmutableArray<Region> together)
    {
        double margin = 6 * _m.Radius;
        Box2 b = Measure.Bounds(together);
        Contour frame = Contours.Rectangle(new(b.MinX - margin, b.MinY - margin, b.MaxX + margin, b.MaxY + margin));
        BendRadius.Rounded rounded = BendRadius.Both(
            _kernel.Difference([Region.From(frame)], together),
            _kernel.Intersect(_cores, together),
            _m.Keep,
            _m.Radius,
            _kernel
        );
        return rounded.Sharp.IsEmpty && rounded.Zone.Length == 1
            ? [.. rounded.Zone[0].Holes.Select(h => Region.From(Contours.Ccw(h)))]
            : [];
    }

    private bool Nearer(ImmutableArray<Region> a, ImmutableArray<Region> b, double between)
    {
        Box2 boxA = Measure.Bounds(a);
        Box2 boxB = Measure.Bounds(b);
        return boxA.MinX - between < boxB.MaxX
            && boxB.MinX - between < boxA.MaxX
            && boxA.MinY - between < boxB.MaxY
            && boxB.MinY - between < boxA.MaxY
            && _kernel.Intersect(_kernel.Offset(a, between), b).Length > 0;
    }
}
