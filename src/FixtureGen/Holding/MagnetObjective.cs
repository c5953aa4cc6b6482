using FixtureGen.Model;

namespace FixtureGen.Holding;

/// <summary>
/// How good a set of magnets is: the worst factor with the seal lost and the machine stopping, and, as a tie-break of at
/// most 0.2 %, how far apart they stand. Only the loads that were worst so far are tried; <see cref="Learn"/> tries all and
/// adds the ones that were missed, so an accepted set's figure is that of the whole trim.
/// </summary>
internal sealed class MagnetObjective
{
    private const double SpreadWeight = 0.002;
    private const int Sections = 24;

    /// <summary>Edge positions tried, radians; the full answer finds the very worst, which is at most 1 % lower.</summary>
    private static readonly double[] Angles = [0, -0.3, 0.3, -0.6, 0.6];

    private readonly SealLost lost;
    private readonly CutLoad[] loads;
    private readonly double size;
    private readonly List<int> active = [];
    private LimitAnswer[] starts = [];

    public MagnetObjective(HoldingContext context, double size)
    {
        lost = context.Lost;
        this.size = size;
        List<CutLoad> all = [];
        for (int step = 0; step < context.Loads.Steps.Length; step++)
        {
            double share = context.Loads.Works[context.Loads.Steps[step].Work].StopShare;
            foreach (double angle in Angles)
            {
                all.Add(context.Loads.Load(step, angle) * share);
            }
        }
        loads = [.. all];
    }

    /// <summary>Score of a set on the loads in use; a set that falls to <paramref name="enough"/> or below is given up early.</summary>
    public double Score(IReadOnlyList<Point2> at, double enough)
    {
        HeldPart? held = lost.Hold(at);
        if (held is null)
        {
            return 0;
        }
        double spread = 1 + (SpreadWeight * Spread(at));
        double worst = LimitState.Most;
        for (int i = 0; i < active.Count; i++)
        {
            LimitAnswer answer = LimitState.Solve(held, loads[active[i]], starts[i]);
            worst = Math.Min(worst, answer.Factor);
            if (worst * spread <= enough)
            {
                break;
            }
        }
        return worst * spread;
    }

    /// <summary>True score of a set on every load; the worst of each section of the trim joins the loads in use, worst first.</summary>
    public double Learn(IReadOnlyList<Point2> at)
    {
        HeldPart? held = lost.Hold(at);
        if (held is null)
        {
            return 0;
        }
        var answers = new LimitAnswer[loads.Length];
        int section = (loads.Length + Sections - 1) / Sections;
        Parallel.For(0, Sections, s => Solve(held, answers, s * section, Math.Min(loads.Length, (s + 1) * section)));
        double worst = answers.Min(a => a.Factor);
        for (int s = 0; s < Sections; s++)
        {
            int from = s * section;
            int to = Math.Min(loads.Length, from + section);
            int least = from;
            for (int i = from; i < to; i++)
            {
                least = answers[i].Factor < answers[least].Factor ? i : least;
            }
            if (
                from < to
                && !active.Contains(least)
                && (active.Count < Sections || answers[least].Factor < 1.05 * worst)
            )
            {
                active.Add(least);
            }
        }
        active.Sort((a, b) => answers[a].Factor.CompareTo(answers[b].Factor));
        starts = [.. active.Select(i => answers[i])];
        return worst * (1 + (SpreadWeight * Spread(at)));
    }

    /// <summary>The factor alone on every load, without the tie-break.</summary>
    public double Factor(IReadOnlyList<Point2> at) => Learn(at) / (1 + (SpreadWeight * Spread(at)));

    private void Solve(HeldPart held, LimitAnswer[] answers, int from, int to)
    {
        int angles = Angles.Length;
        for (int i = from; i < to; i++)
        {
            LimitAnswer start = i >= from + angles ? answers[i - angles] : default;
            answers[i] = LimitState.Solve(held, loads[i], start);
        }
    }

    private double Spread(IReadOnlyList<Point2> at)
    {
        double least = size;
        for (int i = 0; i < at.Count; i++)
        {
            for (int j = 0; j < i; j++)
            {
                least = Math.Min(least, at[i].DistanceTo(at[j]));
            }
        }
        return at.Count < 2 ? 0 : least / size;
    }
}
