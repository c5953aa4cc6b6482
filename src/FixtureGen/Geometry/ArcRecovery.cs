using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>What came of a recovery: the contour, how many lines went into how many lines and arcs, the greatest deviation.</summary>
/// <param name="Replaced">Lines of the input that are now part of an arc or a longer line.</param>
/// <param name="Arcs">Arcs put in their place.</param>
/// <param name="Deviation">Greatest distance of a replaced vertex or edge middle from its curve, mm.</param>
public sealed record Recovered(Contour Contour, int Replaced, int Arcs, double Deviation);

/// <summary>
/// Finds the arcs in a dense polyline. From each vertex on it takes the longest stretch that one line or one arc, through its
/// first, middle and last vertex, follows within the tolerance, edge middles included. Arcs of the input stay as they are.
/// </summary>
public static class ArcRecovery
{
    // An arc through fewer edges would fit any corner.
    private const int FewestEdges = 3;

    /// <summary>Recovers arcs within <paramref name="tolerance"/> mm of the polyline; corners that are sharper stay.</summary>
    public static Recovered Recover(Contour contour, double tolerance)
    {
        ImmutableArray<Segment> turned = Contours.StartAt(contour, SharpestCorner(contour.Segments)).Segments;
        var result = ImmutableArray.CreateBuilder<Segment>();
        int replaced = 0;
        int arcs = 0;
        double deviation = 0;
        List<Point2> chain = [];
        for (int i = 0; i <= turned.Length; i++)
        {
            if (i < turned.Length && !turned[i].IsArc)
            {
                chain.Add(turned[i].Start);
                continue;
            }
            if (chain.Count > 0)
            {
                chain.Add(turned[i - 1].End);
                foreach (Stretch s in Cut(chain, tolerance))
                {
                    result.Add(s.Segment);
                    replaced += s.Edges > 1 ? s.Edges : 0;
                    arcs += s.Segment.IsArc ? 1 : 0;
                    deviation = Math.Max(deviation, s.Deviation);
                }
                chain.Clear();
            }
            if (i < turned.Length)
            {
                result.Add(turned[i]);
            }
        }
        // Two curves at least close a loop; a polyline that is all one arc keeps its own edges then.
        return result.Count < 2
            ? new(contour, 0, 0, 0)
            : new(new Contour(result.ToImmutable()), replaced, arcs, deviation);
    }

    private readonly record struct Stretch(Segment Segment, int Edges, double Deviation);

    private static IEnumerable<Stretch> Cut(List<Point2> chain, double tolerance)
    {
        int start = 0;
        int last = chain.Count - 1;
        while (start < last)
        {
            Stretch best = Longest(chain, start, last, tolerance);
            yield return best;
            start += best.Edges;
        }
    }

    /// <summary>Doubles the stretch while it fits, then halves the rest.</summary>
    private static Stretch Longest(List<Point2> chain, int start, int last, double tolerance)
    {
        Stretch best = new(Segment.Line(chain[start], chain[start + 1]), 1, 0);
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
        double worst = 0;
        for (int i = from; i < to; i++)
        {
            worst = Math.Max(worst, Math.Abs(d.Cross(chain[i] - chain[from])) / length);
            if (worst > tolerance || d.Dot(chain[i + 1] - chain[i]) <= 0)
            {
                return null;
            }
        }
        return new(Segment.Line(chain[from], chain[to]), to - from, worst);
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
        double worst = 0;
        double sweep = 0;
        for (int i = from; i < to; i++)
        {
            Point2 p = chain[i] - c;
            Point2 q = chain[i + 1] - c;
            double middle = (p + q).Length / 2;
            worst = Math.Max(worst, Math.Max(Math.Abs(p.Length - radius), Math.Abs(middle - radius)));
            double step = Math.Atan2(p.Cross(q), p.Dot(q));
            sweep += step;
            // One arc stays under half a turn: longer ones are hard to fit and to read.
            if (worst > tolerance || step > 0 != ccw || Math.Abs(sweep) > 3)
            {
                return null;
            }
        }
        return new(Segment.Arc(a, b, c, ccw), to - from, worst);
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
            Point2 before = Curve.Of(s[i == 0 ? s.Length - 1 : i - 1]).EndTangent;
            Point2 after = Curve.Of(s[i]).StartTangent;
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
