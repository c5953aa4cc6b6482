using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design;

/// <summary>
/// Rounds a zone loop by loop. A cord bends along one loop, so each obstacle inside the room is rounded alone and gets a
/// groove of its own wherever a wall stands between that groove and the next, however narrow the zone is there. Obstacles
/// too near each other are rounded together; one too near the edge is rounded with the edge, which takes a neck twice the
/// bend radius wide to pass it.
/// </summary>
internal static class OwnLoops
{
    /// <summary>Obstacles that share a groove, and the areas inside their grooves' centre lines.</summary>
    private sealed record Group(ImmutableArray<Region> Obstacles, ImmutableArray<Region> Rounded);

    /// <param name="room">Where the boundary may run; its holes are the obstacles.</param>
    /// <param name="cores">What the room keeps clear of by <paramref name="keep"/>.</param>
    /// <param name="radius">The least radius of the boundary, mm.</param>
    /// <param name="between">Least distance of two centre lines, mm.</param>
    public static BendRadius.Rounded Round(
        IReadOnlyList<Region> room,
        IReadOnlyList<Region> cores,
        double keep,
        double radius,
        double between,
        Kernel kernel
    )
    {
        List<Region> withEdge = [];
        List<Group> own = [];
        foreach (Region obstacle in room.SelectMany(r => r.Holes).Select(h => Region.Of(Contours.Ccw(h))))
        {
            Add([obstacle]);
        }
        while (true)
        {
            MergeNear();
            Region[] apart = [.. own.SelectMany(g => g.Rounded)];
            BendRadius.Rounded edge = BendRadius.Both(
                kernel.Difference([.. room.Select(r => Region.Of(r.Outer))], withEdge),
                kernel.Difference(cores, apart),
                keep,
                radius,
                kernel
            );
            int moved = own.RemoveAll(g => !Stands(g, edge.Zone));
            if (moved == 0)
            {
                return edge with { Zone = kernel.Difference(edge.Zone, apart) };
            }
        }

        void Add(ImmutableArray<Region> obstacles)
        {
            if (Alone(obstacles, cores, keep, radius, kernel) is { IsEmpty: false } rounded)
            {
                own.Add(new(obstacles, rounded));
            }
            else
            {
                withEdge.AddRange(obstacles);
            }
        }

        void MergeNear()
        {
            while (NearPair() is var (a, b))
            {
                ImmutableArray<Region> both = [.. own[a].Obstacles, .. own[b].Obstacles];
                own.RemoveAt(b);
                own.RemoveAt(a);
                Add(both);
            }
        }

        (int A, int B)? NearPair()
        {
            for (int a = 0; a < own.Count; a++)
            {
                for (int b = a + 1; b < own.Count; b++)
                {
                    if (Nearer(own[a].Rounded, own[b].Rounded, between, kernel))
                    {
                        return (a, b);
                    }
                }
            }
            return null;
        }

        // False where it belongs to the edge, and then it has been given to it.
        bool Stands(Group group, ImmutableArray<Region> zone)
        {
            ImmutableArray<Region> wide = kernel.Offset(group.Rounded, between);
            if (kernel.Intersect(wide, zone).Length == 0 || Measure.Area(kernel.Difference(wide, zone)) < 1e-6)
            {
                return true;
            }
            withEdge.AddRange(group.Obstacles);
            return false;
        }
    }

    /// <summary>The obstacles with a boundary that a cord can follow, nothing else near; empty where none came out.</summary>
    private static ImmutableArray<Region> Alone(
        ImmutableArray<Region> obstacles,
        IReadOnlyList<Region> cores,
        double keep,
        double radius,
        Kernel kernel
    )
    {
        double margin = 6 * radius;
        Box2 b = Measure.Bounds(obstacles);
        Contour frame = Contours.Rectangle(new(b.MinX - margin, b.MinY - margin, b.MaxX + margin, b.MaxY + margin));
        BendRadius.Rounded rounded = BendRadius.Both(
            kernel.Difference([Region.Of(frame)], obstacles),
            kernel.Intersect(cores, obstacles),
            keep,
            radius,
            kernel
        );
        return rounded.Sharp.IsEmpty && rounded.Zone.Length == 1
            ? [.. rounded.Zone[0].Holes.Select(h => Region.Of(Contours.Ccw(h)))]
            : [];
    }

    private static bool Nearer(ImmutableArray<Region> a, ImmutableArray<Region> b, double between, Kernel kernel)
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
