using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>Cuts paths by regions; <see cref="RegionIndex"/> for many paths by the same regions.</summary>
public static class Clip
{
    /// <summary>The pieces of the straight line from a to b that lie inside the regions, in order.</summary>
    public static ImmutableArray<OpenPath> Line(Point2 a, Point2 b, IEnumerable<Region> regions) =>
        a == b ? [] : Path(new OpenPath([Segment.Line(a, b)]), regions);

    /// <summary>The pieces of a path that lie inside the regions, in order; a piece along a boundary counts as inside.</summary>
    public static ImmutableArray<OpenPath> Path(OpenPath path, IEnumerable<Region> regions) =>
        new RegionIndex(regions).Pieces(path);
}
