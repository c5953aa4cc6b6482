using System.Collections.Immutable;
using FixtureGen.Design.Block;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Forms;

/// <summary>What stands round a magnet pocket: groove walls, port holes, other pockets. A wall stays to each, mm.</summary>
internal sealed class MagnetWalls(
    ImmutableArray<MagnetPlace> magnets,
    ImmutableArray<SealedZone> zones,
    ImmutableArray<Feature> standing,
    double radius,
    Job job
)
{
    private readonly ImmutableArray<HoleFeature> _holes = [.. standing.OfType<HoleFeature>()];
    private readonly ImmutableArray<PocketFeature> _pockets =
    [
        .. standing.OfType<PocketFeature>().Where(p => p.Kind is not (FeatureKind.Skim or FeatureKind.Plug)),
    ];

    public IEnumerable<Finding> Check(int magnet)
    {
        Point2 at = magnets[magnet].At;
        (double distance, string what) = Nearest(magnet, at);
        double shortBy = radius + job.Rules.Wall - distance;
        if (shortBy > 1e-3)
        {
            yield return PocketFindings.MagnetWall(magnet + 1, at, what, shortBy, job.Rules.Wall);
        }
    }

    /// <summary>Distance from a point to the nearest thing that is not this magnet's own pocket, mm.</summary>
    public double Room(int magnet, Point2 p) => Nearest(magnet, p).Distance;

    private (double Distance, string What) Nearest(int magnet, Point2 p)
    {
        List<(double Distance, string What)> all = [];
        double half = job.Gasket.GrooveWidth / 2;
        foreach (SealedZone zone in zones)
        {
            double distance = Measure.Distance(p, zone.Boundary) - half;
            all.Add((distance, "the gasket groove"));
        }
        foreach (HoleFeature hole in _holes)
        {
            all.Add((p.DistanceTo(hole.At) - ((hole.Diameter + hole.SlotLength) / 2), hole.Name));
        }
        foreach (PocketFeature pocket in _pockets)
        {
            double distance = Measure.Distance(p, pocket.Area);
            all.Add((Inside.Contains(pocket.Area, p) ? -distance : distance, pocket.Name));
        }
        for (int i = 0; i < magnets.Length; i++)
        {
            if (i != magnet)
            {
                all.Add((p.DistanceTo(magnets[i].At) - radius, Names.Numbered("magnet", i + 1)));
            }
        }
        return all.MinBy(a => a.Distance);
    }
}
