using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Combines regions until a result proves itself: plainly, then with wider snapping. What is not proven is an error, never an
/// approximation.
/// </summary>
internal sealed class ProvenCombination(Slack slack, List<KernelRepair> repairs)
{
    // How many times the snapping distance each try takes; the last still moves nothing by more than the grid.
    private static readonly double[] Widenings = [1, 2, 4];

    private readonly Overlay overlay = new(slack);
    private readonly CombinationProof proof = new(slack.Grid);
    private readonly LoopNesting nesting = new(slack.Grid);

    /// <summary>The regions of all points for which <paramref name="wanted"/> (in A, in B) holds.</summary>
    /// <exception cref="KernelException">No result could be proven.</exception>
    public ImmutableArray<Region> Of(
        IReadOnlyList<Region> a,
        IReadOnlyList<Region> b,
        Func<bool, bool, bool> wanted,
        string operation
    )
    {
        bool Wanted(int turnsA, int turnsB) => wanted(turnsA > 0, turnsB > 0);
        foreach (double widening in Widenings)
        {
            List<Loop>? loops = overlay.Run(a, b, Wanted, widening);
            if (loops is not null && proof.Proves(overlay, Wanted, loops) && nesting.Regions(loops) is { } regions)
            {
                if (overlay.Moved > 0)
                {
                    repairs.Add(new(RepairKind.Snapped, operation, overlay.Moved));
                }
                return regions;
            }
        }
        throw new KernelException("no " + operation + " could be proven");
    }
}
