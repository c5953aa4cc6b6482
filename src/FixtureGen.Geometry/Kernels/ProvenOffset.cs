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

    private readonly Offsetter offsetter = new(slack);
    private readonly SweptOffset swept = new(slack);
    private readonly OffsetProof proof = new(slack);
    private readonly LoopNesting nesting = new(slack.Grid);

    /// <summary>Asked again and again whether to go on.</summary>
    public CancellationToken Cancel
    {
        get => offsetter.Cancel;
        set
        {
            offsetter.Cancel = value;
            swept.Cancel = value;
        }
    }

    /// <summary>The parallel at <paramref name="distance"/> mm to the source's left; distance &gt; 0.</summary>
    /// <param name="band">True for the band that a disc sweeps along the source, false where the source bounds material.</param>
    /// <exception cref="KernelException">No result could be proven.</exception>
    public ImmutableArray<Region> Of(OffsetSource source, double distance, string operation, bool band)
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
            List<Loop>? loops = offsetter.Run(source, distance, way);
            if (
                loops is not null
                && proof.Proves(offsetter, source, distance, loops)
                && nesting.Regions(loops) is { } regions
            )
            {
                Note(way.SideTest ? RepairKind.SideTest : null, offsetter.Moved, operation);
                return regions;
            }
        }
        foreach (double widening in Widenings)
        {
            List<Loop>? loops = swept.Run(source, distance, band, widening);
            if (
                loops is not null
                && swept.Proves(loops)
                && proof.ProvesAlone(source, distance, loops)
                && nesting.Regions(loops) is { } regions
            )
            {
                Note(RepairKind.FallBack, swept.Moved, operation);
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
