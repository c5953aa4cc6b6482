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

    /// <summary>An outer contour runs clockwise, or a hole counter-clockwise.</summary>
    WrongWay,

    /// <summary>The contours enclose a place more than once, or none of them where a hole is: they cross or overlap.</summary>
    Overlap,
}

/// <summary>A fault with the place of it.</summary>
/// <param name="Region">Index of the region.</param>
/// <param name="Contour">Its contour: 0 the outer one, 1 the first hole; -1 where it is all of them.</param>
/// <param name="Segment">The segment; -1 where it is all of them.</param>
/// <param name="At">Where, mm.</param>
/// <param name="Amount">By how much, mm: the gap, the difference of radii; 0 where there is none.</param>
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
            RegionFaultKind.WrongWay => "the contour runs the wrong way; reverse it",
            _ => FormattableString.Invariant($"contours cross or overlap at {At}; repair them by a fill rule"),
        };
}

/// <summary>Input that is no region; what is wrong is said in <see cref="Faults"/>.</summary>
public sealed class RegionException(ImmutableArray<RegionFault> faults)
    : KernelException(string.Join("; ", faults.Take(3).Select(f => f.Message)))
{
    /// <summary>At least one.</summary>
    public ImmutableArray<RegionFault> Faults { get; } = faults;
}

/// <summary>Looks for what makes a region none.</summary>
internal static class RegionFaults
{
    /// <summary>Throws where a coordinate is not finite or a contour is open by more than the grid; one pass, nothing else.</summary>
    /// <exception cref="RegionException">It does.</exception>
    public static void ThrowIfBroken(IReadOnlyList<Region> regions, Slack slack)
    {
        for (int i = 0; i < regions.Count; i++)
        {
            bool whole = IsWhole(regions[i].Outer.Segments.AsSpan(), slack);
            foreach (Contour hole in regions[i].Holes)
            {
                whole = whole && IsWhole(hole.Segments.AsSpan(), slack);
            }
            if (!whole && Find(regions, slack) is { IsEmpty: false } faults)
            {
                throw new RegionException(faults);
            }
        }
    }

    /// <summary>The same for one chain.</summary>
    /// <exception cref="RegionException">It is broken.</exception>
    public static void ThrowIfBroken(ImmutableArray<Segment> chain, bool closed, Slack slack)
    {
        List<RegionFault> faults = [];
        Walk(chain, 0, 0, closed, slack, faults);
        if (faults.Count > 0)
        {
            throw new RegionException([.. faults]);
        }
    }

    /// <summary>Everything but overlaps.</summary>
    public static ImmutableArray<RegionFault> Find(IReadOnlyList<Region> regions, Slack slack)
    {
        List<RegionFault> faults = [];
        for (int i = 0; i < regions.Count; i++)
        {
            int k = 0;
            foreach (Contour contour in regions[i].Contours)
            {
                int before = faults.Count;
                Walk(contour.Segments, i, k, closed: true, slack, faults);
                if (faults.Count == before && Measure.Area(contour) < 0 == (k == 0) && !contour.Segments.IsEmpty)
                {
                    faults.Add(new(RegionFaultKind.WrongWay, i, k, -1, contour.Segments[0].Start, 0));
                }
                k++;
            }
        }
        return [.. faults];
    }

    private static bool IsWhole(ReadOnlySpan<Segment> segments, Slack slack)
    {
        if (segments.Length == 0)
        {
            return true;
        }
        Point2 at = segments[^1].End;
        double sum = 0;
        foreach (ref readonly Segment s in segments)
        {
            if (s.Start != at && !(s.Start.DistanceTo(at) <= slack.Grid))
            {
                return false;
            }
            // Anything that is not finite makes the sum so, or not a number.
            sum +=
                (s.Start.X - s.Start.X)
                + (s.Start.Y - s.Start.Y)
                + (s.Centre.X - s.Centre.X)
                + (s.Centre.Y - s.Centre.Y);
            at = s.End;
            if (s.IsArc && RadiiDiffer(s, slack))
            {
                return false;
            }
        }
        return sum == 0;
    }

    private static bool RadiiDiffer(in Segment s, Slack slack)
    {
        Point2 a = s.Start - s.Centre;
        Point2 b = s.End - s.Centre;
        // (ra - rb) (ra + rb), so that no root is taken; what is near the limit is looked at closely later.
        double difference = a.Dot(a) - b.Dot(b);
        return difference * difference > 3.9 * slack.Radii * slack.Radii * Math.Min(a.Dot(a), b.Dot(b));
    }

    private static void Walk(
        ImmutableArray<Segment> segments,
        int region,
        int contour,
        bool closed,
        Slack slack,
        List<RegionFault> faults
    )
    {
        for (int i = 0; i < segments.Length; i++)
        {
            Segment s = segments[i];
            double sum = s.Start.X + s.Start.Y + s.End.X + s.End.Y + s.Centre.X + s.Centre.Y;
            if (!double.IsFinite(sum))
            {
                faults.Add(new(RegionFaultKind.NotFinite, region, contour, i, s.Start, 0));
                continue;
            }
            if (i > 0 || closed)
            {
                double gap = s.Start.DistanceTo(segments[i == 0 ? segments.Length - 1 : i - 1].End);
                if (gap > slack.Grid)
                {
                    faults.Add(new(RegionFaultKind.Open, region, contour, i, s.Start, gap));
                }
            }
            double radii = s.IsArc ? Math.Abs(s.Start.DistanceTo(s.Centre) - s.End.DistanceTo(s.Centre)) : 0;
            if (radii > slack.Radii)
            {
                faults.Add(new(RegionFaultKind.RadiiDiffer, region, contour, i, s.Start, radii));
            }
        }
    }
}
