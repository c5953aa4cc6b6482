using System.Collections.Immutable;
using System.Runtime.InteropServices;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

// What goes beyond round offsets and plain combinations: sharp joins and caps, one side of a path, repair, sources, faults.
public sealed partial class Kernel
{
    /// <summary>Everything in just one of the two sets; regions of a set may overlap.</summary>
    /// <exception cref="KernelException">No result could be proven.</exception>
    public ImmutableArray<Region> ExclusiveOr(IReadOnlyList<Region> a, IReadOnlyList<Region> b) =>
        Combined(a, b, static (inA, inB) => inA != inB, "exclusive or");

    /// <summary>A combination whose every edge is known by the given edge it is a part of.</summary>
    /// <exception cref="KernelException">No result could be proven.</exception>
    public ImmutableArray<TracedRegion> Trace(
        RegionOperation operation,
        IReadOnlyList<Region> a,
        IReadOnlyList<Region> b
    )
    {
        Func<int, int, bool> wanted = operation switch
        {
            RegionOperation.Union => static (x, y) => x > 0 || y > 0,
            RegionOperation.Intersection => static (x, y) => x > 0 && y > 0,
            RegionOperation.Difference => static (x, y) => x > 0 && y <= 0,
            RegionOperation.ExclusiveOr => static (x, y) => x > 0 != y > 0,
        };
        double moved = 0;
        IReadOnlyList<Region> first = Workable(a, ref moved);
        IReadOnlyList<Region> second = Workable(b, ref moved);
        Note(moved, "traced combination");
        bool asGiven = ReferenceEquals(first, a) && ReferenceEquals(second, b);
        List<EdgeSource> edges = [];
        void Load(Overlay overlay)
        {
            edges.Clear();
            overlay.Loader.Edges = edges;
            overlay.Loader.AddAll(first, 0);
            overlay.EndFirstSet();
            overlay.Loader.AddAll(second, 1);
            overlay.Loader.Edges = null;
        }
        ImmutableArray<Region> regions = _combination.Combine(Load, wanted, "traced combination");
        ThrowIfNegative(first, second);
        var sources = new Dictionary<Contour, ImmutableArray<EdgeSource>>(ReferenceEqualityComparer.Instance);
        foreach (Loop loop in _combination.Loops)
        {
            sources[loop.Contour] = [.. loop.Sources.Select(i => Given(edges[i], a, b, asGiven))];
        }
        return [.. regions.Select(r => new TracedRegion(r, [.. r.Contours.Select(c => sources[c])]))];
    }

    /// <summary>The edge as it was given, where arcs were made workable.</summary>
    private EdgeSource Given(EdgeSource edge, IReadOnlyList<Region> a, IReadOnlyList<Region> b, bool asGiven)
    {
        if (asGiven)
        {
            return edge;
        }
        Region region = (edge.Set == 0 ? a : b)[edge.Region];
        Contour contour = edge.Contour == 0 ? region.Outer : region.Holes[edge.Contour - 1];
        return edge with { Segment = GivenArcs.Origins(contour.Segments, _slack.Near)[edge.Segment] };
    }

    /// <summary>The regions that loops enclose which may cross, overlap and run either way, by a rule.</summary>
    /// <exception cref="RegionException">A loop is open or not finite.</exception>
    /// <exception cref="KernelException">No result could be proven.</exception>
    public ImmutableArray<Region> Repair(IReadOnlyList<Contour> loops, FillRule rule)
    {
        ImmutableArray<Segment>[] workable = [.. loops.Select(l => Workable(l.Segments, closed: true, "repair"))];
        Func<int, int, bool> wanted = rule switch
        {
            FillRule.NonZero => static (turns, _) => turns != 0,
            FillRule.EvenOdd => static (turns, _) => (turns & 1) != 0,
            FillRule.Positive => static (turns, _) => turns > 0,
        };
        void Load(Overlay overlay)
        {
            foreach (ImmutableArray<Segment> loop in workable)
            {
                overlay.Loader.Add(loop.AsSpan());
            }
            overlay.EndFirstSet();
        }
        return _combination.Combine(Load, wanted, "repair");
    }

