using FixtureGen.Design.Block;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Seals;

/// <summary>
/// Says of each cutout without a gasket loop of its own why it has none. One too near the edge for two grooves, or too near
/// its neighbour, shares a loop: the groove passes on the far side of it and its slug lies outside the seal.
/// </summary>
internal sealed class JoinedCutouts(
    Part placed,
    OwnLoops loops,
    LoopChoice choice,
    OwnLoops.Layout layout,
    OwnLoops.Measures m
)
{
    /// <summary>Of a chord from its arc, where points stand for a cutout's edge, mm.</summary>
    private const double Chord = 0.01;

    public IEnumerable<Finding> Notes(IReadOnlyList<Region> zones)
    {
        Contour[] holes = [.. zones.SelectMany(z => z.Holes)];
        ILookup<int, int> byLoop = Enumerable
            .Range(0, placed.Cutouts.Length)
            .ToLookup(i =>
                Array.FindIndex(holes, l => Inside.Contains(Contours.Ccw(l), placed.Cutouts[i].Segments[0].Start))
            );
        foreach (int i in byLoop[-1])
        {
            yield return Outside(i);
        }
        for (int loop = 0; loop < holes.Length; loop++)
        {
            int[] together = [.. byLoop[loop]];
            if (together.Length > 1)
            {
                yield return Together(together);
            }
        }
    }

    private Finding Outside(int cutout)
    {
        double twoGrooves = (2 * m.Keep) + m.Between;
        (double away, string what) = Nearest(cutout);
        int obstacle = Obstacle(cutout);
        if (away < twoGrooves || obstacle < 0)
        {
            return ZoneFindings.CutoutJoinedOutside(cutout + 1, Middle(cutout), away, twoGrooves, what);
        }
        return choice.Why(obstacle, layout) switch
        {
            null => ZoneFindings.CutoutWithoutLoop(cutout + 1, Middle(cutout), m.Radius),
            { Short: > 0 } why => ZoneFindings.CutoutLoopHasNoRoom(cutout + 1, Middle(cutout), why.Short, m.Radius),
            { } why => ZoneFindings.CutoutLoopCutsTheNet(cutout + 1, Middle(cutout), why.FedMore),
        };
    }

    private Finding Together(int[] cutouts)
    {
        int[] obstacles = [.. cutouts.Select(Obstacle).Distinct()];
        LoopChoice.Reason? why = obstacles.Length > 1 ? choice.Why(obstacles[0], layout) : null;
        double apart = (2 * m.Keep) + m.Between;
        double by = why?.Short ?? apart - ToOthers(cutouts[0], cutouts[1..]);
        return ZoneFindings.CutoutsJoined([.. cutouts.Select(i => i + 1)], Middle(cutouts[0]), by, why?.FedMore ?? 0);
    }

    private int Obstacle(int cutout) => loops.Holding(placed.Cutouts[cutout].Segments[0].Start);

    /// <summary>What a cutout lies nearest to, of the outline, forms, keep-outs and the other cutouts, and how far, mm.</summary>
    private (double Away, string What) Nearest(int cutout)
    {
        IEnumerable<(Contour Edge, string What)> things =
        [
            (placed.Outer, "the edge"),
            .. placed.Forms.Select(f => (f.Edge, "a form")),
            .. placed.KeepOuts.Select(k => (k, "a keep-out")),
            .. placed.Cutouts.Select((c, i) => (c, $"cutout {FindingWords.Count(i + 1)}")).Where((_, i) => i != cutout),
        ];
        return things.Select(t => (Between(placed.Cutouts[cutout], t.Edge), t.What)).MinBy(t => Math.Round(t.Item1, 6));
    }

    private double ToOthers(int cutout, int[] others) =>
        others.Min(o => Between(placed.Cutouts[cutout], placed.Cutouts[o]));

    private static double Between(Contour a, Contour b) => Flatten.Points(a, Chord).Min(p => Measure.Distance(p, b));

    private Point2 Middle(int cutout) => Measure.Bounds(placed.Cutouts[cutout]).Middle;
}
