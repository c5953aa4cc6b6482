using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Combines regions until a result proves itself: plainly, then with the second set a hair aside, at last on chords. All but
/// the first is noted.
/// </summary>
internal sealed class ProvenCombination(Slack slack, List<KernelRepair> repairs, bool distrust)
{
    // How far the second set is moved along X, and by 0.6 of it along Y, to get clear of exact coincidences, mm.
    private static readonly double[] Shifts = [0, 4e-5, -4e-5, 1.3e-4];

    private readonly Combiner combiner = new(slack);
    private readonly SelfCheck check = new(slack);

    /// <summary>The regions of all points for which <paramref name="wanted"/> (in A, in B) holds.</summary>
    public ImmutableArray<Region> Of(
        IReadOnlyList<Region> a,
        IReadOnlyList<Region> b,
        Func<bool, bool, bool> wanted,
        string operation
    )
    {
        foreach (double shift in distrust ? [] : Shifts)
        {
            Point2 aside = new(shift, 0.6 * shift);
            List<Loop> loops = combiner.Run(a, b, wanted, aside);
            if (combiner.Closed && Proves(check, wanted, loops) && Nesting.Regions(loops) is { } regions)
            {
                if (shift != 0)
                {
                    repairs.Add(new(RepairKind.Perturbed, operation, aside.Length));
                }
                return regions;
            }
        }
        return OnChords(a, b, wanted, operation);
    }

    private bool Proves(SelfCheck with, Func<bool, bool, bool> wanted, List<Loop> loops) =>
        with.Proves(combiner.Index, combiner.Curves, combiner.CountA, wanted, loops);

    private ImmutableArray<Region> OnChords(
        IReadOnlyList<Region> a,
        IReadOnlyList<Region> b,
        Func<bool, bool, bool> wanted,
        string operation
    )
    {
        ImmutableArray<Region> regions = NtsFallBack.Combine(a, b, wanted);
        double error = NtsFallBack.Error(0);
        var loose = new SelfCheck(slack with { Slice = error / 4, Stub = 100 * error });
        combiner.Run(a, b, wanted, default);
        if (!Proves(loose, wanted, Loop.Of(regions)))
        {
            throw new KernelException("no " + operation + " could be proven");
        }
        repairs.Add(new(RepairKind.FallBack, operation, error));
        return regions;
    }
}
