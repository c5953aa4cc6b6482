namespace FixtureGen.Verify.Tests.Damage;

/// <summary>
/// Arguments that two programs send the tool the same way, for the stretch in which they differ. They look at where the tool's tip
/// passes and how fast, at nothing else.
/// </summary>
internal sealed class Ways
{
    /// <summary>Spacing of the points that paths are compared by, mm.</summary>
    private const double Spacing = 0.03;

    /// <summary>Points this near a path lie on it, mm: chords of arcs and rounded words.</summary>
    private const double SameWay = 0.005;

    /// <summary>Longer stretches are not compared: they count as different.</summary>
    private const int MostPoints = 8000;

    private readonly Deed[] _good;
    private readonly Deed[] _edited;

    private readonly Deed[] _before;

    private Ways(Deed[] good, Deed[] edited, Deed[] before)
    {
        _good = good;
        _edited = edited;
        _before = before;
    }

    /// <summary>The stretches that differ; null where they hold anything but plain motions in one state.</summary>
    public static Ways? Between(List<Deed> good, List<Deed> edited)
    {
        int first = 0;
        int least = Math.Min(good.Count, edited.Count);
        while (first < least && good[first].Same(edited[first]))
        {
            first++;
        }
        int last = 0;
        while (last < least - first && good[^(last + 1)].Same(edited[^(last + 1)]))
        {
            last++;
        }
        Deed[] a = [.. good.Skip(first).Take(good.Count - first - last)];
        Deed[] b = [.. edited.Skip(first).Take(edited.Count - first - last)];
        bool plain = a.Length > 0 && b.Length > 0 && a.Concat(b).All(d => d.Path is not null);
        bool ends =
            plain && a[0].Path![0].SequenceEqual(b[0].Path![0]) && a[^1].Path![^1].SequenceEqual(b[^1].Path![^1]);
        return ends ? new Ways(a, b, [.. good.Take(first)]) : null;
    }

    /// <summary>Rapids only, over the same places in plan and nowhere lower, nor higher than the tool goes anyway: what the
    /// low way clears, the high one does.</summary>
    public bool RapidsNoLower()
    {
        Deed[] all = [.. _good, .. _edited];
        bool top = double.IsNaN(all[0].Path![0][2]);
        string State(Deed d) => top ? WithoutLength(d.State) : d.State;
        if (all.Any(d => d.What != "G0" || State(d) != State(all[0])))
        {
            return false;
        }
        List<(double X, double Y, double Low)> a = Plan(_good);
        List<(double X, double Y, double Low)> b = Plan(_edited);
        double highest = Math.Max(HighestBefore(), _good.Max(d => Math.Max(High(d.Path![0]), High(d.Path[1]))));
        return a.Count == b.Count
            && a.Zip(b).All(p => p.First.X.Equals(p.Second.X) && p.First.Y.Equals(p.Second.Y))
            && a.Zip(b).All(p => p.Second.Low >= p.First.Low)
            && _edited.All(d => High(d.Path![1]) <= highest);
    }

    /// <summary>A length offset moves nothing until the next height is said.</summary>
    private static string WithoutLength(string state) =>
        string.Join(' ', state.Split(' ').Where(w => !w.StartsWith("length", StringComparison.Ordinal) && w[0] != 'H'));

    /// <summary>
    /// Up and down at one place, with one descent at feed or none: every height is passed no faster than it was, the end is as deep, and the
    /// tool goes no higher than it does elsewhere.
    /// </summary>
    public bool SameColumn()
    {
        Deed[] all = [.. _good, .. _edited];
        double[] at = all[0].Path![0];
        Deed[] feeds = [.. all.Where(d => d.What == "G1")];
        bool column = all.All(d =>
            d.What is "G0" or "G1" && d.Path!.All(p => p[0].Equals(at[0]) && p[1].Equals(at[1]) && !double.IsNaN(p[2]))
        );
        if (!column || feeds.Any(d => d.State != feeds[0].State || !d.Rpm.Equals(feeds[0].Rpm)))
        {
            return false;
        }
        double[] heights = [.. all.SelectMany(d => d.Path!).Select(p => p[2]).Distinct().Order()];
        double Bottom(Deed[] way) => way.SelectMany(d => d.Path!).Min(p => p[2]);
        double Top(Deed[] way) => way.SelectMany(d => d.Path!).Max(p => p[2]);
        return Descents(_good) <= 1
            && Descents(_edited) <= 1
            && Bottom(_edited).Equals(Bottom(_good))
            && Top(_edited) <= Math.Max(Top(_good), HighestBefore())
            && heights
                .Zip(heights.Skip(1), (low, high) => Speed(_edited, low, high) <= Speed(_good, low, high))
                .All(x => x);
    }

    private double HighestBefore() =>
        _before
            .Where(d => d.Path is not null)
            .SelectMany(d => d.Path!)
            .Select(p => p[2])
            .Where(double.IsFinite)
            .DefaultIfEmpty(double.MinValue)
            .Max();

    /// <summary>Runs downward that hold a feed: of several, the one between takes chips out.</summary>
    private static int Descents(Deed[] way)
    {
        int count = 0;
        bool counted = false;
        foreach (Deed d in way)
        {
            bool down = d.Path![1][2] < d.Path[0][2];
            count += down && !counted && d.What == "G1" ? 1 : 0;
            counted = down && (counted || d.What == "G1");
        }
        return count;
    }

