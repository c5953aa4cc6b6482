using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Holding;

/// <summary>
/// A magnet that stands where it may not: short by so many mm of what it is nearest to, and that thing's nearest point.
/// Neighbour is the other magnet's index where that is what offends.
/// </summary>
public sealed record ClearanceLack(int Magnet, double ShortBy, string Against, Point2 At, int? Neighbour);

/// <summary>The same rules that choose places, asked about places somebody else chose. Plate frame, mm.</summary>
public sealed class MagnetClearances
{
    private readonly MagnetRoom room;
    private readonly double spacing;

    /// <param name="pair">The job's magnet pair.</param>
    public MagnetClearances(FixtureDesign begun, Job job, PairOnBlock pair)
    {
        room = new MagnetRoom(begun, job);
        spacing = Math.Max(pair.Spacing, room.PocketSpacing);
    }

    /// <summary>Every clearance that is not kept, in the order of the magnets; empty where all are.</summary>
    public ImmutableArray<ClearanceLack> Of(IReadOnlyList<Point2> at)
    {
        var lacks = ImmutableArray.CreateBuilder<ClearanceLack>();
        for (int i = 0; i < at.Count; i++)
        {
            (double slack, string against) = room.At(at[i]);
            if (slack < -1e-6)
            {
                lacks.Add(new ClearanceLack(i, -slack, against, room.Nearest(at[i]), null));
            }
            for (int j = 0; j < i; j++)
            {
                double apart = at[i].DistanceTo(at[j]);
                if (apart < spacing - 1e-6)
                {
                    lacks.Add(new ClearanceLack(i, spacing - apart, "its neighbour", at[j], j));
                }
            }
        }
        return lacks.ToImmutable();
    }
}
