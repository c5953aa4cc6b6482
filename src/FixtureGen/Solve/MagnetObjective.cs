using FixtureGen.Holding;
using FixtureGen.Holding.Magnets;
using FixtureGen.Holding.Sliding;
using FixtureGen.Model;

namespace FixtureGen.Solve;

/// <summary>
/// How good a set of magnets is: the worst factor with the seal lost and the machine stopping, or under the full load where magnets are the hold, and, as a tie-break of at
/// most 0.2 %, how far apart they stand. Few loads of the trim decide, so only those that were worst so far are tried; and
/// most sets that are no better fall to a <see cref="Mechanism"/> of another set already. <see cref="Learn"/> and
/// <see cref="LearnAll"/> look for loads that were missed.
/// </summary>
internal sealed class MagnetObjective
{
    private const double SpreadWeight = 0.002;
    private const int Sections = 24;

    /// <summary>A load that may be this near the worst is solved: mechanisms of a neighbour's load bound it from above only.</summary>
    private const double Near = 1.05;

    /// <summary>Of the first set's worst loads those join that are at most so many times the worst of all.</summary>
    private const double FirstNear = 2;

    /// <summary>Edge positions tried, radians; the full answer finds the very worst, which is at most 1 % lower.</summary>
    private static readonly double[] Angles = [0, -0.3, 0.3, -0.6, 0.6];

    private readonly SealLost _lost;
    private readonly CutLoad[] _loads;
    private readonly int _perSection;
    private readonly double _size;
    private readonly List<WeakLoad> _weak = [];

    public MagnetObjective(HoldingContext context, double size)
    {
        _lost = context.Lost;
        _size = size;
        List<CutLoad> all = [];
        for (int step = 0; step < context.Loads.Steps.Length; step++)
        {
            double share = context.ShareFor(step);
            foreach (double angle in Angles)
            {
                all.Add(context.Loads.Load(step, angle) * share);
            }
        }
        _loads = [.. all];
        _perSection = (context.Loads.Steps.Length + Sections - 1) / Sections * Angles.Length;
    }

    /// <summary>
    /// Score of a set on the loads in use. A set that is no better than <paramref name="enough"/> is given up early, with
    /// that for its score; the ways in which a better one slides are tried first on the next.
    /// </summary>
    public double Score(IReadOnlyList<Point2> at, double enough)
    {
        HeldPart?[] ways = _lost.Ways(at);
        if (ways[0] is null)
        {
            return 0;
        }
        double spread = 1 + (SpreadWeight * Spread(at));
        foreach (WeakLoad w in _weak)
        {
            if (ways[w.Way] is { } held && w.Mechanism.Breaks(held, _loads[w.Load], enough / spread))
            {
                return enough;
            }
        }
        List<WeakLoad> found = new(_weak.Count);
        double worst = LimitState.Most;
        foreach (WeakLoad w in _weak)
        {
            if (ways[w.Way] is not { } held)
            {
                found.Add(w);
                continue;
            }
            WeakLoad solved = Solved(held, w.Way, w.Load, w.Answer);
            found.Add(solved);
            worst = Math.Min(worst, solved.Answer.Factor);
            if (worst * spread <= enough)
            {
                return enough;
            }
        }
        Use(found);
        return worst * spread;
    }

    /// <summary>Score of a set on the loads in use and on those that the mechanisms found so far show to be near the worst; they join.</summary>
    public double Learn(IReadOnlyList<Point2> at) => Look(at, afresh: _weak.Count == 0);

    /// <summary>True score of a set on every load; the worst of each section of the trim joins the loads in use.</summary>
    public double LearnAll(IReadOnlyList<Point2> at) => Look(at, afresh: true);

    /// <summary>The factor alone on every load, without the tie-break.</summary>
    public double Factor(IReadOnlyList<Point2> at) => LearnAll(at) / (1 + (SpreadWeight * Spread(at)));

