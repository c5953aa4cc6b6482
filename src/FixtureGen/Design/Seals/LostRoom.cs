using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Seals;

/// <summary>
/// What of the room is in no zone, whether a zone came about beside it or not: a finding, so that nobody thinks it is held. What
/// the cord's bends round off is smaller than the least loop of cord and no finding.
/// </summary>
internal static class LostRoom
{
    /// <param name="radius">The least radius of a groove's centre line, mm.</param>
    public static IEnumerable<Finding> Find(
        IReadOnlyList<Region> room,
        IReadOnlyList<Region> zones,
        double radius,
        Kernel kernel
    )
    {
        double leastLoop = Math.PI * radius * radius;
        foreach (Region piece in room)
        {
            bool whole = kernel.Intersect([piece], zones).Length == 0;
            Region[] lost = whole ? [piece] : [.. Beside(piece, zones, kernel).Where(p => Measure.Area(p) > leastLoop)];
            foreach (Region left in lost)
            {
                double widest = 2 * Widest.Radius([left], 2 * radius, kernel);
                yield return ZoneFindings.RoomNotSealed(
                    whole ? Measure.Bounds(left.Outer).Middle : Widest.Place([left], 2 * radius, kernel),
                    Measure.Area(left),
                    widest,
                    2 * radius
                );
            }
        }
    }

    /// <summary>The rest of a piece; what only a hair of it holds together is several.</summary>
    private static ImmutableArray<Region> Beside(Region piece, IReadOnlyList<Region> zones, Kernel kernel)
    {
        const double Hair = 0.5;
        ImmutableArray<Region> rest = kernel.Difference([piece], zones);
        return kernel.Offset(kernel.Offset(rest, -Hair), Hair);
    }
}
