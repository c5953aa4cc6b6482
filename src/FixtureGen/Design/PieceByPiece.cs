using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design;

/// <summary>
/// Rounds a room that falls into pieces. A cord follows the boundary of one piece, so what stands between two pieces need not
/// be as wide as two bends: each piece is rounded by itself, the largest first, and the next keep a groove's spacing from
/// those before. Where rounding all at once leaves a larger zone, that counts.
/// </summary>
internal static class PieceByPiece
{
    /// <param name="room">Where the boundary may run.</param>
    /// <param name="cores">What the room keeps clear of.</param>
    public static BendRadius.Rounded Round(
        IReadOnlyList<Region> room,
        IReadOnlyList<Region> cores,
        OwnLoops.Measures measures,
        Kernel kernel
    )
    {
        BendRadius.Rounded together = BendRadius.Both(room, cores, measures.Keep, measures.Radius, kernel);
        Region[] pieces = [.. kernel.Open([.. room], measures.Radius).OrderByDescending(Rough)];
        if (pieces.Length < 2)
        {
            return together;
        }
        List<Region> taken = [];
        foreach (Region piece in pieces)
        {
            ImmutableArray<Region> left = kernel.Difference([piece], kernel.Offset(taken, measures.Between));
            BendRadius.Rounded rounded = BendRadius.Both(left, cores, measures.Keep, measures.Radius, kernel);
            if (rounded.Sharp.IsEmpty)
            {
                taken.AddRange(rounded.Zone);
            }
        }
        bool better = together.Sharp.IsEmpty ? taken.Sum(Rough) > together.Zone.Sum(Rough) : taken.Count > 0;
        return better ? new([.. taken], []) : together;
    }

    /// <summary>Area, mm2, without the digits in which equal pieces differ by rounding.</summary>
    private static double Rough(Region piece) => Math.Round(Measure.Area(piece), 3);
}
