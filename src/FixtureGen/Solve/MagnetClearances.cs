using System.Collections.Immutable;
using FixtureGen.Holding.Magnets;
using FixtureGen.Model;

namespace FixtureGen.Solve;

/// <summary>A magnet that stands where it may not.</summary>
/// <param name="Magnet">Its index, from 0.</param>
/// <param name="ShortBy">What its clearance lacks, mm, above 0.</param>
/// <param name="Against">What is too near, as findings name it.</param>
/// <param name="At">That thing's nearest point, plate frame, mm; a hole's or a neighbour's middle.</param>
/// <param name="Neighbour">The other magnet's index where that is what is too near, else null.</param>
public sealed record ClearanceLack(int Magnet, double ShortBy, string Against, Point2 At, int? Neighbour);

/// <summary>The same rules that choose places, asked about places somebody else chose. Plate frame, mm.</summary>
public sealed class MagnetClearances
{
    private readonly MagnetRoom _room;
    private readonly double _spacing;

    /// <summary>The rules of a design whose magnets are not placed yet.</summary>
    /// <param name="pair">The job's magnet pair, for the least spacing.</param>
    public MagnetClearances(FixtureDesign begun, Job job, PairOnBlock pair)
    {
        _room = new MagnetRoom(begun, job);
        _spacing = Math.Max(pair.Spacing, _room.PocketSpacing);
    }

    /// <summary>Whether a magnet may stand at a place with its neighbours where they are.</summary>
    public bool Allows(Point2 at, IEnumerable<Point2> neighbours) =>
        _room.RoomAt(at).Slack >= -1e-6 && neighbours.All(n => n.DistanceTo(at) >= _spacing - 1e-6);

    /// <summary>
    /// Every clearance that is short by more than 1e-6 mm, in the order of the magnets; empty where none is. Of a magnet's
    /// room only the worst is named; two that are too near each other are named once, under the later.
    /// </summary>
    public ImmutableArray<ClearanceLack> Find(IReadOnlyList<Point2> at)
    {
        var lacks = ImmutableArray.CreateBuilder<ClearanceLack>();
        for (int i = 0; i < at.Count; i++)
        {
            (double slack, string against) = _room.RoomAt(at[i]);
            if (slack < -1e-6)
            {
                lacks.Add(new ClearanceLack(i, -slack, against, _room.Nearest(at[i]), null));
            }
            for (int j = 0; j < i; j++)
            {
                double apart = at[i].DistanceTo(at[j]);
                if (apart < _spacing - 1e-6)
                {
                    lacks.Add(new ClearanceLack(i, _spacing - apart, "its neighbour", at[j], j));
                }
            }
        }
        return lacks.ToImmutable();
    }
}
