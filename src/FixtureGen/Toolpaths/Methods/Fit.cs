using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths.Methods;

/// <summary>What is removed for a feature in one setup, from the highest floor to the lowest.</summary>
internal static class Fit
{
    public static ImmutableArray<Removal> RemovalsIn(Feature feature, Setup setup) =>
        [.. feature.Removals.Where(r => r.Setup == setup && !r.Area.IsEmpty).OrderByDescending(r => r.FloorZ)];
}
