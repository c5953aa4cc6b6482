using System.Collections.Immutable;
using FixtureGen.Design.Block;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Vacuum;

/// <summary>
/// Says how much of a zone its net does not reach, which magnets stand in its way, and which ones it passes nearer than a
/// land. A magnet is to blame where the net that is made without it reaches more: each is tried.
/// </summary>
internal sealed class NetReachCheck(
    ImmutableArray<MagnetPlace> magnets,
    IReadOnlyList<Point2> wished,
    ImmutableArray<ImmutableArray<Region>> pockets,
    Levels levels,
    Job job,
    Kernel kernel
)
{
    /// <summary>What the pocket of a magnet may lie nearer than a land before the net is said to pass it, mm.</summary>
    private const double Near = 0.01;

    public IEnumerable<Finding> Check(Net.Laid laid)
    {
        int zone = laid.Zone.Index + 1;
        ImmutableArray<Region> unreached = kernel.Difference(laid.Zone.Sealed, laid.Zone.Reached);
        double lost = Measure.Area(unreached);
        if (lost >= ReachedArea.Rounding)
        {
            (Point2 at, double farther) = Farthest(unreached, laid);
            (int[] culprits, double without) = Culprits(laid.Zone, lost);
            yield return culprits.Length > 0
                ? NetFindings.NetCutByMagnets(zone, at, lost, job.Rules.NetReach, Named(culprits), lost - without)
                : NetFindings.NetReach(zone, at, lost, job.Rules.NetReach, farther);
        }
        int[] near = [.. Enumerable.Range(0, pockets.Length).Where(i => NearerThanALand(i, laid))];
        if (near.Length > 0)
        {
            yield return NetFindings.NetNearPocket(
                zone,
                magnets[near[0]].At,
                Named(near),
                job.Rules.Land,
                laid.FromPockets
            );
        }
    }

    /// <summary>The point of an area's edge that is farthest from the net, and how much farther than the reach, mm.</summary>
    private (Point2 At, double Farther) Farthest(ImmutableArray<Region> unreached, Net.Laid laid)
    {
        Region[] net = [.. laid.Groove.Removals.SelectMany(r => r.Area)];
        return unreached
            .SelectMany(r => Flatten.Points(r.Outer, 0.1))
            .Select(p => (p, Measure.Distance(p, net) - job.Rules.NetReach))
            .MaxBy(t => Math.Round(t.Item2, 3));
    }

    /// <summary>
    /// The magnets without which the net reaches as much as without any, the one whose absence gives most first; none where
    /// none gives anything. And what is still not reached without them, mm2.
    /// </summary>
    private (int[] Magnets, double Unreached) Culprits(SealedZone zone, double lost)
    {
        int[] here = [.. Enumerable.Range(0, magnets.Length).Where(i => Inside.Contains(zone.Boundary, magnets[i].At))];
        double least = here.Length == 0 ? lost : Unreached(zone, here);
        List<int> blamed = [];
        while (lost > least + ReachedArea.Rounding && blamed.Count < here.Length)
        {
            (int next, lost) = here.Except(blamed)
                .Select(i => (i, Unreached(zone, [.. blamed, i])))
                .MinBy(t => Math.Round(t.Item2, 1));
            blamed.Add(next);
        }
        return ([.. blamed.Order()], lost);
    }

    /// <summary>What the net of a zone does not reach without some of the magnets, mm2.</summary>
    private double Unreached(SealedZone zone, IReadOnlyCollection<int> without)
    {
        Region[] standing = [.. pockets.Where((_, i) => !without.Contains(i)).SelectMany(p => p)];
        Stage<ImmutableArray<Net.Laid>> laid = Net.Lay([zone], kernel.UnionAll(standing), levels, job, kernel);
        double reached = laid is { Ok: true, Value: [var one] } ? Measure.Area(one.Zone.Reached) : 0;
        return Measure.Area(zone.Sealed) - reached;
    }

    private bool NearerThanALand(int magnet, Net.Laid laid)
    {
        Region[] net = [.. laid.Groove.Removals.SelectMany(r => r.Area)];
        return laid.FromPockets < job.Rules.Land
            && pockets[magnet]
                .SelectMany(r => Flatten.Points(r.Outer, Near))
                .Any(p => Measure.Distance(p, net) < job.Rules.Land - (2 * Near));
    }

    private string Named(int[] which)
    {
        string[] names = [.. which.Select(i => FindingWords.Count(i + 1) + (Asked(i) ? " (asked for)" : ""))];
        return (which.Length == 1 ? "magnet " : "magnets ") + string.Join(", ", names);
    }

    private bool Asked(int magnet) =>
        magnets[magnet].Locked
        || magnets[magnet].FromDrawing
        || wished.Any(w => w.DistanceTo(magnets[magnet].At) < Near);
}
