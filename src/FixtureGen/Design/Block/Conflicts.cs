using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Block;

/// <summary>
/// The design's own last look: between any two features of the same side stands a wall, unless one is meant to run into
/// the other, and nothing but the relief's way out and the skim leaves the block.
/// </summary>
internal static class Conflicts
{
    /// <summary>How much thinner than asked a wall may be before it is a finding, mm.</summary>
    private const double Slack = 0.02;

    private const double Precision = 0.01;

    public static IEnumerable<Finding> Check(ImmutableArray<Feature> features, Box2 block, double wall, Kernel kernel)
    {
        Removal[] cuts = [.. features.SelectMany(f => f.Removals).Where(r => !r.MakesFace)];
        Box2[] boxes = [.. cuts.Select(c => Measure.Bounds(c.Area))];
        for (int a = 0; a < cuts.Length; a++)
        {
            if (cuts[a].Kind != FeatureKind.Relief && !Within(block, boxes[a]))
            {
                yield return BlockFindings.FeatureOverEdge(cuts[a].Feature, boxes[a].Middle);
            }
            Box2 near = boxes[a].Outset(wall);
            Grown? grown = null;
            for (int b = a + 1; b < cuts.Length; b++)
            {
                if (!near.Meets(boxes[b]) || MayMeet(cuts[a], cuts[b]))
                {
                    continue;
                }
                grown ??= new Grown(kernel.Offset(cuts[a].Area, wall - Slack));
                if (grown.MayReach(cuts[b], boxes[b]) && Common(grown.Area, cuts[b], kernel) is { } at)
                {
                    yield return Between(cuts[a], cuts[b], at, wall, kernel);
                }
            }
        }
    }

    private static bool Within(Box2 block, Box2 box) =>
        box.MinX >= block.MinX && box.MaxX <= block.MaxX && box.MinY >= block.MinY && box.MaxY <= block.MaxY;

    private static Finding Between(Removal a, Removal b, Point2 at, double wall, Kernel kernel)
    {
        double apart = 0;
        double meets = wall;
        while (meets - apart > Precision)
        {
            double mid = (apart + meets) / 2;
            (apart, meets) = Common(kernel.Offset(a.Area, mid), b, kernel) is null ? (mid, meets) : (apart, mid);
        }
        return apart <= 0
            ? BlockFindings.FeaturesMeet(a.Feature, b.Feature, at)
            : BlockFindings.WallThin(a.Feature, b.Feature, at, apart, wall);
    }

    /// <summary>Where the second comes into the grown first; null where it does not.</summary>
    private static Point2? Common(ImmutableArray<Region> grown, Removal b, Kernel kernel)
    {
        ImmutableArray<Region> both = kernel.Intersect(grown, b.Area);
        return both.Length > 0 ? Measure.Bounds(both[0].Outer).Middle : null;
    }

    /// <summary>A cut grown by what must stand round it, to be asked about many others.</summary>
    private sealed class Grown(ImmutableArray<Region> area)
    {
        private readonly RegionIndex _index = new(area);

        public ImmutableArray<Region> Area => area;

        /// <summary>False only where it does not come to another: that one's box meets none of its edges and lies outside.</summary>
        public bool MayReach(Removal other, Box2 box) =>
            _index.Touches(box) || other.Area.Any(r => _index.Contains(r.Outer.Segments[0].Start));
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
