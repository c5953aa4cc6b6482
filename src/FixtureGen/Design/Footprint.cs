using System.Collections.Immutable;
using FixtureGen.Design.Block;
using FixtureGen.Design.Forms;
using FixtureGen.Design.Seals;
using FixtureGen.Design.Trim;
using FixtureGen.Design.Vacuum;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design;

/// <summary>
/// What a part takes up of a blank wherever it is put, part frame: the relief's outer wall, the locator pins in its
/// scrap, and for each sealed zone the room in which a port hole may stand.
/// </summary>
internal sealed record Footprint(
    Contour Outer,
    ImmutableArray<Point2> LocatorPins,
    ImmutableArray<ImmutableArray<Region>> PortRooms,
    TrimCut Outline,
    Contour Middle
)
{
    public static Stage<Footprint> Find(Part part, Job job, Kernel kernel) =>
        FindingLog.Tell(log =>
        {
            Levels levels = Levels.From(job);
            ImmutableArray<TrimCut> trims = log.Take(TrimPlanner.Plan(part, job, kernel));
            TrimCut outline = trims.Single(c => c.Kind == TrimKind.Outline);
            ImmutableArray<Region> around = Relief.Around(outline, trims, job, kernel);
            ImmutableArray<PocketFeature> pockets =
            [
                .. Relief.Cutouts(trims, levels, job, kernel),
                .. Relief.Holes(DrillChoice.Plan(part, job, kernel), levels, job),
                .. log.Take(FormPockets.Cut(part, levels, job, kernel)),
            ];
            Region[] given = [.. around, .. pockets.SelectMany(p => p.Area)];
            Part plugged = Plugs.Choose(part, log.Take(FormStrength.Find(part, job, kernel)));
            ImmutableArray<Region> zones = log.Take(Zones.Find(plugged, given, job, kernel));
            return new Footprint(
                around[0].Outer,
                job.Locator == LocatorKind.Pins ? job.LocatorPins : [],
                [.. zones.Select(z => Ports.HoleRoom(z, PortSize.UsualDiameter / 2, job, kernel))],
                outline,
                Relief.Middle(outline, job, kernel)
            );
        });

    public Footprint Turned(double angleDeg)
    {
        Pose turn = new(0, 0, angleDeg);
        return new(
            Transform.Apply(turn, Outer),
            [.. LocatorPins.Select(p => Transform.Apply(turn, p))],
            [.. PortRooms.Select(z => z.Select(r => Transform.Apply(turn, r)).ToImmutableArray())],
            Outline,
            Middle
        );
    }
}
