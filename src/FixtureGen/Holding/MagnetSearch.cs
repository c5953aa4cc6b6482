using FixtureGen.Model;

namespace FixtureGen.Holding;

/// <summary>
/// Places for a number of magnets that make the worst factor largest, the fixed ones staying: greedy filling and spread-out
/// filling, each bettered by moving one magnet at a time to its best place until nothing gains, the better of both then moved
/// in ever smaller steps off the grid. The same input gives the same places whatever the number of cores.
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

    /// <summary>The best set found of a size, or the largest that fits when fewer fit.</summary>
    public Point2[] Best(IReadOnlyList<Point2> fixedPlaces, int count) =>
        Polish(OnGrid(fixedPlaces, count), fixedPlaces.Count);

    /// <summary>As <see cref="Best"/>, but on the grid's places only.</summary>
    public Point2[] OnGrid(IReadOnlyList<Point2> fixedPlaces, int count)
    {
        Point2[] greedy = Exchange(Fill(fixedPlaces, count, MostGain), fixedPlaces.Count);
        Point2[] spread = Exchange(Fill(fixedPlaces, count, Farthest), fixedPlaces.Count);
        return greedy.Length < spread.Length || objective.Learn(spread) > objective.Learn(greedy) * (1 + Gain)
            ? spread
            : greedy;
    }

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
        double score = objective.Learn(set);
        for (int round = 0; round < MostRounds; round++)
        {
            bool gained = false;
            for (int i = fixedCount; i < set.Length; i++)
            {
                Point2[] free = [.. places.Where(p => p != set[i] && Free(set, i, p))];
                gained |= MoveTo(set, i, free, ref score);
            }
            if (!gained)
            {
                break;
            }
        }
        return set;
    }

    /// <summary>Moves one magnet to the best of some places if that is truly better; tells whether it did.</summary>
    private bool MoveTo(Point2[] set, int index, Point2[] to, ref double score)
    {
        double needed = score * (1 + Gain);
        double[] scores = new double[to.Length];
        Parallel.For(
            0,
            to.Length,
            k =>
            {
                Point2[] trial = [.. set];
                trial[index] = to[k];
                scores[k] = objective.Score(trial, needed);
            }
        );
        foreach (
            int k in Enumerable
                .Range(0, to.Length)
                .Where(k => scores[k] > needed)
                .OrderByDescending(k => scores[k])
                .Take(4)
        )
        {
            Point2 before = set[index];
            set[index] = to[k];
            double exact = fits(set) ? objective.Learn(set) : 0;
            if (exact > needed)
            {
                score = exact;
                return true;
            }
            set[index] = before;
        }
        return false;
    }

    private Point2[] Fill(
        IReadOnlyList<Point2> from,
        int count,
        Func<List<Point2>, Point2[], IEnumerable<Point2>> bestFirst
    )
    {
        List<Point2> set = [.. from];
        while (set.Count < count)
        {
            Point2[] free = [.. places.Where(p => set.All(s => s.DistanceTo(p) >= spacing))];
            Point2? next = bestFirst(set, free).Cast<Point2?>().FirstOrDefault(p => fits([.. set, p!.Value]));
            if (next is null)
            {
                break;
            }
            set.Add(next.Value);
        }
        return [.. set];
    }

    private IEnumerable<Point2> MostGain(List<Point2> set, Point2[] free)
    {
        if (free.Length == 0)
        {
            return [];
        }
        objective.Learn([.. set, free[free.Length / 2]]);
        double[] scores = new double[free.Length];
        Parallel.For(0, free.Length, k => scores[k] = objective.Score([.. set, free[k]], 0));
        return Enumerable.Range(0, free.Length).OrderByDescending(k => scores[k]).Select(k => free[k]);
    }

    private static IEnumerable<Point2> Farthest(List<Point2> set, Point2[] free)
    {
        if (free.Length == 0)
        {
            return [];
        }
        Point2 middle = new(free.Average(p => p.X), free.Average(p => p.Y));
        return set.Count == 0
            ? free.OrderByDescending(p => p.DistanceTo(middle))
            : free.OrderByDescending(p => set.Min(s => s.DistanceTo(p)));
    }

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
