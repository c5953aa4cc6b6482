using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>What is wrong with a region.</summary>
public enum RegionFaultKind
{
    /// <summary>A coordinate is no number, or infinite.</summary>
    NotFinite,

    /// <summary>A segment starts elsewhere than where the one before ended.</summary>
    Open,

    /// <summary>An arc's ends lie at different distances from its centre.</summary>
    RadiiDiffer,

    /// <summary>An arc ends where it starts: a circle is two arcs.</summary>
    WholeTurn,

    /// <summary>An outer contour runs clockwise, or a hole counter-clockwise.</summary>
    WrongWay,

    /// <summary>A hole reaches beyond the outer contour's extents.</summary>
    HoleOutside,

    /// <summary>The contours enclose a place more than once, or none of them where a hole is: they cross or overlap.</summary>
    Overlap,
}

/// <summary>A fault with the place of it.</summary>
/// <param name="Region">Index of the region.</param>
/// <param name="Contour">Its contour: 0 the outer one, 1 the first hole; -1 where it is all of them.</param>
/// <param name="Segment">The segment; -1 where it is all of them.</param>
/// <param name="At">Where, mm.</param>
/// <param name="Amount">By how much, mm: the gap, the difference of radii, the hole's reach; 0 where there is none.</param>
public readonly record struct RegionFault(
    RegionFaultKind Kind,
    int Region,
    int Contour,
    int Segment,
    Point2 At,
    double Amount
)
{
    /// <summary>What, where, by how much, and what to do.</summary>
    public string Message =>
        FormattableString.Invariant($"region {Region}, contour {Contour}, segment {Segment}: ")
        + Kind switch
        {
            RegionFaultKind.NotFinite => "a coordinate is not finite; leave the segment out",
            RegionFaultKind.Open => FormattableString.Invariant($"a gap of {Amount:R} mm before {At}; join the ends"),
            RegionFaultKind.RadiiDiffer => FormattableString.Invariant(
                $"an arc's radii differ by {Amount:R} mm at {At}; move its centre"
            ),
            RegionFaultKind.WholeTurn => FormattableString.Invariant(
                $"an arc ends where it starts, at {At}; put the circle as two arcs"
            ),
            RegionFaultKind.HoleOutside => FormattableString.Invariant(
                $"a hole reaches {Amount:R} mm beyond the outer contour at {At}; put it into the region it lies in"
            ),
            RegionFaultKind.WrongWay => "the contour runs the wrong way; reverse it",
            RegionFaultKind.Overlap => FormattableString.Invariant(
                $"contours cross or overlap at {At}; repair them by a fill rule"
            ),
        };
}

/// <summary>Input that is no region; what is wrong is said in <see cref="Faults"/>.</summary>
public sealed class RegionException(ImmutableArray<RegionFault> faults)
    : KernelException(string.Join("; ", faults.Take(3).Select(f => f.Message)))
{
    /// <summary>At least one.</summary>
    public ImmutableArray<RegionFault> Faults { get; } = faults;
}
