using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design;

/// <summary>Pieces of the room in which no zone came about: told, so that nobody thinks they are held.</summary>
internal static class LostRoom
{
    public static IEnumerable<Finding> Of(
        IReadOnlyList<Region> room,
        IReadOnlyList<Region> zones,
        double radius,
        Kernel kernel
    ) =>
        room.Where(piece => kernel.Intersect([piece], zones).Length == 0)
            .Select(piece =>
                ZoneFindings.RoomNotSealed(
                    Measure.Bounds(piece.Outer).Middle,
                    Measure.Area(piece),
                    2 * Widest.Radius([piece], radius, kernel),
                    2 * radius
                )
            );
}
