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
        ImmutableArray<Region> cores = kernel.UnionAll([
            .. relief,
            Region.From(placed.Outer),
            .. obstacles.Select(o => Region.From(Contours.Circle(o.At, o.Radius))),
        ]);
        ImmutableArray<Region> ring = [.. around, Region.From(placed.Outer)];
        ImmutableArray<Region> room = Room(ring, cores, block, job, kernel);
        BendRadius.Rounded rounded = Rounded(room, cores, job, kernel);
        if (rounded.Zone.Length == 0 || rounded.Sharp.Length > 0)
        {
            double radius = Zones.CentreRadius(job);
            string remedy = LoopRemedy.Find(
                job,
                other =>
                    Rounded(Room(ring, cores, block, other, kernel), cores, other, kernel)
                        is { Zone.Length: > 0, Sharp.Length: 0 },
                "hold the skirt another way ([skirt] hold)"
            );
            double widest = Widest.Radius(room, radius, kernel);
            return Stage.Failed<Laid>(ZoneFindings.SkirtLandHasNoRoom(2 * widest, 2 * radius, remedy));
        }
        return Seal(rounded.Zone, obstacles, first, levels, job, kernel);
    }

    /// <summary>From the finished edge to the outer side of the groove's centre line, mm.</summary>
    private static double Reach(Job job) => Zones.Keep(job) + (2 * Zones.CentreRadius(job)) + Spare;

    /// <summary>Where the groove's centre line may run: the face beside what the land goes round, a land from everything in it.</summary>
    private static ImmutableArray<Region> Room(
        ImmutableArray<Region> ring,
        ImmutableArray<Region> cores,
        Box2 block,
        Job job,
        Kernel kernel
    )
    {
        Region face = Region.From(
            Contours.Rectangle(block.Outset(-(BlankSeat.EdgeMargin(job) + (job.Gasket.GrooveWidth / 2))))
        );
        ImmutableArray<Region> near = kernel.Offset(kernel.UnionAll([.. ring]), Reach(job));
        return kernel.Difference(kernel.Intersect(near, [face]), kernel.Offset(cores, Zones.Keep(job)));
    }

    private static BendRadius.Rounded Rounded(
        ImmutableArray<Region> room,
        ImmutableArray<Region> cores,
        Job job,
        Kernel kernel
    ) => BendRadius.Both(room, cores, Zones.Keep(job), Zones.CentreRadius(job), kernel);

    private static Stage<Laid> Seal(
        ImmutableArray<Region> rounded,
        IReadOnlyList<Obstacle> obstacles,
        int first,
        Levels levels,
        Job job,
        Kernel kernel
    )
    {
        Region[] zones = [.. rounded.OrderByDescending(z => Math.Round(Measure.Area(z), 3))];
        Stage<Ports.Fed> fed = Ports.Feed(zones, [], obstacles, [], [], [], first, levels, job, kernel);
        if (fed.Value is null)
        {
            return Stage.Failed<Laid>(fed.Findings);
        }
        GasketGrooves.Laid gaskets = GasketGrooves.Lay(fed.Value.Zones, levels, job.Gasket, kernel);
        double skirt = Reach(job) + (job.Gasket.GrooveWidth / 2) + Relief.Outward(job);
        return Stage.Answer(
            new Laid(fed.Value.Zones, gaskets.Cords, [.. gaskets.Grooves, .. fed.Value.Features], fed.Value.Links),
            [.. fed.Findings, ZoneFindings.SkirtReach(skirt)]
        );
    }
}
