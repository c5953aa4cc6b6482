using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Finds the arcs in a dense polyline. Beginning at the sharpest corner, it takes stretch after stretch, each as long as
/// doubling and halving finds, that one line through its ends or one arc through its first, middle and last vertex follows.
/// </summary>
public static class ArcRecovery
{
    // An arc through fewer edges would fit any corner.
    private const int FewestEdges = 3;

    /// <summary>
    /// The polygon with its lines gathered: vertices, and edge middles under an arc, leave the new curves by no more than
    /// <paramref name="tolerance"/> mm. An arc stands for three edges or more and sweeps at most 3 radians. Where fewer than two
    /// curves would be left, the polygon comes back as it is.
    /// </summary>
    /// <param name="polygon">A contour of lines alone.</param>
    public static Contour Recover(Contour polygon, double tolerance)
    {
        ImmutableArray<Segment> turned = Contours.StartAt(polygon, SharpestCorner(polygon.Segments)).Segments;
        ImmutableArray<Segment> found = [.. Cut([.. turned.Select(s => s.Start), turned[^1].End], tolerance)];
        // Two curves at least close a loop; a polyline that is all one arc keeps its own edges then.
        return found.Length < 2 ? polygon : new Contour(found);
    }

    private readonly record struct Stretch(Segment Segment, int Edges);

    private static IEnumerable<Segment> Cut(List<Point2> chain, double tolerance)
    {
        int start = 0;
        int last = chain.Count - 1;
        while (start < last)
        {
            Stretch best = Longest(chain, start, last, tolerance);
            yield return best.Segment;
            start += best.Edges;
        }
    }

    /// <summary>Doubles the stretch while it fits, then halves the rest.</summary>
    private static Stretch Longest(List<Point2> chain, int start, int last, double tolerance)
    {
        Stretch best = new(Segment.Line(chain[start], chain[start + 1]), 1);
        int step = FewestEdges;
        while (start + step <= last && Fit(chain, start, start + step, tolerance) is { } longer)
        {
            best = longer;
            step *= 2;
        }
        int low = best.Edges;
        int high = Math.Min(step, last - start + 1);
        while (high - low > 1)
        {
            int middle = (low + high) / 2;
            if (Fit(chain, start, start + middle, tolerance) is { } longer)
            {
                best = longer;
                low = middle;
            }
            else
            {
                high = middle;
            }
        }
        return best;
    }

    private static Stretch? Fit(List<Point2> chain, int from, int to, double tolerance) =>
        FitLine(chain, from, to, tolerance) ?? FitArc(chain, from, to, tolerance);

    private static Stretch? FitLine(List<Point2> chain, int from, int to, double tolerance)
    {
        Point2 d = chain[to] - chain[from];
        double length = d.Length;
        if (length <= tolerance)
        {
            return null;
        }
        for (int i = from; i < to; i++)
        {
            double off = Math.Abs(d.Cross(chain[i] - chain[from])) / length;
            if (off > tolerance || d.Dot(chain[i + 1] - chain[i]) <= 0)
            {
                return null;
            }
        }
        return new(Segment.Line(chain[from], chain[to]), to - from);
    }

    private static Stretch? FitArc(List<Point2> chain, int from, int to, double tolerance)
    {
        Point2 a = chain[from];
        Point2 b = chain[to];
        if (to - from < FewestEdges || Centre(a, chain[(from + to) / 2], b) is not { } c)
        {
            return null;
        }
        double radius = a.DistanceTo(c);
        bool ccw = (a - c).Cross(chain[from + 1] - c) > 0;
        double sweep = 0;
        for (int i = from; i < to; i++)
        {
            Point2 p = chain[i] - c;
            Point2 q = chain[i + 1] - c;
            double middle = (p + q).Length / 2;
            double off = Math.Max(Math.Abs(p.Length - radius), Math.Abs(middle - radius));
            double step = Math.Atan2(p.Cross(q), p.Dot(q));
            sweep += step;
            // One arc stays under half a turn: longer ones are hard to fit and to read.
            if (off > tolerance || step > 0 != ccw || Math.Abs(sweep) > 3)
            {
                return null;
            }
        }
        return new(Segment.Arc(a, b, c, ccw), to - from);
    }

    private static Point2? Centre(Point2 a, Point2 b, Point2 c)
    {
        Point2 u = b - a;
        Point2 v = c - a;
        double cross = u.Cross(v);
        // Also where two of the points are one.
        if (Math.Abs(cross) <= 1e-9 * u.Length * v.Length)
        {
            return null;
        }
        return a + (((u.Left * v.Dot(v)) - (v.Left * u.Dot(u))) * (1 / (2 * cross)));
    }

    /// <summary>Where the contour turns most, so that no arc is cut at a start that means nothing.</summary>
    private static int SharpestCorner(ImmutableArray<Segment> s)
    {
        int best = 0;
        double most = -1;
        for (int i = 0; i < s.Length; i++)
        {
            Point2 before = Curve.From(s[i == 0 ? s.Length - 1 : i - 1]).EndTangent;
            Point2 after = Curve.From(s[i]).StartTangent;
            double turn = 1 - before.Dot(after);
            if (turn > most + 1e-12)
            {
                most = turn;
                best = i;
            }
        }
        return best;
    }
}
