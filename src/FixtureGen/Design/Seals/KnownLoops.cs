using System.Collections.Concurrent;
using System.Collections.Immutable;

namespace FixtureGen.Design.Seals;

/// <summary>
/// Which obstacles were given loops of their own, for a search of a job's missing choices asks the same of every blank and pin: the
/// answer is the very one that a search would give again, and the geometry is made and proven anew with it.
/// </summary>
internal static class KnownLoops
{
    private const int Most = 500;
    private static readonly ConcurrentDictionary<string, ImmutableArray<ImmutableArray<int>>> Chosen = [];

    public static ImmutableArray<ImmutableArray<int>>? Find(string problem) =>
        Chosen.TryGetValue(problem, out ImmutableArray<ImmutableArray<int>> sets) ? sets : null;

    public static void Keep(string problem, ImmutableArray<ImmutableArray<int>> sets)
    {
        if (Chosen.Count >= Most)
        {
            Chosen.Clear();
        }
        Chosen[problem] = sets;
    }
}
