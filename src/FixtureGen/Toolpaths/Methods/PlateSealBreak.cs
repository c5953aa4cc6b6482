using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths.Methods;

/// <summary>
/// Whether a cut lets air into the space that holds the block: it opens the block's underside where, wherever the raw block
/// lies on its stops, the plate's seal zone may be under it. A port always does: blind, it ends in a channel from below.
/// </summary>
internal static class PlateSealBreak
{
    public static bool Breaks(Feature feature, Plate plate)
    {
        bool through = feature.Kind == FeatureKind.Port || feature.Removals.Any(r => r.FloorZ <= plate.Skin + 1e-6);
        return through && feature.Removals.SelectMany(r => r.Area).Any(a => Touches(a, plate));
    }

    private static bool Touches(Region area, Plate plate)
    {
        double margin = plate.PlacingTolerance + (plate.SealGrooveWidth / 2);
        return area.Outer.Segments.Any(s =>
                Inside.Contains(plate.SealLoop, s.Start) || Measure.Distance(s.Start, plate.SealLoop) < margin
            )
            || plate.SealLoop.Segments.Any(s => Measure.Distance(s.Start, area) < margin)
            || plate.SealLoop.Segments.Any(s => Measure.Distance(Measure.PointAt(s, 0.5), area) < margin);
    }
}
