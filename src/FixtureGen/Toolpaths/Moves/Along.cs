using FixtureGen.Model;

namespace FixtureGen.Toolpaths.Moves;

/// <summary>Pieces of chains by arc length, mm, exact arcs kept.</summary>
internal static class Along
{
    /// <summary>From <paramref name="from"/> for <paramref name="length"/>, going round as often as it takes.</summary>
    public static IEnumerable<Segment> Loop(IReadOnlyList<Segment> loop, double from, double length)
    {
        double total = loop.Sum(s => s.Length);
        double at = from % total;
        int i = 0;
        while (i < loop.Count - 1 && at >= loop[i].Length)
        {
            at -= loop[i].Length;
            i++;
        }
        for (double left = length; left > 1e-9; i = (i + 1) % loop.Count)
        {
            double take = Math.Min(left, loop[i].Length - at);
            if (take > 1e-9)
            {
                yield return Part(loop[i], at, at + take);
            }
            left -= Math.Max(take, 0);
            at = 0;
        }
    }

    /// <summary>The stretch between two arc lengths of one segment.</summary>
    public static Segment Part(Segment s, double from, double to)
    {
        double length = s.Length;
        bool whole = from <= 1e-9;
        Point2 start = whole ? s.Start : PointAt(s, from / length);
        Point2 end = to >= length - 1e-9 ? s.End : PointAt(s, to / length);
        return s with { Start = start, End = end };
    }

    /// <summary>The stretch of an open chain between two arc lengths.</summary>
    public static IEnumerable<Segment> Open(IReadOnlyList<Segment> path, double from, double to)
    {
        double before = 0;
        foreach (Segment s in path)
        {
            double a = Math.Max(from - before, 0);
            double b = Math.Min(to - before, s.Length);
            if (b - a > 1e-9)
            {
                yield return Part(s, a, b);
            }
            before += s.Length;
        }
    }

    public static IEnumerable<Segment> Reversed(IReadOnlyList<Segment> path) =>
        Enumerable.Range(1, path.Count).Select(k => path[^k].Reversed);

    /// <summary>Nearest point of a loop to <paramref name="p"/>: its arc length from the start, the point, the distance.</summary>
    public static (double At, Point2 Point, double Distance) Nearest(IReadOnlyList<Segment> chain, Point2 p)
    {
        (double At, Point2 Point, double Distance) best = (0, chain[0].Start, double.PositiveInfinity);
        double before = 0;
        foreach (Segment s in chain)
        {
            (double t, Point2 q) = Nearest(s, p);
            double d = q.DistanceTo(p);
            if (d < best.Distance - 1e-9)
            {
                best = (before + (t * s.Length), q, d);
            }
            before += s.Length;
        }
        return best;
    }

    private static (double T, Point2 Q) Nearest(Segment s, Point2 p)
    {
        double t;
        if (s.IsArc)
        {
            double sweep = s.Sweep;
            Point2 a = s.Start - s.Centre;
            Point2 b = p - s.Centre;
            double angle = Math.Atan2(a.Cross(b), a.Dot(b));
            double turned =
                sweep > 0 ? (angle + (2 * Math.PI)) % (2 * Math.PI) : -((2 * Math.PI - angle) % (2 * Math.PI));
            t =
                Math.Abs(turned) <= Math.Abs(sweep)
                    ? turned / sweep
                    : (p.DistanceTo(s.Start) <= p.DistanceTo(s.End) ? 0 : 1);
        }
        else
        {
            Point2 d = s.End - s.Start;
            double square = d.Dot(d);
            t = square > 0 ? Math.Clamp((p - s.Start).Dot(d) / square, 0, 1) : 0;
        }
        return (t, PointAt(s, t));
    }

    private static Point2 PointAt(Segment s, double t)
    {
        if (t <= 0)
        {
            return s.Start;
        }
        if (t >= 1)
        {
            return s.End;
        }
        if (!s.IsArc)
        {
            return s.Start + ((s.End - s.Start) * t);
        }
        (double sin, double cos) = Math.SinCos(s.Sweep * t);
        Point2 r = s.Start - s.Centre;
        return s.Centre + new Point2((r.X * cos) - (r.Y * sin), (r.X * sin) + (r.Y * cos));
    }
}
