using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Verify.Holding;

/// <summary>The area of a zone that the vacuum acts on: what its net reaches.</summary>
internal static class ZoneArea
{
    /// <summary>Plate frame, mm.</summary>
    public static ImmutableArray<Region> Acting(SealedZone zone) => zone.Reached;
}
