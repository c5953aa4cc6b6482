using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>What of two sets of regions is wanted.</summary>
public enum RegionOperation
{
    /// <summary>What is in either.</summary>
    Union,

    /// <summary>What is in both.</summary>
    Intersection,

    /// <summary>What is in the first but not in the second.</summary>
    Difference,

    /// <summary>What is in one of them only.</summary>
    ExclusiveOr,
}

/// <summary>Which points loops that cross and overlap are taken to enclose, by how often they run round a point.</summary>
public enum FillRule
{
    /// <summary>Those that the loops run round at all, counter-clockwise and clockwise turns taken off each other.</summary>
    NonZero,

    /// <summary>Those that they run round an odd number of times.</summary>
    EvenOdd,

    /// <summary>Those that they run round counter-clockwise more often than clockwise.</summary>
    Positive,
}

/// <summary>How a corner that opens is filled.</summary>
public enum CornerJoin
{
    /// <summary>By an arc about the corner: nothing is farther from it than the distance.</summary>
    Round,

    /// <summary>By lengthening both sides to their common point, squared off where that is farther than the limit.</summary>
    Mitre,

    /// <summary>By a straight edge across the corner at the distance from it.</summary>
    Square,
}

/// <summary>How a path's end is closed.</summary>
public enum PathCap
{
    /// <summary>By half a circle about the end.</summary>
    Round,

    /// <summary>Straight across the end.</summary>
    Flat,

    /// <summary>Straight across, half the width beyond the end.</summary>
    Square,
}

/// <summary>An edge that was given: of the first set (0) or the second (1), by region, contour (0 the outer one) and segment.</summary>
public readonly record struct EdgeSource(int Set, int Region, int Contour, int Segment);

/// <summary>A region whose every edge is known by the given edge that it is a part of.</summary>
/// <param name="Sources">
/// For each contour (the outer one, then the holes) and each of its segments; of edges that lie on each other, or continue
/// each other straight on, the longest.
/// </param>
public sealed record TracedRegion(Region Region, ImmutableArray<ImmutableArray<EdgeSource>> Sources);
