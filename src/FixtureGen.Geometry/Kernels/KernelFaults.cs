using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

// What is wrong with input, and when it is refused.
public sealed partial class Kernel
{
    /// <summary>
    /// What is wrong with regions: coordinates that are not finite, contours open by more than the grid or run the wrong way,
    /// arcs whose radii differ by more than 0.001 mm (a thousand grids) or that end where they start, holes that reach beyond
    /// their outer contour's extents, and places more than ten grids across that the contours of all the regions together
    /// enclose more than once or less than not at all; empty where nothing is. What encloses nothing runs neither way. Overlaps
    /// are looked for only where nothing else was found.
    /// </summary>
    /// <exception cref="KernelException">No check for overlaps could be proven.</exception>
    public ImmutableArray<RegionFault> Faults(IReadOnlyList<Region> regions)
    {
        ImmutableArray<RegionFault> faults = RegionFaults.Find(regions, _slack);
        return faults.IsEmpty ? Overlaps(regions, most: 1) : faults;
    }

    /// <summary>Places that the contours enclose less than not at all, or more often than so many times.</summary>
    private ImmutableArray<RegionFault> Overlaps(IReadOnlyList<Region> regions, int most)
    {
        Overlay overlay = _combination.Overlay;
        overlay.Begin();
        List<EdgeSource> edges = [];
        double moved = 0;
        IReadOnlyList<Region> workable = GivenArcs.Workable(regions, _slack.Near, ref moved);
        overlay.Loader.Edges = edges;
        overlay.Loader.AddAll(workable, 0);
        overlay.Loader.Edges = null;
        overlay.EndFirstSet();
        if (overlay.Work(static (turns, _) => turns > 0, widening: 1) is null)
        {
            throw new KernelException("no check for overlaps could be proven");
        }
        bool asGiven = ReferenceEquals(workable, regions);
        return
        [
            .. overlay
                .Strange(most)
                .Where(f => IsThick(workable, f.Piece, most))
                .Select(f => Overlapping(Given(edges[f.Origin], regions, [], asGiven), f.Piece.Probe))
                .DistinctBy(static f => (f.Region, f.Contour)),
        ];
    }

    private static RegionFault Overlapping(EdgeSource edge, Point2 at) =>
        new(RegionFaultKind.Overlap, edge.Region, edge.Contour, edge.Segment, at, 0);

    /// <summary>True where the turns are as strange some way beside the piece: what is thinner is a drawing's rounding.</summary>
    private bool IsThick(IReadOnlyList<Region> regions, in Curve piece, int most)
    {
        Point2 at = piece.Probe;
        Point2 side = piece.TangentAt(at).Left * _slack.Touch;
        return Turns(regions, at + side) is var left && (left < 0 || left > most)
            || Turns(regions, at - side) is var right && (right < 0 || right > most);
    }

    private static int Turns(IReadOnlyList<Region> regions, Point2 p)
    {
        int turns = 0;
        foreach (Segment s in regions.SelectMany(static r => r.Contours).SelectMany(static c => c.Segments))
        {
            turns += s.Start == s.End ? 0 : Ray.Turns(Curve.From(s), p);
        }
        return turns;
    }

    /// <summary>After a combination: throws where a set encloses a place less than not at all, as a hole outside of its region does.</summary>
    private void ThrowIfNegative(IReadOnlyList<Region> a, IReadOnlyList<Region> b)
    {
        if (!_combination.Overlay.AnyNegative)
        {
            return;
        }
        ImmutableArray<RegionFault> faults = [.. Overlaps(a, int.MaxValue), .. Overlaps(b, int.MaxValue)];
        if (!faults.IsEmpty)
        {
            throw new RegionException(faults);
        }
    }

    /// <summary>Throws where regions overlap: each would keep away from the others' edges inside of it.</summary>
    private void ThrowIfOverlapping(IReadOnlyList<Region> regions)
    {
        if (RegionBoxes.AnyOverlap(regions) && Overlaps(regions, most: 1) is { IsEmpty: false } faults)
        {
            throw new RegionException(faults);
        }
    }

    private static double Positive(double length)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(length);
        ThrowIfNotFinite(length);
        return length;
    }

    private static double NotNegative(double length)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(length);
        ThrowIfNotFinite(length);
        return length;
    }

    private static void ThrowIfNotFinite(double length)
    {
        if (!double.IsFinite(length))
        {
            throw new ArgumentOutOfRangeException(nameof(length), length, "a length must be finite");
        }
    }
}
