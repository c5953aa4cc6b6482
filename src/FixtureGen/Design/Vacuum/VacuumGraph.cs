using System.Collections.Immutable;
using FixtureGen.Design.Block;
using FixtureGen.Model;

namespace FixtureGen.Design.Vacuum;

/// <summary>The vacuum path as a graph: whether every zone hangs on a port of the plate, and by what narrowest section.</summary>
internal static class VacuumGraph
{
    public static IEnumerable<Finding> Check(
        IReadOnlyList<SealedZone> zones,
        ImmutableArray<VacuumLink> links,
        Plate plate
    )
    {
        HashSet<string> reached = [.. plate.Ports.Select(p => p.Name)];
        bool grew = true;
        while (grew)
        {
            grew = links.Any(l => l.SectionMm2 > 0 && reached.Contains(l.From) && reached.Add(l.To));
        }
        return zones
            .Where(z => !reached.Contains(Names.Numbered("zone", z.Index + 1)))
            .Select(z => NetFindings.ZoneCutOff(z.Index + 1, z.PortAt));
    }
}
