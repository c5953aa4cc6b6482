using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// What kernels answered in this round and the one before, for work that is done again and again with little changed. An
/// answer is given again only to the same question bit for bit, together with its repairs, so that nobody can tell it from
/// a new one. For one thread.
/// </summary>
public sealed class KernelMemory
{
    private readonly KernelQuestion _asked = new();
    private Dictionary<KernelQuestion, Answer> _now = [];
    private Dictionary<KernelQuestion, Answer> _before = [];

    /// <summary>Ends a round; what was not asked in it is forgotten.</summary>
    public void NextRound() => (_before, _now) = (_now, []);

    /// <summary>The answer to a question, worked out where it is new. Its repairs are added either way.</summary>
    /// <param name="ask">Puts the question.</param>
    /// <param name="work">Works the answer out; asks this memory nothing.</param>
    internal ImmutableArray<Region> Recall(
        Action<KernelQuestion> ask,
        List<KernelRepair> repairs,
        Func<ImmutableArray<Region>> work
    )
    {
        _asked.Clear();
        ask(_asked);
        if (_now.TryGetValue(_asked, out Answer? known))
        {
            repairs.AddRange(known.Repairs);
            return known.Regions;
        }
        if (_before.TryGetValue(_asked, out known))
        {
            repairs.AddRange(known.Repairs);
        }
        else
        {
            int first = repairs.Count;
            KernelQuestion question = _asked.Copy();
            ImmutableArray<Region> regions = work();
            known = new Answer(question, regions, [.. repairs.Skip(first)]);
        }
        _now[known.Question] = known;
        return known.Regions;
    }

    private sealed record Answer(
        KernelQuestion Question,
        ImmutableArray<Region> Regions,
        ImmutableArray<KernelRepair> Repairs
    );
}
