using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Seals;

/// <summary>
/// Rounds a room that falls into pieces. A cord follows the boundary of one piece, so what stands between two pieces need not
/// be as wide as two bends: each piece is rounded by itself, the largest first, and the next keep a groove's spacing from
/// those before. A room that hangs together by necks is also parted there, since what stands beside a neck may cost more than
/// the neck is worth. Of all ways the one that leaves the largest zone counts.
/// </summary>
internal static class PieceByPiece
{
    /// <summary>Half widths of the necks at which a room is parted, in least radii of the boundary.</summary>
    private static readonly ImmutableArray<double> Necks = [1, 1.25, 1.6, 2, 2.6];

    /// <summary>More pieces than this are not parted once more: there are too many ways.</summary>
    private const int Few = 5;

    /// <param name="room">Where the boundary may run.</param>
    /// <param name="cores">What the room keeps clear of.</param>
    public static BendRadius.Rounded Round(
        IReadOnlyList<Region> room,
        IReadOnlyList<Region> cores,
        OwnLoops.Measures measures,
        Kernel kernel
    ) => new Parting(cores, measures, kernel).Round(room, 0);

    private sealed class Parting(IReadOnlyList<Region> cores, OwnLoops.Measures m, Kernel kernel)
    {
        /// <param name="wider">The first of the necks that is looked at.</param>
        public BendRadius.Rounded Round(IReadOnlyList<Region> room, int wider)
        {
            BendRadius.Rounded best = BendRadius.Both(room, cores, m.Keep, m.Radius, kernel);
            int parts = 1;
            for (int neck = wider; neck < Necks.Length; neck++)
            {
                double half = Necks[neck] * m.Radius;
                Region[] pieces = [.. kernel.Offset(kernel.Offset(room, -half), half).OrderByDescending(Rough)];
                if (pieces.Length <= parts)
                {
                    continue;
                }
                parts = pieces.Length;
                int next = parts > Few ? Necks.Length : neck + 1;
                best = Larger(best, Each(pieces, next, (i, taken) => Apart([pieces[i]], taken)));
                best = Larger(best, Each(pieces, next, (i, taken) => Regained(room, pieces, i, taken)));
            }
            return best;
        }

        /// <param name="left">What there is for the piece of a number, apart from the zones before it.</param>
        private BendRadius.Rounded Each(
            Region[] pieces,
            int wider,
            Func<int, IEnumerable<Region>, IReadOnlyList<Region>> left
        )
        {
            List<Region> taken = [];
            for (int i = 0; i < pieces.Length; i++)
            {
                BendRadius.Rounded rounded = Round(left(i, taken), wider);
                if (rounded.Sharp.IsEmpty)
                {
                    taken.AddRange(rounded.Zone);
                }
            }
            return new([.. taken], []);
        }

        /// <summary>A piece with what the opening took of its corners, as far as that does not come near other pieces.</summary>
        private Region[] Regained(IReadOnlyList<Region> room, Region[] pieces, int piece, IEnumerable<Region> taken) =>
            [
                .. kernel
                    .Open(Apart(room, [.. taken, .. pieces[(piece + 1)..]]), m.Radius)
                    .Where(r => kernel.Intersect([r], [pieces[piece]]).Length > 0),
            ];

        private ImmutableArray<Region> Apart(IReadOnlyList<Region> of, IEnumerable<Region> from) =>
            kernel.Difference(of, kernel.Offset([.. from], m.Between));
    }

    private static BendRadius.Rounded Larger(BendRadius.Rounded best, BendRadius.Rounded other)
    {
        bool better = best.Sharp.IsEmpty ? Sum(other) > Sum(best) : other.Zone.Length > 0;
        return better ? other : best;
    }

    private static double Sum(BendRadius.Rounded rounded) => rounded.Zone.Sum(Rough);

    /// <summary>Area, mm2, without the digits in which equal pieces differ by rounding.</summary>
    private static double Rough(Region piece) => Math.Round(Measure.Area(piece), 3);
}
