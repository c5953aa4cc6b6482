using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Design.Block;

/// <summary>A round thing that stands in the block or in its face; Radius is its own, no wall added. Plate frame, mm.</summary>
internal sealed record Obstacle(string Name, Point2 At, double Radius);

/// <summary>What the plate demands of every block: bolts with their counterbores and the two pins.</summary>
internal static class Obstacles
{
    public static ImmutableArray<Obstacle> Find(Job job, Box2 block) =>
        [
            .. Bolts
                .Within(job.Plate, block)
                .Select(b => new Obstacle(b.Name, b.At, Bolts.CounterboreDiameter(job.Bolt) / 2)),
            .. Pins.Openings(job.Plate)
                .Where(o => block.Contains(o.At))
                .Select(o => new Obstacle(o.Name, o.At, (Pins.BoreDiameter(job) / 2) + Pins.HalfSlot(job, o))),
        ];

    public static IEnumerable<Obstacle> Find(IEnumerable<Feature> holes) =>
        holes.OfType<HoleFeature>().Select(h => new Obstacle(h.Name, h.At, h.Diameter / 2));
}
