using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Offsets and combines regions bounded by lines and arcs, mm. A result's curves are exact parallels of the input's: a line
/// is shifted, an arc keeps its centre, a corner that opens becomes an arc about the corner; where that could not be kept,
/// <see cref="Repairs"/> says so. One kernel a job and thread: between questions it keeps the list of its repairs and what
/// memory it was given, nothing else.
/// <para>
/// Proven before it is returned is of an offset, ring or stroke: every curve lies at the distance from the source curve it
/// comes from, within four slices (8e-6 mm), and no source is nearer to any segment or stretch of half the distance, asked at
/// a point of it, nor next to either end of what was cut; every run kept or dropped, and every parallel and arc about a corner
/// left out before cutting, was rightly so where it is asked (at one to four points); nothing is lost in following the
/// runs; the swept area is within Steiner's bounds; and along scan lines, one through every loop of the source and of the
/// result, a point is inside just where side and distance say so. Of a combination, also of bands with sharp joins or caps:
/// every curve lies on the given curve it comes from, within two grids (2e-6 mm); nothing is lost in following the runs; and
/// along scan lines, one through every given loop and every bounding run, a point is inside just where the given loops' turns
/// say so. What is not proven is a <see cref="KernelException"/>.
/// </para>
/// <para>
/// Not proven is what lies between those points and lines: that no fault at all is there is not shown, and of results
/// damaged on purpose fewer than 1 in 1,000 of any kind pass. Not asked at all is what is thinner than four slices (offsets) or
/// five grids (combinations, 5e-6 mm), and what hangs on pieces shorter than 0.001 mm. Loops thinner than two slices, area over
/// length, are left out of offsets.
/// </para>
/// </summary>
public sealed partial class Kernel
{
    private readonly List<KernelRepair> _repairs = [];
    private readonly KernelMemory? _memory;
    private readonly Slack _slack;
    private readonly OffsetSource _source;
    private readonly ProvenOffset _offset;
    private readonly ProvenCombination _combination;

    /// <summary>A kernel that remembers no answers. Of the tolerances Grid and Slice count; see <see cref="Tolerances.House"/>.</summary>
    public Kernel(Tolerances tolerances)
        : this(tolerances, distrust: false) { }

    /// <summary>A kernel that asks a memory first, for work that is done again with little changed.</summary>
    /// <param name="tolerances">In mm; Grid and Slice count.</param>
    /// <param name="memory">Of kernels of the same tolerances; null for none.</param>
    public Kernel(Tolerances tolerances, KernelMemory? memory)
        : this(tolerances)
    {
        _memory = memory;
    }

    /// <param name="distrust">Takes every exact result for unproven, to put the fall-back itself to the test.</param>
    internal Kernel(Tolerances tolerances, bool distrust)
    {
        _slack = Slack.From(tolerances);
        _source = new OffsetSource(_slack);
        _offset = new ProvenOffset(_slack, _repairs, distrust);
        _combination = new ProvenCombination(_slack, _repairs);
    }

    /// <summary>
    /// Asked again and again, while an operation works, whether to go on; an operation that is called off throws
    /// <see cref="OperationCanceledException"/> and leaves the kernel as good as new.
    /// </summary>
    public CancellationToken Cancel
    {
        get => _offset.Cancel;
        set
        {
            _offset.Cancel = value;
            _combination.Overlay.Cancel = value;
        }
    }

    /// <summary>Everything that was not done in the plain way since the kernel was made, in order; empty but for rare cases.</summary>
    public ImmutableArray<KernelRepair> Repairs => [.. _repairs];

    /// <summary>The region grown by <paramref name="distance"/> mm, or shrunk by it where negative; empty where nothing is left.</summary>
    /// <exception cref="KernelException">No result could be proven.</exception>
    public ImmutableArray<Region> Offset(Region region, double distance) => Offset([region], distance);

    /// <summary>
    /// The regions grown by <paramref name="distance"/> mm with round convex corners, or shrunk by it where negative; by 0 they
    /// come back as they are, and what shrinks to nothing is left out. They must not overlap; what grows together comes out as
    /// one.
    /// </summary>
    /// <exception cref="RegionException">A contour is open, not finite or runs the wrong way, a hole lies outside, or contours overlap; see <see cref="Faults"/>.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The distance is not finite.</exception>
    /// <exception cref="KernelException">No result could be proven.</exception>
    public ImmutableArray<Region> Offset(IReadOnlyList<Region> regions, double distance)
    {
        ThrowIfNotFinite(distance);
        if (distance == 0 || regions.Count == 0)
        {
            return [.. regions];
        }
        return Recalled(
            "offset",
            distance,
            regions,
            [],
            () =>
            {
                Load(regions, grow: distance > 0, "offset");
                return Explained(regions, () => _offset.Offset(_source, Math.Abs(distance), "offset", band: false));
            }
        );
    }

