using System.Globalization;
using FixtureGen.Model;
using static FixtureGen.Design.Block.FindingWords;

namespace FixtureGen.Design.Vacuum;

/// <summary>What keeps the distribution net and the magnets' pockets from their room; lengths in mm.</summary>
internal static class NetFindings
{
    public static Finding NoNetTool() =>
        new(
            "no-net-tool",
            Severity.Error,
            "tools",
            "no end mill reaches the depth of the distribution net",
            "add a small end mill"
        );

    public static Finding PortBlocked(int zone, Point2 at) =>
        new(
            "port-blocked",
            Severity.Error,
            $"port {Count(zone)} at {Place(at)}",
            "a magnet pocket stands so near to the port that no groove leaves it",
            "move the magnet away from the port"
        )
        {
            At = at,
        };

    /// <param name="magnets">In words.</param>
    public static Finding NetNearPocket(int zone, Point2 at, string magnets, double land, double wall) =>
        new(
            "net-near-pocket",
            Severity.Warning,
            $"zone {Count(zone)} at {Place(at)}",
            $"the vacuum net passes {magnets} at a wall of {Mm(wall)} instead of a land of {Mm(land)}: with a land it would reach less of the zone",
            $"move {magnets} farther from the gasket, the port or each other"
        )
        {
            At = at,
        };

    /// <param name="lost">Not reached, mm2.</param>
    /// <param name="farther">How much farther than the reach the place is, mm.</param>
    public static Finding NetReach(int zone, Point2 at, double lost, double reach, double farther) =>
        new(
            "net-reach",
            Severity.Warning,
            $"zone {Count(zone)} at {Place(at)}",
            $"{Small(lost)} of the zone lie farther than {Mm(reach)} from any vacuum groove, this point by {Mm(farther)}: lands leave no room for one, and the vacuum is not counted there",
            $"let magnets hold this place, or give the plate a port or groove under it; where it has been seen that the vacuum comes so far under the shell, a net_reach of {Mm(Math.Ceiling(reach + farther))} counts it"
        )
        {
            At = at,
        };

    /// <param name="magnets">In words.</param>
    /// <param name="regained">What the net reaches more without them, mm2.</param>
    public static Finding NetCutByMagnets(
        int zone,
        Point2 at,
        double lost,
        double reach,
        string magnets,
        double regained
    ) =>
        new(
            "net-cut-by-magnets",
            Severity.Warning,
            $"zone {Count(zone)} at {Place(at)}",
            $"{Small(lost)} of the zone lie farther than {Mm(reach)} from any vacuum groove, with {magnets} in the way of one: the vacuum is not counted there",
            $"move {magnets} out of its way: the net then reaches {Small(regained)} more"
        )
        {
            At = at,
        };

    private static string Small(double mm2) =>
        mm2 < 100 ? mm2.ToString("0", CultureInfo.InvariantCulture) + " mm2" : Area(mm2);

    public static Finding ZoneCutOff(int zone, Point2 at) =>
        new(
            "zone-cut-off",
            Severity.Error,
            $"zone {Count(zone)} at {Place(at)}",
            "no unbroken way leads from a port of the plate to this zone",
            "see the findings before this one"
        )
        {
            At = at,
        };
}
