using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Cuts paths by regions, which may overlap, all in one frame. Along a boundary counts as inside; a mere touch from outside
/// gives nothing. Many paths by the same regions: <see cref="RegionIndex"/>.
/// </summary>
public static class Clip
{
    /// <summary>The pieces of the straight line from a to b that lie inside the regions, in order; none where a is b.</summary>
    public static ImmutableArray<OpenPath> Line(Point2 a, Point2 b, IEnumerable<Region> regions) =>
        a == b ? [] : Path(new OpenPath([Segment.Line(a, b)]), regions);

    /// <summary>The pieces of a path that lie inside the regions, in order; empty where none does.</summary>
    public static ImmutableArray<OpenPath> Path(OpenPath path, IEnumerable<Region> regions) =>
        new RegionIndex(regions).Pieces(path);
}
