using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design;

/// <summary>
/// The design's own last look: between any two features of the same side stands a wall, unless one is meant to run into
/// the other, and nothing but the relief's way out and the skim leaves the block.
/// </summary>
internal static class Conflicts
{
    /// <summary>How much thinner than asked a wall may be before it is told, mm.</summary>
    private const double Slack = 0.02;

    private const double Precision = 0.01;

    public static IEnumerable<Finding> Check(ImmutableArray<Feature> features, Box2 block, double wall, Kernel kernel)
    {
        Removal[] cuts = [.. features.SelectMany(f => f.Removals).Where(r => r.Kind != FeatureKind.Skim)];
        Box2[] boxes = [.. cuts.Select(c => Measure.Bounds(c.Area))];
        for (int a = 0; a < cuts.Length; a++)
        {
            if (cuts[a].Kind != FeatureKind.Relief && !Within(block, boxes[a]))
            {
                yield return BlockFindings.FeatureOverEdge(cuts[a].Feature, boxes[a].Middle);
            }
            Box2 near = boxes[a].Outset(wall);
            for (int b = a + 1; b < cuts.Length; b++)
            {
                if (
                    near.Meets(boxes[b])
                    && !MayMeet(cuts[a], cuts[b])
                    && Between(cuts[a], cuts[b], wall, kernel) is { } finding
                )
                {
                    yield return finding;
                }
            }
        }
    }

    private static bool Within(Box2 block, Box2 box) =>
        box.MinX >= block.MinX && box.MaxX <= block.MaxX && box.MinY >= block.MinY && box.MaxY <= block.MaxY;

    private static Finding? Between(Removal a, Removal b, double wall, Kernel kernel)
    {
        if (Common(a, b, wall - Slack, kernel) is not { } at)
        {
            return null;
        }
        double apart = 0;
        double meets = wall;
        while (meets - apart > Precision)
        {
            double mid = (apart + meets) / 2;
            (apart, meets) = Common(a, b, mid, kernel) is null ? (mid, meets) : (apart, mid);
        }
        return apart <= 0
            ? BlockFindings.FeaturesMeet(a.Feature, b.Feature, at)
            : BlockFindings.WallThin(a.Feature, b.Feature, at, apart, wall);
    }

    /// <summary>Where the second comes within the distance of the first; null where it does not.</summary>
    private static Point2? Common(Removal a, Removal b, double within, Kernel kernel)
    {
        ImmutableArray<Region> both = kernel.Intersect(kernel.Offset(a.Area, within), b.Area);
        return both.Length > 0 ? Measure.Bounds(both[0].Outer).Middle : null;
    }

    private static bool MayMeet(Removal a, Removal b) =>
        a.Setup != b.Setup
        || a.Feature == b.Feature
        || Pair(a, b, FeatureKind.Relief, FeatureKind.CutoutRelief)
        || Pair(a, b, FeatureKind.CutoutRelief, FeatureKind.CutoutRelief)
        || Pair(a, b, FeatureKind.Counterbore, FeatureKind.BoltHole)
        || Pair(a, b, FeatureKind.Port, FeatureKind.Net)
        || (Pair(a, b, FeatureKind.MagnetPocket, FeatureKind.MagnetNotch) && Number(a) == Number(b))
        || Pair(a, b, FeatureKind.Channel, FeatureKind.Channel)
        || Pair(a, b, FeatureKind.Label, FeatureKind.Mark);

    private static bool Pair(Removal a, Removal b, FeatureKind one, FeatureKind other) =>
        (a.Kind == one && b.Kind == other) || (a.Kind == other && b.Kind == one);

    private static string Number(Removal removal) => removal.Feature[(removal.Feature.LastIndexOf(' ') + 1)..];
}
