using System.Collections.Immutable;
using FixtureGen.Design.Block;
using FixtureGen.Design.Seals;
using FixtureGen.Design.Trim;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Vacuum;

/// <summary>
/// An outer land with its own seal, where the job holds the scrap skirt by one: a zone as narrow as the cord's bend lets
/// it be, round the relief and open where the relief leaves the block. Its vacuum holds the scrap, not the part.
/// </summary>
internal static class SkirtLand
{
    /// <summary>More than two bends, so that rounding does not close the zone, mm.</summary>
    private const double Spare = 1;

    public sealed record Laid(
        ImmutableArray<SealedZone> Zones,
        ImmutableArray<CordLoop> Cords,
        ImmutableArray<Feature> Features,
        ImmutableArray<VacuumLink> Links
    )
    {
        public static Laid None { get; } = new([], [], [], []);
    }

    /// <param name="around">The relief without its way out.</param>
    /// <param name="relief">The relief with it.</param>
    /// <param name="first">The number of zones before.</param>
    public static Stage<Laid> Lay(
        Part placed,
        IReadOnlyList<Region> around,
        IReadOnlyList<Region> relief,
        IReadOnlyList<Obstacle> obstacles,
        Box2 block,
        int first,
        Levels levels,
        Job job,
        Kernel kernel
    )
    {
        if (job.Skirt != SkirtHold.SealedLand)
        {
            return Stage.Answer(Laid.None);
        }
        Region part = Region.From(placed.Outer);
        double reach = Zones.Keep(job) + (2 * Zones.CentreRadius(job)) + Spare;
        ImmutableArray<Region> cores = kernel.UnionAll([
            .. relief,
            part,
            .. obstacles.Select(o => Region.From(Contours.Circle(o.At, o.Radius))),
        ]);
        Region face = Region.From(
            Contours.Rectangle(block.Outset(-(BlankSeat.EdgeMargin(job) + (job.Gasket.GrooveWidth / 2))))
        );
        ImmutableArray<Region> ring = kernel.Offset(kernel.UnionAll([.. around, part]), reach);
        ImmutableArray<Region> room = kernel.Difference(
            kernel.Intersect(ring, [face]),
            kernel.Offset(cores, Zones.Keep(job))
        );
        return Seal(room, cores, obstacles, reach, first, levels, job, kernel);
    }

    private static Stage<Laid> Seal(
        ImmutableArray<Region> room,
        ImmutableArray<Region> cores,
        IReadOnlyList<Obstacle> obstacles,
        double reach,
        int first,
        Levels levels,
        Job job,
        Kernel kernel
    )
    {
        double radius = Zones.CentreRadius(job);
        BendRadius.Rounded rounded = BendRadius.Both(room, cores, Zones.Keep(job), radius, kernel);
        if (rounded.Zone.Length == 0 || rounded.Sharp.Length > 0)
        {
            double widest = Widest.Radius(room, radius, kernel);
            return Stage.Failed<Laid>(ZoneFindings.SkirtLandHasNoRoom(2 * widest, 2 * radius));
        }
        Region[] zones = [.. rounded.Zone.OrderByDescending(z => Math.Round(Measure.Area(z), 3))];
        Stage<Ports.Fed> fed = Ports.Feed(zones, [], obstacles, [], [], [], first, levels, job, kernel);
        if (fed.Value is null)
        {
            return Stage.Failed<Laid>(fed.Findings);
        }
        GasketGrooves.Laid gaskets = GasketGrooves.Lay(fed.Value.Zones, levels, job.Gasket, kernel);
        double skirt = reach + (job.Gasket.GrooveWidth / 2) + Relief.Outward(job);
        return Stage.Answer(
            new Laid(fed.Value.Zones, gaskets.Cords, [.. gaskets.Grooves, .. fed.Value.Features], fed.Value.Links),
            [.. fed.Findings, ZoneFindings.SkirtReach(skirt)]
        );
    }
}
