using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design;

/// <summary>
/// The shallow grooves that carry the vacuum from the port to all of a zone: a ring along the zone's edge, a line through
/// the port, and as many further lines as leave no point farther from a groove than the stated reach.
/// </summary>
internal static class Net
{
    public sealed record Laid(GrooveFeature Groove, ImmutableArray<VacuumLink> Links, double Farthest);

    public static Stage<ImmutableArray<Laid>> Lay(
        ImmutableArray<SealedZone> zones,
        IReadOnlyList<Region> pockets,
        ImmutableArray<Feature> standing,
        Levels levels,
        Job job,
        Kernel kernel
    )
    {
        if (NetWidth.Choose(job) is not { } cutter)
        {
            return Stage.Failed<ImmutableArray<Laid>>(DesignFindings.NoNetTool());
        }
        List<Finding> findings = [.. NetWidth.Check(cutter, job)];
        List<Laid> nets = [];
        foreach (SealedZone zone in zones)
        {
            ImmutableArray<Region> room = kernel.Difference(
                kernel.Offset([zone.Boundary], -(Zones.Keep(job) + cutter.Radius)),
                kernel.Offset(pockets, job.Rules.Wall + cutter.Radius)
            );
            if (
                room.FirstOrDefault(r => Inside.Contains(r, zone.PortAt)) is not { } connected
                || NetLines.Cover(
                    zone,
                    connected,
                    Ring(zone, connected, cutter, job, kernel),
                    cutter.Radius,
                    job.Rules.NetReach
                )
                    is not { } lines
            )
            {
                findings.Add(DesignFindings.PortBlocked(zone.Index + 1, zone.PortAt));
                continue;
            }
            if (lines.Farthest > job.Rules.NetReach)
            {
                findings.Add(
                    DesignFindings.NetReach(zone.Index + 1, lines.FarthestAt, lines.Farthest, job.Rules.NetReach)
                );
            }
            nets.Add(Groove(zone, lines, cutter, standing, levels, job, kernel));
        }
        return Stage.Of(nets.ToImmutableArray(), findings);
    }

    /// <summary>
    /// The ring goes where a wall stays between its own two sides; narrower places are reached by lines. In a zone too
    /// narrow for that it goes round all the room.
    /// </summary>
    private static Contour Ring(SealedZone zone, Region room, Tool cutter, Job job, Kernel kernel)
    {
        ImmutableArray<Region> wide = kernel.Open([room], cutter.Radius + (job.Rules.Wall / 2));
        return wide.Length == 0
            ? room.Outer
            : wide.MinBy(r => Inside.Contains(r, zone.PortAt) ? 0 : Measure.Distance(zone.PortAt, r))!.Outer;
    }

    private static Laid Groove(
        SealedZone zone,
        NetLines lines,
        Tool cutter,
        ImmutableArray<Feature> standing,
        Levels levels,
        Job job,
        Kernel kernel
    )
    {
        string name = Names.Numbered("net", zone.Index + 1);
        double floor = levels.Face - job.Rules.NetDepth;
        ImmutableArray<Region> area = kernel.UnionAll([
            .. lines.Rings.SelectMany(r => kernel.Stroke(r, cutter.Diameter)),
            .. lines.Runs.SelectMany(r => kernel.Stroke(r, cutter.Diameter)),
        ]);
        GrooveFeature groove = new(
            name,
            FeatureKind.Net,
            Setup.Top,
            lines.Rings,
            lines.Runs,
            cutter.Diameter,
            levels.Face,
            floor,
            [new(Setup.Top, FeatureKind.Net, name, area, levels.Face, floor)]
        );
        double section = cutter.Diameter * job.Rules.NetDepth;
        string port = standing.Single(f => f.Kind == FeatureKind.Port && f.Name == Ports.HoleName(zone.Index)).Name;
        return new(
            groove,
            [new(port, name, section, 0), new(name, Names.Numbered("zone", zone.Index + 1), section, lines.Farthest)],
            lines.Farthest
        );
    }
}
