using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Vacuum;

/// <summary>
/// Islands of the face between grooves of the net that are thinner than a wall would break off as chips: each is taken
/// away by one more pass along it, where that pass covers it and stays in the room.
/// </summary>
internal static class NetSlivers
{
    public static ImmutableArray<OpenPath> Runs(
        IReadOnlyList<Region> net,
        IReadOnlyList<Region> room,
        double width,
        double wall,
        Kernel kernel
    )
    {
        List<OpenPath> runs = [];
        foreach (Contour hole in net.SelectMany(r => r.Holes))
        {
            Region island = Region.From(Contours.Ccw(hole));
            if (
                kernel.Offset(island, -wall / 2).Length == 0
                && Along(hole) is { } run
                && Serves(run, island, room, width, kernel)
            )
            {
                runs.Add(run);
            }
        }
        return [.. runs];
    }

    /// <summary>The line between the island's two points that are farthest apart.</summary>
    private static OpenPath? Along(Contour hole)
    {
        Point2[] rim = [.. Flatten.Points(hole, 0.05)];
        (Point2 A, Point2 B) best = rim.SelectMany(a => rim.Select(b => (A: a, B: b))).MaxBy(p => p.A.DistanceTo(p.B));
        return best.A == best.B ? null : new OpenPath([Segment.Line(best.A, best.B)]);
    }

    private static bool Serves(OpenPath run, Region island, IReadOnlyList<Region> room, double width, Kernel kernel)
    {
        bool inside = Clip.Path(run, room).Sum(Measure.Length) >= Measure.Length(run) - 0.01;
        return inside && kernel.Difference([island], kernel.Stroke(run, width)).Length == 0;
    }
}
