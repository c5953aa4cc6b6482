using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Combines loops until a result proves itself: plainly, then with wider snapping. What is not proven is an error, never an
/// approximation.
/// </summary>
internal sealed class ProvenCombination(Slack slack, List<KernelRepair> repairs)
{
    // How many times the snapping distance each try takes; the last still moves nothing by more than the grid.
    private static readonly double[] Widenings = [1, 2, 4];

    private readonly CombinationProof _proof = new(slack);
    private readonly LoopNesting _nesting = new(slack.Grid);

    public Overlay Overlay { get; } = new(slack);

    /// <summary>The loops of the last result.</summary>
    public List<Loop> Loops { get; private set; } = [];

    /// <summary>The regions of all points for which <paramref name="wanted"/> (turns of A, turns of B) holds.</summary>
    /// <param name="load">Puts A's loops into the overlay, ends the first set, puts B's; called again for another try.</param>
    /// <exception cref="KernelException">No result could be proven.</exception>
    public ImmutableArray<Region> Combine(Action<Overlay> load, Func<int, int, bool> wanted, string operation)
    {
        foreach (double widening in Widenings)
        {
            Overlay.Begin();
            load(Overlay);
            List<Loop>? loops = Overlay.Work(wanted, widening);
            if (loops is not null && _proof.Proves(Overlay, wanted, loops) && _nesting.Regions(loops) is { } regions)
            {
                if (Overlay.Moved > 0)
                {
                    repairs.Add(new(RepairKind.Snapped, operation, Overlay.Moved));
                }
                Loops = loops;
                return regions;
            }
        }
        throw new KernelException("no " + operation + " could be proven");
    }
}
