using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Block;

/// <summary>
/// The space inside the plate's own seal, which alone holds a block that is being cut. A hole that must not break that
/// hold lies wholly outside the seal's groove by the placing tolerance; a channel from below lies wholly inside.
/// </summary>
internal static class PlateSeal
{
    public static IEnumerable<Finding> Check(Plate plate, string hole, Point2 at, double radius)
    {
        double needed = radius + (plate.SealGrooveWidth / 2) + plate.PlacingTolerance;
        double distance = Measure.Distance(at, plate.SealLoop);
        bool inside = Inside.Contains(Contours.Ccw(plate.SealLoop), at);
        double shortBy = inside ? needed + distance : needed - distance;
        if (shortBy > 0)
        {
            yield return BlockFindings.HoleInPlateSeal(hole, at, shortBy);
        }
    }

    /// <summary>Where something of this half-width may open in the block's underside and still be sealed.</summary>
    public static IReadOnlyList<Region> Inner(Plate plate, double land, double halfWidth, Kernel kernel) =>
        kernel.Offset(
            [Region.From(Contours.Ccw(plate.SealLoop))],
            -((plate.SealGrooveWidth / 2) + plate.PlacingTolerance + land + halfWidth)
        );

    /// <summary>The blank must cover the seal wherever the stops let it lie.</summary>
    public static IEnumerable<Finding> CheckCover(Job job, Box2 block)
    {
        if (ShortBy(job.Plate, block) is > 0 and var shortBy)
        {
            yield return BlockFindings.BlankInsidePlateSeal(
                shortBy,
                BlankRemedy.Find(job, other => ShortBy(job.Plate, other) <= 0)
            );
        }
    }

    private static double ShortBy(Plate plate, Box2 block)
    {
        Box2 seal = Measure.Bounds(plate.SealLoop).Outset((plate.SealGrooveWidth / 2) + plate.PlacingTolerance);
        return Math.Max(
            Math.Max(block.MinX - seal.MinX, seal.MaxX - block.MaxX),
            Math.Max(block.MinY - seal.MinY, seal.MaxY - block.MaxY)
        );
    }
}
