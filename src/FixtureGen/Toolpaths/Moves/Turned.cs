using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths.Moves;

/// <summary>
/// A feature cut from below, as it lies after the block was turned over: mirrored by the flip, its ceiling become its floor
/// (Z' = raw thickness - Z). A groove's or a wall's direction turns with the mirror and is put right again.
/// </summary>
internal static class Turned
{
    /// <summary>Heights that agree to this, mm, are the same.</summary>
    private const double Same = 1e-6;

    public static Feature Over(Feature feature, Flip flip, double raw)
    {
        ImmutableArray<Removal> removals = [.. feature.Removals.Select(r => Over(r, flip, raw))];
        double top = raw - Floor(feature);
        double floor = raw - Top(feature);
        return feature switch
        {
            PocketFeature p => p with { Area = Over(p.Area, flip), TopZ = top, FloorZ = floor, Removals = removals },
            GrooveFeature g => g with
            {
                Loops = [.. g.Loops.Select(l => Transform.Apply(flip, l))],
                Runs = [.. g.Runs.Select(r => Transform.Apply(flip, r))],
                TopZ = top,
                FloorZ = floor,
                Removals = removals,
            },
            HoleFeature h => h with
            {
                At = flip.Apply(h.At),
                SlotAngleDeg = 180 - h.SlotAngleDeg,
                TopZ = top,
                FloorZ = floor,
                Removals = removals,
            },
            EngravingFeature e => e with
            {
                Strokes = [.. e.Strokes.Select(s => Transform.Apply(flip, s))],
                TopZ = top,
                Removals = removals,
            },
            _ => throw new InvalidOperationException($"No turn for {feature.GetType().Name}."),
        };
    }

    /// <summary>
    /// A turned feature that begins at the nominal face begins at the thickest blank's: cuts come down from there, and a thinner
    /// blank costs a little air.
    /// </summary>
    public static Feature Raised(Feature feature, double raw, double thickest)
    {
        ImmutableArray<Removal> removals = [.. feature.Removals.Select(r => r with { TopZ = Up(r.TopZ) })];
        return feature switch
        {
            PocketFeature p => p with { TopZ = Up(p.TopZ), Removals = removals },
            GrooveFeature g => g with { TopZ = Up(g.TopZ), Removals = removals },
            HoleFeature h => h with { TopZ = Up(h.TopZ), Removals = removals },
            _ => feature,
        };

        double Up(double top) => Math.Abs(top - raw) < Same ? thickest : top;
    }

    private static Removal Over(Removal r, Flip flip, double raw) =>
        r with
        {
            Area = Over(r.Area, flip),
            TopZ = raw - r.FloorZ,
            FloorZ = raw - r.TopZ,
        };

    private static ImmutableArray<Region> Over(ImmutableArray<Region> area, Flip flip) =>
        [.. area.Select(r => Transform.Apply(flip, r))];

    private static double Top(Feature f) =>
        f switch
        {
            PocketFeature p => p.TopZ,
            GrooveFeature g => g.TopZ,
            HoleFeature h => h.TopZ,
            EngravingFeature e => e.TopZ,
            _ => 0,
        };

    private static double Floor(Feature f) =>
        f switch
        {
            PocketFeature p => p.FloorZ,
            GrooveFeature g => g.FloorZ,
            HoleFeature h => h.FloorZ,
            EngravingFeature e => e.TopZ - e.Depth,
            _ => 0,
        };
}
