using System.Collections.Immutable;
using FixtureGen.Geometry;

namespace FixtureGen.Design.Seals;

/// <summary>
/// Chooses which obstacles of a zone have a loop of their own, which share one and which the edge's loop passes, so that the
/// vacuum is fed to as much sealed area as can be. Starts with a loop for each, then changes one obstacle at a time, the
/// change that feeds most first, until none feeds more: what one obstacle has no room for takes nothing from the others.
/// </summary>
internal sealed class LoopChoice(OwnLoops loops, OwnLoops.Measures m)
{
    /// <summary>A change that feeds less than this more, mm2, is none: rounding must not decide.</summary>
    private const double Gain = 0.5;

    /// <summary>
    /// So many obstacles are rounded anew in all changes from a start together, that a plate with dozens of cutouts does not
    /// take minutes; one with eight has all its changes tried twice over.
    /// </summary>
    private const int MostRounded = 400;

    private readonly Dictionary<string, OwnLoops.Layout> _settled = [];

    private ImmutableArray<ImmutableArray<int>> Each =>
        [.. Enumerable.Range(0, loops.Count).Select(i => ImmutableArray.Create(i))];

    /// <summary>Why an obstacle has no loop of its own: how much its loop is short of room, mm; where it is not, what the shared loop feeds more, mm2.</summary>
    public readonly record struct Reason(double Short, double FedMore);

    /// <summary>
    /// Two starts, as one change at a time does not find out of a row of loops that cuts the net off: every loop that has room,
    /// and only those that the net can pass on all sides.
    /// </summary>
    public OwnLoops.Layout Best()
    {
        string problem = loops.Describe();
        if (KnownLoops.Find(problem) is { } known && Tried(() => Settle(known)) is { } again)
        {
            return again;
        }
        OwnLoops.Layout best = Search();
        KnownLoops.Keep(problem, [.. best.Own.Select(g => g.Obstacles)]);
        return best;
    }

    /// <summary>The loops that are there without any change, where they seal something; else the best: enough to say whether there is room.</summary>
    public OwnLoops.Layout First() => Tried(() => Settle(Each)) is { Fed: > 0 } first ? first : Best();

    private OwnLoops.Layout Search()
    {
        ImmutableArray<ImmutableArray<int>> each = Each;
        OwnLoops.Layout near = Climb(Settle(each));
        return
            Tried(() => loops.Settle(each, 2 * m.Passage)) is { } passed
            && Tried(() => Settle([.. passed.Own.Select(g => g.Obstacles)])) is { } start
            && Climb(start) is { } wide
            && wide.Fed > near.Fed + Gain
            ? wide
            : near;
    }

    /// <summary>Null where no cord can follow a loop round the obstacle, however much room there is.</summary>
    public Reason? Why(int obstacle, OwnLoops.Layout chosen)
    {
        if (loops.RoomFor(obstacle, chosen) is not { } room)
        {
            return null;
        }
        ImmutableArray<ImmutableArray<int>> without =
        [
            .. chosen.Own.Select(g => g.Obstacles.Remove(obstacle)).Where(o => o.Length > 0),
        ];
        OwnLoops.Layout? alone = room < m.Between ? null : Tried(() => Settle(without.Add([obstacle])));
        return new Reason(m.Between - room, Math.Max(0, chosen.Fed - (alone?.Fed ?? chosen.Fed)));
    }

    private OwnLoops.Layout Climb(OwnLoops.Layout best)
    {
        int left = MostRounded / Math.Max(1, loops.Count);
        while (true)
        {
            OwnLoops.Layout[] tried =
            [
                .. Changes(best).Take(left).Select(c => Tried(() => Settle(c))).OfType<OwnLoops.Layout>(),
            ];
            left -= tried.Length;
            if (tried.MaxBy(l => l.Fed) is not { } next || next.Fed <= best.Fed + Gain)
            {
                return best;
            }
            best = next;
        }
    }

    /// <summary>Null where the layout's geometry could not be proven: then it is not taken.</summary>
    private static OwnLoops.Layout? Tried(Func<OwnLoops.Layout> layout)
    {
        try
        {
            return layout();
        }
        catch (KernelException)
        {
            return null;
        }
    }

    private OwnLoops.Layout Settle(ImmutableArray<ImmutableArray<int>> together)
    {
        string key = string.Join('|', together.Select(s => string.Join(' ', s)).Order(StringComparer.Ordinal));
        if (!_settled.TryGetValue(key, out OwnLoops.Layout? layout))
        {
            layout = loops.Settle(together, m.Between);
            _settled.Add(key, layout);
        }
        return layout;
    }

    private IEnumerable<ImmutableArray<ImmutableArray<int>>> Changes(OwnLoops.Layout layout)
    {
        ImmutableArray<ImmutableArray<int>> own = [.. layout.Own.Select(g => g.Obstacles)];
        return layout
            .WithEdge.SelectMany(o => Freed(o, own, layout.WithEdge))
            .Concat(Enumerable.Range(0, own.Length).SelectMany(a => Given(a, own)));
    }

    /// <summary>An obstacle of the edge gets a loop: alone, or with a neighbour.</summary>
    private IEnumerable<ImmutableArray<ImmutableArray<int>>> Freed(
        int obstacle,
        ImmutableArray<ImmutableArray<int>> own,
        ImmutableArray<int> withEdge
    )
    {
        ImmutableArray<int> alone = [obstacle];
        yield return own.Add(alone);
        foreach (ImmutableArray<int> set in own.Where(s => loops.Near(s, alone, 2 * m.Passage)))
        {
            yield return own.Remove(set).Add(Joined(set, alone));
        }
        foreach (int other in withEdge.Where(o => o > obstacle && loops.Near([o], alone, 2 * m.Passage)))
        {
            yield return own.Add(Joined(alone, [other]));
        }
    }

    /// <summary>A set with a loop gives it up, gives up one of its obstacles, or takes a neighbour in.</summary>
    private IEnumerable<ImmutableArray<ImmutableArray<int>>> Given(int a, ImmutableArray<ImmutableArray<int>> own)
    {
        yield return own.RemoveAt(a);
        foreach (int member in own[a].Length > 1 ? own[a] : [])
        {
            yield return own.SetItem(a, own[a].Remove(member));
        }
        for (int b = a + 1; b < own.Length; b++)
        {
            if (loops.Near(own[a], own[b], 2 * m.Passage))
            {
                yield return own.RemoveAt(b).SetItem(a, Joined(own[a], own[b]));
            }
        }
    }

    private static ImmutableArray<int> Joined(ImmutableArray<int> a, ImmutableArray<int> b) => [.. a.Concat(b).Order()];
}