    /// <summary>Everything in any region of either set; regions of a set may overlap.</summary>
    /// <exception cref="RegionException">A contour is open, not finite or runs the wrong way, or a hole lies outside; see <see cref="Faults"/>.</exception>
    /// <exception cref="KernelException">No result could be proven.</exception>
    public ImmutableArray<Region> Union(IReadOnlyList<Region> a, IReadOnlyList<Region> b) =>
        Combined(a, b, static (inA, inB) => inA || inB, "union");

    /// <summary>Everything in both sets; regions of a set may overlap.</summary>
    /// <exception cref="RegionException">A contour is open, not finite or runs the wrong way, or a hole lies outside; see <see cref="Faults"/>.</exception>
    /// <exception cref="KernelException">No result could be proven.</exception>
    public ImmutableArray<Region> Intersect(IReadOnlyList<Region> a, IReadOnlyList<Region> b) =>
        a.Count == 0 || b.Count == 0 ? [] : Combined(a, b, static (inA, inB) => inA && inB, "intersect");

    /// <summary>Everything in the first set but not in the second; regions of a set may overlap.</summary>
    /// <exception cref="RegionException">A contour is open, not finite or runs the wrong way, or a hole lies outside; see <see cref="Faults"/>.</exception>
    /// <exception cref="KernelException">No result could be proven.</exception>
    public ImmutableArray<Region> Difference(IReadOnlyList<Region> a, IReadOnlyList<Region> b) =>
        a.Count == 0 ? [] : Combined(a, b, static (inA, inB) => inA && !inB, "difference");

    /// <summary>Everything in any of the regions, which may overlap each other.</summary>
    /// <exception cref="RegionException">A contour is open, not finite or runs the wrong way, or a hole lies outside; see <see cref="Faults"/>.</exception>
    /// <exception cref="KernelException">No result could be proven.</exception>
    public ImmutableArray<Region> UnionAll(IReadOnlyList<Region> regions) =>
        Combined(regions, [], static (inA, _) => inA, "union");

    /// <summary>What a disc of the radius (mm, 0 or more) sweeps without leaving the regions: convex corners get it, narrow necks go.</summary>
    /// <exception cref="KernelException">No result could be proven.</exception>
    public ImmutableArray<Region> Open(IReadOnlyList<Region> regions, double radius) =>
        Offset(Offset(regions, -NotNegative(radius)), radius);

    /// <summary>What no disc of the radius (mm, 0 or more) reaches from outside: concave corners get it, narrow gaps fill.</summary>
    /// <exception cref="KernelException">No result could be proven.</exception>
    public ImmutableArray<Region> Close(IReadOnlyList<Region> regions, double radius) =>
        Offset(Offset(regions, NotNegative(radius)), -radius);

    /// <summary>
    /// What a round cutter of diameter <paramref name="width"/> mm, above 0, sweeps along the path, both ends round; a path
    /// that ends within the grid of where it began is a loop.
    /// </summary>
    /// <exception cref="KernelException">No result could be proven.</exception>
    public ImmutableArray<Region> Stroke(OpenPath path, double width)
    {
        if (path.Segments.Length > 1 && path.Start.DistanceTo(path.End) < _slack.Grid)
        {
            Segment last = path.Segments[^1] with { End = path.Start };
            return Stroke(new Contour([.. path.Segments[..^1], last]), width);
        }
        // There and back: a loop without width, whose outside is the path's two sides.
        return Stroke(
            path.Segments,
            width,
            "stroke of a path",
            static centre =>
                [
                    [.. centre, .. Contours.Reverse(new OpenPath(centre)).Segments],
                ]
        );
    }

    /// <summary>What a round cutter of diameter <paramref name="width"/> mm sweeps along the closed loop, on both its sides; above 0.</summary>
    /// <exception cref="KernelException">No result could be proven.</exception>
    public ImmutableArray<Region> Stroke(Contour loop, double width) =>
        Stroke(
            loop.Segments,
            width,
            "stroke of a loop",
            static centre => [centre, Contours.Reverse(new Contour(centre)).Segments]
        );