    /// <summary>The fastest way down through a span of heights; a rapid has no bound, 0 where nothing goes down.</summary>
    private static double Speed(Deed[] way, double low, double high) =>
        way.Where(d => d.Path![0][2] >= high && d.Path[1][2] <= low)
            .Select(d => d.What == "G0" ? double.MaxValue : d.Feed)
            .DefaultIfEmpty(0)
            .Max();

    /// <summary>
    /// Feeding only, at one feed: no point of either path is farther than the limit from the point of the other that is passed at
    /// the same time of some common march (Frechet distance; the discrete one is never less, Eiter and Mannila 1994).
    /// </summary>
    public bool FeedsWithin(double limit)
    {
        Deed[] all = [.. _good, .. _edited];
        if (
            all.Any(d =>
                d.What == "G0" || d.State != all[0].State || !d.Feed.Equals(all[0].Feed) || !d.Rpm.Equals(all[0].Rpm)
            )
        )
        {
            return false;
        }
        double[][] a = Points(_good);
        double[][] b = Points(_edited);
        if (a.Length > MostPoints || b.Length > MostPoints)
        {
            return false;
        }
        bool[] reach = new bool[b.Length];
        for (int i = 0; i < a.Length; i++)
        {
            bool corner = i == 0;
            for (int j = 0; j < b.Length; j++)
            {
                bool before = reach[j];
                bool from = (i == 0 && j == 0) || before || corner || (j > 0 && reach[j - 1]);
                corner = before;
                reach[j] = from && Far(a[i], b[j]) <= limit;
            }
        }
        return reach[^1];
    }

    /// <summary>
    /// Feeding only, and every point of both stretches lies on a way that the same tool has gone before at feed, no higher: neither
    /// finds any material.
    /// </summary>
    public bool Retraced()
    {
        Deed[] all = [.. _good, .. _edited];
        if (all.Any(d => d.What == "G0" || d.State != all[0].State || !d.Rpm.Equals(all[0].Rpm)))
        {
            return false;
        }
        double[][] points = [.. Points(_good), .. Points(_edited)];
        Deed[] old = [.. _before.Where(d => d.Path is not null && d.What != "G0" && d.State == all[0].State)];
        return points.Length <= MostPoints && points.All(p => old.Any(d => On(d.Path!, p)));
    }

    private static bool On(double[][] path, double[] p)
    {
        for (int i = 1; i < path.Length; i++)
        {
            (double[] a, double[] b) = (path[i - 1], path[i]);
            (double dx, double dy) = (b[0] - a[0], b[1] - a[1]);
            double square = (dx * dx) + (dy * dy);
            double t = square > 0 ? Math.Clamp((((p[0] - a[0]) * dx) + ((p[1] - a[1]) * dy)) / square, 0, 1) : 1;
            double away = Math.Sqrt(Math.Pow(p[0] - a[0] - (t * dx), 2) + Math.Pow(p[1] - a[1] - (t * dy), 2));
            if (away <= SameWay && a[2] + (t * (b[2] - a[2])) <= p[2] + SameWay)
            {
                return true;
            }
        }
        return false;
    }

    /// <summary>Places in plan in the order they are passed, each with the lowest height on the way to it and at it.</summary>
    private static List<(double X, double Y, double Low)> Plan(Deed[] way)
    {
        double[] start = way[0].Path![0];
        List<(double X, double Y, double Low)> plan = [(start[0], start[1], High(start))];
        foreach (double[][] path in way.Select(d => d.Path!))
        {
            (double x, double y, double low) = plan[^1];
            double here = Math.Min(High(path[0]), High(path[1]));
            bool stays = path[1][0].Equals(x) && path[1][1].Equals(y);
            if (stays)
            {
                plan[^1] = (x, y, Math.Min(low, here));
            }
            else
            {
                plan.Add((path[1][0], path[1][1], here));
            }
        }
        return plan;
    }

    /// <summary>After a tool change the tool is at the machine's top.</summary>
    private static double High(double[] p) => double.IsNaN(p[2]) ? double.PositiveInfinity : p[2];

    private static double[][] Points(Deed[] way)
    {
        List<double[]> points = [way[0].Path![0]];
        foreach (double[][] path in way.Select(d => d.Path!))
        {
            for (int i = 1; i < path.Length && points.Count <= MostPoints; i++)
            {
                (double[] p, double[] q) = (path[i - 1], path[i]);
                double length = Far(p, q);
                int n = double.IsFinite(length)
                    ? (int)Math.Min(Math.Max(1, Math.Ceiling(length / Spacing)), MostPoints)
                    : MostPoints;
                points.AddRange(
                    Enumerable
                        .Range(1, n)
                        .Select(k =>
                            (double[])
                                [.. Enumerable.Range(0, 3).Select(axis => p[axis] + ((q[axis] - p[axis]) * k / n))]
                        )
                );
            }
        }
        return [.. points];
    }

    private static double Far(double[] p, double[] q) =>
        Math.Sqrt(((p[0] - q[0]) * (p[0] - q[0])) + ((p[1] - q[1]) * (p[1] - q[1])) + ((p[2] - q[2]) * (p[2] - q[2])));
}
