using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Offsets and combines regions bounded by lines and arcs. A result's curves are exact parallels of the input's: a line is
/// shifted, an arc keeps its centre, a convex corner becomes an arc about the corner. One kernel a job and thread: it keeps
/// scratch memory and the list of its repairs, nothing else.
/// </summary>
public sealed class Kernel(Tolerances tolerances)
{
    private static readonly double[] Perturbations = [0, 1e-4, -1e-4, 2.7e-4, -2.3e-4];

    private static readonly double[] Shifts = [0, 4e-5, -4e-5, 1.3e-4];

    private readonly Offsetter offsetter = new(Slack.From(tolerances));
    private readonly Combiner combiner = new(Slack.From(tolerances));
    private readonly OffsetSource source = new(Slack.From(tolerances));
    private readonly List<KernelRepair> repairs = [];

    /// <summary>Everything that was not done in the plain way, in order.</summary>
    public ImmutableArray<KernelRepair> Repairs => [.. repairs];

    /// <summary>The region grown by <paramref name="distance"/> mm, or shrunk by it where negative.</summary>
    public ImmutableArray<Region> Offset(Region region, double distance) => Offset([region], distance);

    /// <summary>
    /// The regions grown by <paramref name="distance"/> mm with round convex corners, or shrunk by it where negative. The
    /// regions must not overlap; what grows together comes out as one.
    /// </summary>
    public ImmutableArray<Region> Offset(IReadOnlyList<Region> regions, double distance)
    {
        if (distance == 0 || regions.Count == 0)
        {
            return [.. regions];
        }
        source.Begin(distance > 0);
        source.AddAll(regions);
        source.End();
        return Parallel(source, Math.Abs(distance), "offset");
    }

    /// <summary>Everything in one or the other.</summary>
    public ImmutableArray<Region> Union(IReadOnlyList<Region> a, IReadOnlyList<Region> b) =>
        Combine(a, b, static (inA, inB) => inA || inB, "union");

    /// <summary>Everything in both.</summary>
    public ImmutableArray<Region> Intersect(IReadOnlyList<Region> a, IReadOnlyList<Region> b) =>
        a.Count == 0 || b.Count == 0 ? [] : Combine(a, b, static (inA, inB) => inA && inB, "intersect");

    /// <summary>Everything in the first but not in the second.</summary>
    public ImmutableArray<Region> Difference(IReadOnlyList<Region> a, IReadOnlyList<Region> b) =>
        a.Count == 0 ? [] : Combine(a, b, static (inA, inB) => inA && !inB, "difference");

    /// <summary>Everything in any of the regions, which may overlap each other.</summary>
    public ImmutableArray<Region> UnionAll(IReadOnlyList<Region> regions) =>
        Combine(regions, [], static (inA, _) => inA, "union");

    /// <summary>What a disc of the radius can sweep without leaving the regions: convex corners get the radius.</summary>
    public ImmutableArray<Region> Open(IReadOnlyList<Region> regions, double radius) =>
        Offset(Offset(regions, -radius), radius);

    /// <summary>What no disc of the radius can reach from outside: concave corners get the radius, narrow gaps fill.</summary>
    public ImmutableArray<Region> Close(IReadOnlyList<Region> regions, double radius) =>
        Offset(Offset(regions, radius), -radius);

    /// <summary>
    /// What a round cutter of diameter <paramref name="width"/> mm sweeps along the path, both ends round; a path that ends
    /// where it began is a loop.
    /// </summary>
    public ImmutableArray<Region> Stroke(OpenPath path, double width)
    {
        if (path.Segments.Length > 1 && path.Start.DistanceTo(path.End) < tolerances.Grid)
        {
            Segment last = path.Segments[^1] with { End = path.Start };
            return Stroke(new Contour([.. path.Segments[..^1], last]), width);
        }
        source.Begin(reversed: true);
        source.Add([.. path.Segments, .. Contours.Reverse(path).Segments]);
        source.End();
        return Parallel(source, width / 2, "stroke");
    }

    /// <summary>What a round cutter of diameter <paramref name="width"/> mm sweeps along the closed loop.</summary>
    public ImmutableArray<Region> Stroke(Contour loop, double width)
    {
        source.Begin(reversed: true);
        source.Add(loop.Segments);
        source.Add(Contours.Reverse(loop).Segments);
        source.End();
        return Parallel(source, width / 2, "stroke");
    }

    /// <summary>
    /// The regions shrunk by <paramref name="first"/>, first + step, first + 2 steps, ... mm until nothing is left; every
    /// level is the exact parallel of the source, never of the level before.
    /// </summary>
    public ImmutableArray<ImmutableArray<Region>> Rings(IReadOnlyList<Region> regions, double first, double step)
    {
        source.Begin(reversed: false);
        source.AddAll(regions);
        source.End();
        var levels = ImmutableArray.CreateBuilder<ImmutableArray<Region>>();
        for (double d = first; ; d = first + (levels.Count * step))
        {
            ImmutableArray<Region> level = Parallel(source, d, "rings");
            if (level.IsEmpty)
            {
                return levels.ToImmutable();
            }
            levels.Add(level);
        }
    }

    private ImmutableArray<Region> Combine(
        IReadOnlyList<Region> a,
        IReadOnlyList<Region> b,
        Func<bool, bool, bool> wanted,
        string operation
    )
    {
        foreach (double shift in Shifts)
        {
            var loops = combiner.Run(
                a.SelectMany(r => r.Contours),
                b.SelectMany(r => r.Contours),
                wanted,
                new(shift, 0.6 * shift)
            );
            if (combiner.Closed && Nesting.Regions(loops) is { } regions)
            {
                Note(false, shift, operation);
                return regions;
            }
        }
        repairs.Add(new(RepairKind.Failed, operation, 0));
        return [];
    }

    private ImmutableArray<Region> Parallel(OffsetSource from, double distance, string operation)
    {
        if (from.Dropped > 0)
        {
            repairs.Add(new(RepairKind.MicroEdges, operation, from.Dropped));
        }
        foreach (double shift in Perturbations)
        {
            foreach (bool sideTest in (ReadOnlySpan<bool>)[false, true])
            {
                List<Loop> loops = offsetter.Run(from, distance + shift, sideTest);
                if (offsetter.Closed && Nesting.Regions(loops) is { } regions)
                {
                    Note(sideTest, shift, operation);
                    return regions;
                }
            }
        }
        repairs.Add(new(RepairKind.Failed, operation, distance));
        return [];
    }

    private void Note(bool sideTest, double shift, string operation)
    {
        if (shift != 0)
        {
            repairs.Add(new(RepairKind.Perturbed, operation, shift));
        }
        else if (sideTest)
        {
            repairs.Add(new(RepairKind.SideTest, operation, 0));
        }
    }
}
