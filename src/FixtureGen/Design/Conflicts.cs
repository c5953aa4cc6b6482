using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design;

/// <summary>
/// The design's own last look: no two features of the same side meet unless one is meant to run into the other, and none
/// but the relief's way out, the skim and nothing else leaves the block.
/// </summary>
internal static class Conflicts
{
    private const double Sliver = 0.01;

    public static IEnumerable<Finding> Check(ImmutableArray<Feature> features, Box2 block, Kernel kernel)
    {
        Removal[] cuts = [.. features.SelectMany(f => f.Removals).Where(r => r.Kind != FeatureKind.Skim)];
        Box2[] boxes = [.. cuts.Select(c => Measure.Bounds(c.Area))];
        for (int a = 0; a < cuts.Length; a++)
        {
            if (cuts[a].Kind != FeatureKind.Relief && !Within(block, boxes[a]))
            {
                yield return DesignFindings.FeatureOverEdge(cuts[a].Feature, boxes[a].Middle);
            }
            for (int b = a + 1; b < cuts.Length; b++)
            {
                if (
                    cuts[a].Setup == cuts[b].Setup
                    && cuts[a].Feature != cuts[b].Feature
                    && boxes[a].Meets(boxes[b])
                    && !MayMeet(cuts[a].Kind, cuts[b].Kind)
                    && Common(cuts[a], cuts[b], kernel) is { } at
                )
                {
                    yield return DesignFindings.FeaturesMeet(cuts[a].Feature, cuts[b].Feature, at);
                }
            }
        }
    }

    private static bool Within(Box2 block, Box2 box) =>
        box.MinX >= block.MinX && box.MaxX <= block.MaxX && box.MinY >= block.MinY && box.MaxY <= block.MaxY;

    private static Point2? Common(Removal a, Removal b, Kernel kernel)
    {
        ImmutableArray<Region> both = kernel.Offset(kernel.Intersect(a.Area, b.Area), -Sliver);
        return both.Length > 0 ? Measure.Bounds(both[0].Outer).Middle : null;
    }

    private static bool MayMeet(FeatureKind a, FeatureKind b) =>
        Pair(a, b, FeatureKind.Relief, FeatureKind.CutoutRelief)
        || Pair(a, b, FeatureKind.CutoutRelief, FeatureKind.CutoutRelief)
        || Pair(a, b, FeatureKind.Counterbore, FeatureKind.BoltHole)
        || Pair(a, b, FeatureKind.Port, FeatureKind.Net)
        || Pair(a, b, FeatureKind.MagnetPocket, FeatureKind.MagnetNotch)
        || Pair(a, b, FeatureKind.Channel, FeatureKind.Channel)
        || Pair(a, b, FeatureKind.Label, FeatureKind.Mark);

    private static bool Pair(FeatureKind a, FeatureKind b, FeatureKind one, FeatureKind other) =>
        (a == one && b == other) || (a == other && b == one);
}