    /// <summary>The regions grown by <paramref name="distance"/> mm, or shrunk by it where negative, corners joined as wished.</summary>
    /// <param name="mitreLimit">Greatest distance of a mitre's point from its corner, in distances, 1 or more; beyond it the corner is squared off.</param>
    /// <exception cref="ArgumentOutOfRangeException">The limit is below 1.</exception>
    /// <exception cref="KernelException">No result could be proven.</exception>
    public ImmutableArray<Region> Offset(
        IReadOnlyList<Region> regions,
        double distance,
        CornerJoin join,
        double mitreLimit
    )
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(mitreLimit, 1);
        ThrowIfNotFinite(distance);
        if (join == CornerJoin.Round || distance == 0 || regions.Count == 0)
        {
            return Offset(regions, distance);
        }
        bool grow = distance > 0;
        double moved = 0;
        IReadOnlyList<Region> workable = Workable(regions, ref moved);
        Load(regions, grow, "joined offset");
        void Put(Overlay overlay)
        {
            overlay.Loader.AddAll(workable, 0);
            overlay.EndFirstSet();
            var band = new JoinedBand(overlay.Loader, _slack.Grid);
            for (int k = 0; k + 1 < _source.LoopStarts.Count; k++)
            {
                ReadOnlySpan<Curve> loop = _source.Curves.AsSpan(_source.LoopStarts[k].._source.LoopStarts[k + 1]);
                band.Add(loop, closed: true, Math.Abs(distance), join, mitreLimit);
            }
        }
        return _combination.Combine(
            Put,
            grow ? static (a, b) => a > 0 || b > 0 : static (a, b) => a > 0 && b <= 0,
            "joined offset"
        );
    }

    /// <summary>What lies within half of <paramref name="width"/> mm beside a path, corners joined and ends closed as wished.</summary>
    /// <param name="mitreLimit">Greatest distance of a mitre's point from its corner, in half widths, 1 or more; beyond it the corner is squared off.</param>
    /// <exception cref="ArgumentOutOfRangeException">The limit is below 1, or the width not above 0.</exception>
    /// <exception cref="KernelException">No result could be proven.</exception>
    public ImmutableArray<Region> Stroke(OpenPath path, double width, CornerJoin join, PathCap cap, double mitreLimit)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(mitreLimit, 1);
        Positive(width);
        Curve[] there = Chain(path);
        Curve[] back = [.. there.Reverse().Select(static c => c.Reversed)];
        void Put(Overlay overlay)
        {
            var band = new JoinedBand(overlay.Loader, _slack.Grid);
            band.Add(there, closed: false, width / 2, join, mitreLimit);
            band.Add(back, closed: false, width / 2, join, mitreLimit);
            band.AddCap(there[^1].B, there[^1].EndTangent, width / 2, cap);
            band.AddCap(back[^1].B, back[^1].EndTangent, width / 2, cap);
            overlay.EndFirstSet();
        }
        return _combination.Combine(Put, static (a, _) => a > 0, "joined stroke");
    }

    /// <summary>
    /// What lies within <paramref name="distance"/> mm to the left of an open path, to its right where negative; straight
    /// across at both ends, corners joined as wished.
    /// </summary>
    /// <param name="mitreLimit">Greatest distance of a mitre's point from its corner, in distances, 1 or more; beyond it the corner is squared off.</param>
    /// <exception cref="ArgumentOutOfRangeException">The limit is below 1, or the distance 0.</exception>
    /// <exception cref="KernelException">No result could be proven.</exception>
    public ImmutableArray<Region> StrokeOneSide(OpenPath path, double distance, CornerJoin join, double mitreLimit)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(mitreLimit, 1);
        ArgumentOutOfRangeException.ThrowIfZero(distance);
        ThrowIfNotFinite(distance);
        Curve[] chain = Chain(distance > 0 ? path : Contours.Reverse(path));
        void Put(Overlay overlay)
        {
            new JoinedBand(overlay.Loader, _slack.Grid).Add(chain, closed: false, Math.Abs(distance), join, mitreLimit);
            overlay.EndFirstSet();
        }
        return _combination.Combine(Put, static (a, _) => a > 0, "one side of a path");
    }

    private Curve[] Chain(OpenPath path)
    {
        Segment[]? segments = ImmutableCollectionsMarshal.AsArray(Workable(path.Segments, closed: false, "stroke"));
        return [.. (segments ?? []).Where(static s => s.Start != s.End).Select(static s => Curve.From(s))];
    }
}