    private double Look(IReadOnlyList<Point2> at, bool afresh)
    {
        HeldPart?[] ways = _lost.Ways(at);
        if (ways[0] is null)
        {
            return 0;
        }
        Use([.. _weak.Select(w => ways[w.Way] is { } held ? Solved(held, w.Way, w.Load, w.Answer) : w)]);
        double worst = LimitState.Most;
        foreach (WeakLoad w in _weak)
        {
            worst = ways[w.Way] is null ? worst : Math.Min(worst, w.Answer.Factor);
        }
        List<WeakLoad> missed = [];
        for (int way = 0; way < ways.Length; way++)
        {
            if (ways[way] is not { } held)
            {
                continue;
            }
            for (int from = 0; from < _loads.Length; from += _perSection)
            {
                int to = Math.Min(_loads.Length, from + _perSection);
                WeakLoad? least = afresh
                    ? WorstOfAll(held, way, from, to, worst)
                    : WorstNear(held, way, from, to, worst);
                if (least is not null)
                {
                    missed.Add(least);
                    worst = Math.Min(worst, least.Answer.Factor);
                }
            }
        }
        HashSet<(int, int)> known = [.. _weak.Select(w => (w.Way, w.Load))];
        bool first = _weak.Count == 0;
        Use([
            .. _weak,
            .. missed.Where(m =>
                (m.Answer.Factor < Near * worst || (first && m.Answer.Factor < FirstNear * worst))
                && known.Add((m.Way, m.Load))
            ),
        ]);
        return worst * (1 + (SpreadWeight * Spread(at)));
    }

    /// <summary>The worst load of a section: each step with the edge ahead, and turned where that step's own mechanism shows it to be near the worst.</summary>
    private WeakLoad WorstOfAll(HeldPart held, int way, int from, int to, double worst)
    {
        WeakLoad? least = null;
        LimitAnswer start = default;
        for (int step = from; step < to; step += Angles.Length)
        {
            WeakLoad ahead = Solved(held, way, step, start);
            start = ahead.Answer;
            least = Worse(least, ahead);
            for (int i = step + 1; i < step + Angles.Length; i++)
            {
                if (ahead.Mechanism.Breaks(held, _loads[i], Near * Math.Min(worst, least.Answer.Factor)))
                {
                    least = Worse(least, Solved(held, way, i, start));
                }
            }
        }
        return least!;
    }

    /// <summary>The worst of those loads of a section that its mechanisms in use show to be near the worst of all; null where none is.</summary>
    private WeakLoad? WorstNear(HeldPart held, int way, int from, int to, double worst)
    {
        WeakLoad[] known = [.. _weak.Where(w => w.Way == way && w.Load >= from && w.Load < to)];
        WeakLoad? least = null;
        for (int i = from; i < to; i++)
        {
            foreach (WeakLoad near in known)
            {
                if (near.Load != i && near.Mechanism.Breaks(held, _loads[i], Near * worst))
                {
                    least = Worse(least, Solved(held, way, i, near.Answer));
                    worst = Math.Min(worst, least.Answer.Factor);
                    break;
                }
            }
        }
        return least;
    }

    private WeakLoad Solved(HeldPart held, int way, int load, LimitAnswer start)
    {
        LimitAnswer answer = LimitState.Solve(held, _loads[load], start);
        return new WeakLoad(way, load, answer, new Mechanism(held.Nodes, answer.Twist));
    }

    private static WeakLoad Worse(WeakLoad? a, WeakLoad b) => a is null || b.Answer.Factor < a.Answer.Factor ? b : a;

    private void Use(IReadOnlyList<WeakLoad> found)
    {
        WeakLoad[] sorted = [.. found.OrderBy(w => w.Answer.Factor)];
        _weak.Clear();
        _weak.AddRange(sorted);
    }

    private double Spread(IReadOnlyList<Point2> at)
    {
        double least = _size;
        for (int i = 0; i < at.Count; i++)
        {
            for (int j = 0; j < i; j++)
            {
                least = Math.Min(least, at[i].DistanceTo(at[j]));
            }
        }
        return at.Count < 2 ? 0 : least / _size;
    }

    /// <summary>A load in use on one of the ways to be held, its answer for the set solved last, and how that slides.</summary>
    private sealed record WeakLoad(int Way, int Load, LimitAnswer Answer, Mechanism Mechanism);
}
