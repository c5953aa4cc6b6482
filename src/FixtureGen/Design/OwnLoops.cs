using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design;

/// <summary>
/// Rounds a zone loop by loop. A cord bends along one loop, so each obstacle inside the room is rounded alone and gets a
/// groove of its own wherever a land stands between that groove and the next, however narrow the zone is there; where that
/// would cut the net in pieces, the net must pass between them too. Obstacles too near each other are rounded together; one
/// too near the edge is rounded with the edge, which takes a neck twice the bend radius wide to pass it.
/// </summary>
internal sealed class OwnLoops
{
    /// <summary>Net room smaller than this, mm2, is no piece of its own: it lies within reach of the rest.</summary>
    private const double Crumb = 20;

    private readonly IReadOnlyList<Region> room;
    private readonly IReadOnlyList<Region> cores;
    private readonly Measures m;
    private readonly Kernel kernel;
    private readonly List<Region> withEdge = [];
    private readonly List<Group> own = [];

    private OwnLoops(IReadOnlyList<Region> room, IReadOnlyList<Region> cores, Measures measures, Kernel kernel)
    {
        this.room = room;
        this.cores = cores;
        m = measures;
        this.kernel = kernel;
    }

    /// <summary>
    /// Distances, mm. Keep: centre line to a core. Radius: least of the boundary. Between: of two centre lines with a land
    /// between their grooves. Passage: centre line to the middle of a net groove.
    /// </summary>
    public sealed record Measures(double Keep, double Radius, double Between, double Passage);

    /// <summary>Obstacles that share a groove, the areas inside their grooves' centre lines, and how far the next must be.</summary>
    private sealed record Group(ImmutableArray<Region> Obstacles, ImmutableArray<Region> Rounded, double Gap);

    /// <param name="room">Where the boundary may run; its holes are the obstacles.</param>
    /// <param name="cores">What the room keeps clear of.</param>
    public static BendRadius.Rounded Round(
        IReadOnlyList<Region> room,
        IReadOnlyList<Region> cores,
        Measures measures,
        Kernel kernel
    ) => new OwnLoops(room, cores, measures, kernel).Run();

    private BendRadius.Rounded Run()
    {
        foreach (Region obstacle in room.SelectMany(r => r.Holes).Select(h => Region.Of(Contours.Ccw(h))))
        {
            Add([obstacle], m.Between);
        }
        while (true)
        {
            MergeNear();
            Region[] apart = [.. own.SelectMany(g => g.Rounded)];
            BendRadius.Rounded edge = PieceByPiece.Round(
                kernel.Difference([.. room.Select(r => Region.Of(r.Outer))], withEdge),
                kernel.Difference(cores, apart),
                m,
                kernel
            );
            if (own.RemoveAll(g => !Stands(g, edge.Zone)) > 0)
            {
                continue;
            }
            ImmutableArray<Region> zone = kernel.Difference(edge.Zone, apart);
            if (!SpreadWhereTheNetIsCut(zone))
            {
                return edge with { Zone = zone };
            }
        }
    }

    private void Add(ImmutableArray<Region> obstacles, double gap)
    {
        if (Alone(obstacles) is { IsEmpty: false } rounded)
        {
            own.Add(new(obstacles, rounded, gap));
        }
        else
        {
            withEdge.AddRange(obstacles);
        }
    }

    private void MergeNear()
    {
        while (NearPair() is var (a, b))
        {
            ImmutableArray<Region> both = [.. own[a].Obstacles, .. own[b].Obstacles];
            double gap = Math.Max(own[a].Gap, own[b].Gap);
            own.RemoveAt(b);
            own.RemoveAt(a);
            Add(both, gap);
        }
    }

    private (int A, int B)? NearPair()
    {
        for (int a = 0; a < own.Count; a++)
        {
            for (int b = a + 1; b < own.Count; b++)
            {
                if (Nearer(own[a].Rounded, own[b].Rounded, Math.Max(own[a].Gap, own[b].Gap)))
                {
                    return (a, b);
                }
            }
        }
        return null;
    }

    /// <summary>False where the group belongs to the edge, and then it has been given to it.</summary>
    private bool Stands(Group group, ImmutableArray<Region> zone)
    {
        ImmutableArray<Region> wide = kernel.Offset(group.Rounded, group.Gap);
        if (kernel.Intersect(wide, zone).Length == 0 || Measure.Area(kernel.Difference(wide, zone)) < 1e-6)
        {
            return true;
        }
        withEdge.AddRange(group.Obstacles);
        return false;
    }

    /// <summary>True where groups in a zone whose net falls apart were told to leave it more room.</summary>
    private bool SpreadWhereTheNetIsCut(ImmutableArray<Region> zone)
    {
        bool spread = false;
        foreach (Region piece in zone)
        {
            if (kernel.Offset([piece], -m.Passage).Count(r => Measure.Area(r) > Crumb) < 2)
            {
                continue;
            }
            for (int i = 0; i < own.Count; i++)
            {
                if (
                    own[i].Gap < 2 * m.Passage
                    && own[i].Rounded.Any(r => Inside.Contains(Contours.Ccw(piece.Outer), r.Outer.Segments[0].Start))
                )
                {
                    own[i] = own[i] with { Gap = 2 * m.Passage };
                    spread = true;
                }
            }
        }
        return spread;
    }

    /// <summary>The obstacles with a boundary that a cord can follow, nothing else near; empty where none came out.</summary>
    private ImmutableArray<Region> Alone(ImmutableArray<Region> obstacles)
    {
        double margin = 6 * m.Radius;
        Box2 b = Measure.Bounds(obstacles);
        Contour frame = Contours.Rectangle(new(b.MinX - margin, b.MinY - margin, b.MaxX + margin, b.MaxY + margin));
        BendRadius.Rounded rounded = BendRadius.Both(
            kernel.Difference([Region.Of(frame)], obstacles),
            kernel.Intersect(cores, obstacles),
            m.Keep,
            m.Radius,
            kernel
        );
        return rounded.Sharp.IsEmpty && rounded.Zone.Length == 1
            ? [.. rounded.Zone[0].Holes.Select(h => Region.Of(Contours.Ccw(h)))]
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
            && kernel.Intersect(kernel.Offset(a, between), b).Length > 0;
    }
}
