using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Block;

/// <summary>
/// Every floor keeps its least thickness: what is cut from the top over the plate's face, and over what is cut from below.
/// Only a hole that is meant to meet the other side may.
/// </summary>
internal static class DepthChain
{
    private const double Slack = 1e-6;

    public static IEnumerable<Finding> Check(ImmutableArray<Feature> features, double leastFloor, Kernel kernel)
    {
        Removal[] top =
        [
            .. features
                .SelectMany(f => f.Removals)
                .Where(r => r.Setup == Setup.Top && !r.MakesFace && !MeetsBelow(r.Kind)),
        ];
        Removal[] below = [.. features.SelectMany(f => f.Removals).Where(r => r.Setup == Setup.Underside)];
        foreach (Removal removal in top)
        {
            if (removal.FloorZ < leastFloor - Slack)
            {
                Point2 at = Measure.Bounds(removal.Area).Middle;
                yield return BlockFindings.FloorThin(removal.Feature, at, removal.FloorZ, leastFloor);
            }
            foreach (Removal under in below.Where(b => !IsPair(removal, b)))
            {
                double floor = removal.FloorZ - under.TopZ;
                if (floor < leastFloor - Slack && Overlap(removal, under, kernel) is { } at)
                {
                    yield return BlockFindings.FloorThin(
                        $"{removal.Feature} over {under.Feature}",
                        at,
                        floor,
                        leastFloor
                    );
                }
            }
        }
    }

    /// <summary>Holes that go through or into a channel.</summary>
    private static bool MeetsBelow(FeatureKind kind) =>
        kind is FeatureKind.BoltHole or FeatureKind.PinHole or FeatureKind.PinSlot or FeatureKind.Port;

    /// <summary>A bolt hole from below ends in its own counterbore.</summary>
    private static bool IsPair(Removal top, Removal below) =>
        top.Kind == FeatureKind.Counterbore && below.Kind == FeatureKind.BoltHole;

    private static Point2? Overlap(Removal a, Removal b, Kernel kernel)
    {
        if (!Measure.Bounds(a.Area).Meets(Measure.Bounds(b.Area)))
        {
            return null;
        }
        ImmutableArray<Region> both = kernel.Intersect(a.Area, b.Area);
        return both.Length > 0 ? Measure.Bounds(both[0].Outer).Middle : null;
    }
}
