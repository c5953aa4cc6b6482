using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Runs the offset until a result proves itself: in each <see cref="OffsetWay"/>, at last by its definition. All are exact; what
/// is not proven is an error, never an approximation.
/// </summary>
internal sealed class ProvenOffset(Slack slack, List<KernelRepair> repairs, bool distrust)
{
    // How many times the snapping distance each try by definition takes.
    private static readonly double[] Widenings = [1, 2, 4];

    private readonly Offsetter _offsetter = new(slack);
    private readonly SweptOffset _swept = new(slack);
    private readonly OffsetProof _proof = new(slack);
    private readonly LoopNesting _nesting = new(slack.Grid);

    /// <summary>Asked again and again whether to go on.</summary>
    public CancellationToken Cancel
    {
        get => _offsetter.Cancel;
        set
        {
            _offsetter.Cancel = value;
            _swept.Cancel = value;
        }
    }

    /// <summary>The parallel at <paramref name="distance"/> mm to the source's left; distance &gt; 0.</summary>
    /// <param name="band">True for the band that a disc sweeps along the source, false where the source bounds material.</param>
    /// <exception cref="KernelException">No result could be proven.</exception>
    public ImmutableArray<Region> Offset(OffsetSource source, double distance, string operation, bool band)
    {
        if (source.Dropped > 0)
        {
            repairs.Add(new(RepairKind.MicroEdges, operation, source.Dropped));
        }
        if (source.Count == 0)
        {
            return [];
        }
        foreach (OffsetWay way in distrust ? [] : OffsetWay.All)
        {
            List<Loop>? loops = _offsetter.Run(source, distance, way);
            if (
                loops is not null
                && _proof.Proves(_offsetter, source, distance, loops)
                && _nesting.Regions(loops) is { } regions
            )
            {
                Note(way.SideTest ? RepairKind.SideTest : null, _offsetter.Moved, operation);
                return regions;
            }
        }
        foreach (double widening in Widenings)
        {
            List<Loop>? loops = _swept.Run(source, distance, band, widening);
            if (
                loops is not null
                && _swept.Proves(loops)
                && _proof.ProvesAlone(source, distance, loops, _swept.Moved)
                && _nesting.Regions(loops) is { } regions
            )
            {
                Note(RepairKind.FallBack, _swept.Moved, operation);
                return regions;
            }
        }
        throw new KernelException(FormattableString.Invariant($"no {operation} by {distance} mm could be proven"));
    }

    private void Note(RepairKind? kind, double moved, string operation)
    {
        if (kind is { } repair)
        {
            repairs.Add(new(repair, operation, 0));
        }
        if (moved > 0)
        {
            repairs.Add(new(RepairKind.Snapped, operation, moved));
        }
    }
}
