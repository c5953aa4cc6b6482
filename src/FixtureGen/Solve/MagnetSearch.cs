using FixtureGen.Model;

namespace FixtureGen.Solve;

/// <summary>
/// Places for a number of magnets that make the worst factor largest, the fixed ones staying: greedy filling and spread-out
/// filling, each bettered by moving one magnet at a time to its best place until nothing gains and then in ever smaller steps off
/// the grid; the better of both counts. Where neither reaches the number, a third start packs as tightly as it can.
/// </summary>
internal sealed class MagnetSearch(
    MagnetObjective objective,
    Point2[] places,
    double pitch,
    double spacing,
    Func<Point2, bool> allowed,
    Func<IReadOnlyList<Point2>, bool> fits
)
{
    private const double Gain = 1e-4;
    private const int MostRounds = 12;
    private const double FinestStep = 0.25;

    /// <summary>So often a move is looked for again because a load was missed that makes it no gain.</summary>
    private const int MostMissed = 4;

    /// <summary>The best set found of a size, or the largest that fits when fewer fit.</summary>
    public Point2[] Best(IReadOnlyList<Point2> fixedPlaces, int count) =>
        count <= fixedPlaces.Count
            ? [.. fixedPlaces]
            : OfAllStarts(fixedPlaces, count, set => Polish(Exchange(set, fixedPlaces.Count), fixedPlaces.Count));

    /// <summary>As <see cref="Best"/>, but on the grid's places only.</summary>
    public Point2[] OnGrid(IReadOnlyList<Point2> fixedPlaces, int count) =>
        OfAllStarts(fixedPlaces, count, set => Exchange(set, fixedPlaces.Count));

    private Point2[] OfAllStarts(IReadOnlyList<Point2> fixedPlaces, int count, Func<Point2[], Point2[]> bettered)
    {
        Point2[] greedy = bettered(Fill(fixedPlaces, count, MostGain));
        Point2[] spread = bettered(Fill(fixedPlaces, count, Farthest));
        Point2[] best =
            greedy.Length < spread.Length || objective.LearnAll(spread) > objective.LearnAll(greedy) * (1 + Gain)
                ? spread
                : greedy;
        if (best.Length == count)
        {
            return best;
        }
        Point2[] packed = bettered(Fill(fixedPlaces, count, Tightest));
        return packed.Length > best.Length ? packed : best;
    }

    /// <summary>A set filled up to a number, each magnet where it gains most; smaller where no more fit.</summary>
    public Point2[] Filled(IReadOnlyList<Point2> set, int count) => Fill(set, count, MostGain);

    /// <summary>One more magnet than a set has, all movable ones moved to where they are best; the set itself where none fits.</summary>
    public Point2[] OneMore(IReadOnlyList<Point2> set, int fixedCount)
    {
        Point2[] filled = Fill(set, set.Count + 1, MostGain);
        return filled.Length == set.Count ? filled : Exchange(filled, fixedCount);
    }

    /// <summary>Moves every movable magnet in steps from half the grid's pitch down to a quarter millimetre.</summary>
    public Point2[] Polish(Point2[] set, int fixedCount)
    {
        Point2[] best = [.. set];
        double score = objective.Learn(best);
        for (double step = pitch / 2; step >= FinestStep; step /= 2)
        {
            for (int round = 0; round < MostRounds && PolishOnce(best, fixedCount, step, ref score); round++) { }
        }
        return best;
    }

    private bool PolishOnce(Point2[] best, int fixedCount, double step, ref double score)
    {
        bool gained = false;
        for (int i = fixedCount; i < best.Length; i++)
        {
            Point2[] around =
            [
                .. Directions.Select(d => Rounded(best[i] + (d * step))).Where(p => allowed(p) && Free(best, i, p)),
            ];
            gained |= MoveTo(best, i, around, ref score);
        }
        return gained;
    }

    private Point2[] Exchange(Point2[] set, int fixedCount)
    {
        double score = objective.LearnAll(set);
        for (int round = 0; round < MostRounds; round++)
        {
            bool gained = false;
            for (int i = fixedCount; i < set.Length; i++)
            {
                Point2[] free = [.. places.Where(p => p != set[i] && Free(set, i, p))];
                gained |= MoveTo(set, i, free, ref score);
            }
            double known = score;
            score = gained ? score : objective.LearnAll(set);
            if (!gained && score > known * (1 - Gain))
            {
                break;
            }
        }
        return set;
    }

    /// <summary>Moves one magnet to the best of some places if that is truly better; returns whether it did.</summary>
    private bool MoveTo(Point2[] set, int index, Point2[] to, ref double score)
    {
        double needed = score * (1 + Gain);
        for (int turn = 0; turn < MostMissed; turn++)
        {
            if (BestOf(set, index, to, needed) is not { } best)
            {
                return false;
            }
            Point2 before = set[index];
            set[index] = best;
            double known = objective.Learn(set);
            if (known > needed)
            {
                score = known;
                return true;
            }
            set[index] = before;
        }
        return false;
    }

    /// <summary>The place, of those that leave room for the net, at which one magnet of a set is best; null where none is better than needed.</summary>
    private Point2? BestOf(Point2[] set, int index, Point2[] of, double needed)
    {
        Point2? best = BestOf(set, index, of, needed, static _ => true);
        return best is { } at && !fits(With(set, index, at)) ? BestOf(set, index, of, needed, fits) : best;
    }

    private Point2? BestOf(Point2[] set, int index, Point2[] of, double needed, Func<IReadOnlyList<Point2>, bool> mayBe)
    {
        Point2? best = null;
        Point2[] trial = [.. set];
        foreach (Point2 p in of)
        {
            trial[index] = p;
            double score = objective.Score(trial, needed);
            if (score > needed && mayBe(trial))
            {
                (best, needed) = (p, score);
            }
        }
        return best;
    }

    private static Point2[] With(Point2[] set, int index, Point2 at)
    {
        Point2[] trial = [.. set];
        trial[index] = at;
        return trial;
    }

    private Point2[] Fill(IReadOnlyList<Point2> from, int count, Func<Point2[], Point2[], Point2?> best)
    {
        Point2[] set = [.. from];
        while (set.Length < count)
        {
            Point2[] free = [.. places.Where(p => Free(set, set.Length, p))];
            if (free.Length == 0 || best(set, free) is not { } next)
            {
                break;
            }
            set = [.. set, next];
        }
        return set;
    }

    private Point2? MostGain(Point2[] set, Point2[] free)
    {
        Point2[] trial = [.. set, free[free.Length / 2]];
        objective.Learn(trial);
        return BestOf(trial, set.Length, free, 0);
    }

    private Point2? Farthest(Point2[] set, Point2[] free)
    {
        Point2 middle = new(free.Average(p => p.X), free.Average(p => p.Y));
        Point2[] from = set.Length == 0 ? [middle] : set;
        return FirstThatFits(set, free.OrderByDescending(p => from.Min(s => s.DistanceTo(p))));
    }

    /// <summary>The place that takes the fewest others away.</summary>
    private Point2? Tightest(Point2[] set, Point2[] free) =>
        FirstThatFits(set, free.OrderBy(p => free.Count(o => o.DistanceTo(p) < spacing)));

    private Point2? FirstThatFits(Point2[] set, IEnumerable<Point2> bestFirst) =>
        bestFirst.Cast<Point2?>().FirstOrDefault(p => fits([.. set, p!.Value]));

    private bool Free(Point2[] set, int index, Point2 p)
    {
        for (int j = 0; j < set.Length; j++)
        {
            if (j != index && set[j].DistanceTo(p) < spacing)
            {
                return false;
            }
        }
        return true;
    }

    private static Point2 Rounded(Point2 p) => new(Math.Round(p.X, 3), Math.Round(p.Y, 3));

    private static Point2[] Directions { get; } =
    [new(1, 0), new(0, 1), new(-1, 0), new(0, -1), new(1, 1), new(-1, 1), new(-1, -1), new(1, -1)];
}