    /// <summary>The parallel of the loops that run along the centre line on both its sides.</summary>
    private ImmutableArray<Region> Stroke(
        ImmutableArray<Segment> centre,
        double width,
        string asked,
        Func<ImmutableArray<Segment>, ImmutableArray<Segment>[]> sides
    )
    {
        Positive(width);
        ImmutableArray<Region> Work()
        {
            ImmutableArray<Segment> workable = Workable(centre, closed: false, "stroke");
            _source.Begin(reversed: true);
            foreach (ImmutableArray<Segment> side in sides(workable))
            {
                _source.Add(side);
            }
            _source.End();
            return _offset.Offset(_source, width / 2, "stroke", band: true);
        }
        return _memory is null
            ? Work()
            : _memory.Recall(
                question =>
                {
                    question.Put(asked, width);
                    question.Put(centre);
                },
                _repairs,
                Work
            );
    }

    /// <summary>
    /// The regions shrunk by <paramref name="first"/>, first + step, first + 2 steps, ... mm until nothing is left; every
    /// level is the exact parallel of the source, never of the level before. Empty levels are left out.
    /// </summary>
    /// <exception cref="ArgumentOutOfRangeException">A length is not greater than 0.</exception>
    /// <exception cref="KernelException">Some level could not be proven.</exception>
    public ImmutableArray<ImmutableArray<Region>> Rings(IReadOnlyList<Region> regions, double first, double step)
    {
        Positive(first);
        Positive(step);
        Load(regions, grow: false, "rings");
        var levels = ImmutableArray.CreateBuilder<ImmutableArray<Region>>();
        for (double d = first; ; d = first + (levels.Count * step))
        {
            ImmutableArray<Region> level = Explained(regions, () => _offset.Offset(_source, d, "rings", band: false));
            if (level.IsEmpty)
            {
                return levels.ToImmutable();
            }
            levels.Add(level);
        }
    }

    /// <summary>Where nothing could be proven because the input is no region, says what is wrong with it.</summary>
    private ImmutableArray<Region> Explained(IReadOnlyList<Region> regions, Func<ImmutableArray<Region>> work)
    {
        try
        {
            return work();
        }
        catch (KernelException e) when (e is not RegionException)
        {
            ImmutableArray<RegionFault> faults = Faults(regions);
            if (faults.IsEmpty)
            {
                throw;
            }
            throw new RegionException(faults);
        }
    }

    private ImmutableArray<Region> Combined(
        IReadOnlyList<Region> a,
        IReadOnlyList<Region> b,
        Func<bool, bool, bool> wanted,
        string operation
    ) =>
        Recalled(
            operation,
            0,
            a,
            b,
            () =>
            {
                double moved = 0;
                IReadOnlyList<Region> first = Workable(a, ref moved);
                IReadOnlyList<Region> second = Workable(b, ref moved);
                Note(moved, operation);
                void Load(Overlay overlay)
                {
                    overlay.Loader.AddAll(first, 0);
                    overlay.EndFirstSet();
                    overlay.Loader.AddAll(second, 1);
                }
                ImmutableArray<Region> made = _combination.Combine(
                    Load,
                    (turnsA, turnsB) => wanted(turnsA > 0, turnsB > 0),
                    operation
                );
                ThrowIfNegative(first, second);
                return made;
            }
        );

    private ImmutableArray<Region> Recalled(
        string operation,
        double amount,
        IReadOnlyList<Region> a,
        IReadOnlyList<Region> b,
        Func<ImmutableArray<Region>> work
    ) =>
        _memory is null
            ? work()
            : _memory.Recall(
                question =>
                {
                    question.Put(operation, amount);
                    question.Put(a);
                    question.Put(b);
                },
                _repairs,
                work
            );

    private void Load(IReadOnlyList<Region> regions, bool grow, string operation)
    {
        double moved = 0;
        IReadOnlyList<Region> workable = Workable(regions, ref moved);
        Note(moved, operation);
        ThrowIfOverlapping(workable);
        _source.Begin(reversed: grow);
        _source.AddAll(workable);
        _source.End();
    }

    /// <summary>Regions that are whole, with arcs that can be worked with.</summary>
    private IReadOnlyList<Region> Workable(IReadOnlyList<Region> regions, ref double moved)
    {
        RegionFaults.ThrowIfBroken(regions, _slack);
        return GivenArcs.Workable(regions, _slack.Near, ref moved);
    }

    private ImmutableArray<Segment> Workable(ImmutableArray<Segment> chain, bool closed, string operation)
    {
        RegionFaults.ThrowIfBroken(chain, closed, _slack);
        double moved = 0;
        ImmutableArray<Segment> workable = GivenArcs.Workable(chain, _slack.Near, ref moved);
        Note(moved, operation);
        return workable;
    }

    private void Note(double moved, string operation)
    {
        if (moved > 0)
        {
            _repairs.Add(new(RepairKind.Recentred, operation, moved));
        }
    }
}
