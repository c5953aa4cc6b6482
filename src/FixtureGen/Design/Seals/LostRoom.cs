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
    /// <summary>What of a room is in no zone, one by one: whether too narrow for a loop, where, how wide, mm.</summary>
    private sealed record Lost(Region Left, bool Narrow, Point2 At, double Widest);

    /// <summary>At most one finding for what is too narrow and one for what the cord cannot bend into.</summary>
    /// <param name="radius">The least radius of a groove's centre line, mm.</param>
    /// <param name="remedy">What would seal those areas, in words.</param>
    public static IEnumerable<Finding> Find(
        IReadOnlyList<Region> room,
        IReadOnlyList<Region> zones,
        double radius,
        Func<IReadOnlyList<Region>, string> remedy,
        Kernel kernel
    ) =>
        Pieces(room, zones, radius, kernel)
            .OrderByDescending(l => Math.Round(Measure.Area(l.Left), 3))
            .GroupBy(l => l.Narrow)
            .Select(cause =>
                ZoneFindings.RoomNotSealed(
                    [.. cause.Select(l => (l.At, Measure.Area(l.Left)))],
                    cause.First().Widest,
                    2 * radius,
                    remedy([.. cause.Select(l => l.Left)])
                )
            );

    private static IEnumerable<Lost> Pieces(
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
                Point2 at = whole ? Measure.Bounds(left.Outer).Middle : Widest.Place([left], 2 * radius, kernel);
                yield return new Lost(left, widest < 2 * radius, at, widest);
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
