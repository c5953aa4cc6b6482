using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design;

/// <summary>
/// Says of each cutout whether it has a gasket loop of its own. One too near the edge for two grooves, or too near its
/// neighbour, shares a loop: the groove passes on the far side of it and its slug lies outside the seal.
/// </summary>
internal static class JoinedCutouts
{
    /// <param name="twoGrooves">Room for two grooves with their lands, mm.</param>
    public static IEnumerable<Finding> Of(Part placed, IReadOnlyList<Region> zones, double twoGrooves)
    {
        Contour[] loops = [.. zones.SelectMany(z => z.Holes)];
        ILookup<int, int> byLoop = Enumerable
            .Range(0, placed.Cutouts.Length)
            .ToLookup(i =>
                Array.FindIndex(loops, l => Inside.Contains(Contours.Ccw(l), placed.Cutouts[i].Segments[0].Start))
            );
        foreach (int i in byLoop[-1])
        {
            yield return ZoneFindings.CutoutJoinedOutside(i + 1, Middle(placed, i), ToEdge(placed, i), twoGrooves);
        }
        for (int loop = 0; loop < loops.Length; loop++)
        {
            int[] together = [.. byLoop[loop]];
            if (together.Length > 1)
            {
                yield return ZoneFindings.CutoutsJoined([.. together.Select(i => i + 1)], Middle(placed, together[0]));
            }
        }
    }

    /// <summary>From the cutout's segments' ends and middles to the outline, mm.</summary>
    private static double ToEdge(Part placed, int cutout) =>
        placed
            .Cutouts[cutout]
            .Segments.SelectMany(s => (Point2[])[s.Start, Measure.PointAt(s, 0.5)])
            .Min(p => Measure.Distance(p, placed.Outer));

    private static Point2 Middle(Part placed, int cutout) => Measure.Bounds(placed.Cutouts[cutout]).Middle;
}
