using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>A smooth stretch of a curve: At gives the point (mm) and a tangent in the direction of travel, of any length, for From &lt;= t &lt;= To.</summary>
internal readonly record struct CurveSpan(double From, double To, Func<double, (Point2 At, Point2 Tangent)> Curve);

/// <summary>
/// Replaces a smooth curve by arcs that meet with a common tangent: each stretch becomes a pair of arcs (a biarc with
/// equal end lengths, K. M. Bolton, Biarc curves, Computer-Aided Design 7 (1975) 89-92) and is halved until no sample
/// of the curve lies farther from the pair than the tolerance.
/// </summary>
internal static class Biarcs
{
    private const int Samples = 9;
    private const int DeepestHalving = 14;

    // Sine between a chord and its arc's tangent below which a line stands for the arc.
    private const double Straight = 1e-3;

    /// <summary>
    /// Arcs and lines within <paramref name="chord"/> mm of the spans, end to end; spans must join each other. What does not fit
    /// after 14 halvings becomes a line.
    /// </summary>
    public static List<Segment> Fit(IEnumerable<CurveSpan> spans, double chord)
    {
        var segments = new List<Segment>();
        foreach (CurveSpan span in spans)
        {
            Fit(span, chord, 0, segments);
        }
        return BiarcTidy.Merge(segments, chord);
    }

    private static void Fit(CurveSpan span, double chord, int depth, List<Segment> into)
    {
        (Point2 start, Point2 leaving) = End(span, span.From, 1);
        (Point2 end, Point2 arriving) = End(span, span.To, -1);
        if (into.Count > 0)
        {
            start = into[^1].End;
        }
        var pair = new List<Segment>(2);
        if (Stands(span, start, end, chord * 1e-3))
        {
            AddLine(start, end, into);
            return;
        }
        bool fits = TryPair(start, leaving, end, arriving, chord, pair) && Deviation(span, pair, chord) <= chord;
        if (fits || depth == DeepestHalving)
        {
            if (!fits)
            {
                pair.Clear();
                AddLine(start, end, pair);
            }
            into.AddRange(pair);
            return;
        }
        double middle = (span.From + span.To) / 2;
        Fit(span with { To = middle }, chord, depth + 1, into);
        Fit(span with { From = middle }, chord, depth + 1, into);
    }

    // Control points in one place make a stretch of a spline a single point.
    private static bool Stands(CurveSpan span, Point2 start, Point2 end, double slack)
    {
        if (start.DistanceTo(end) > slack)
        {
            return false;
        }
        for (int i = 1; i < Samples; i++)
        {
            if (span.Curve(span.From + ((span.To - span.From) * i / Samples)).At.DistanceTo(start) > slack)
            {
                return false;
            }
        }
        return true;
    }

    // A curve may stand still at its end (two control points in one place); its direction there is that of the next point.
    private static (Point2 At, Point2 Tangent) End(CurveSpan span, double t, int inward)
    {
        (Point2 at, Point2 tangent) = span.Curve(t);
        double reach = span.To - span.From;
        double scale = (span.Curve(span.To).At - span.Curve(span.From).At).Length / reach;
        for (double part = 1e-4; tangent.Length <= 1e-9 * scale && part < 1; part *= 8)
        {
            Point2 near = span.Curve(t + (inward * part * reach)).At;
            tangent = (near - at) * inward;
        }
        double length = tangent.Length;
        return (at, length > 0 ? tangent * (1 / length) : default);
    }

    private static bool TryPair(
        Point2 start,
        Point2 leaving,
        Point2 end,
        Point2 arriving,
        double chord,
        List<Segment> pair
    )
    {
        Point2 v = end - start;
        if (v.Length <= 0 || leaving.Length <= 0 || arriving.Length <= 0 || leaving.Dot(arriving) < -0.5)
        {
            return false;
        }
        double along = v.Dot(leaving + arriving);
        double turn = 2 * (1 - leaving.Dot(arriving));
        double root = Math.Sqrt((along * along) + (turn * v.Dot(v)));
        double reach = along + root <= 0 ? 0 : v.Dot(v) / (along + root);
        if (reach <= 0)
        {
            return false;
        }
        Point2 joint = (start + (reach * leaving) + (end - (reach * arriving))) * 0.5;
        AddArc(start, leaving, joint, chord, pair);
        AddArcInto(joint, end, arriving, chord, pair);
        return pair.TrueForAll(s => s.Length < 2 * v.Length);
    }

    private static void AddArc(Point2 from, Point2 leaving, Point2 to, double chord, List<Segment> into)
    {
        Point2 w = to - from;
        double side = leaving.Cross(w);
        // side / 4 is the arc's rise over its chord, near enough where it is small; near a cusp a short arc turns far with next to none
        if (Math.Abs(side) < Math.Min(4e-4 * chord, Straight * w.Length))
        {
            AddLine(from, to, into);
            return;
        }
        Point2 centre = from + (leaving.Left * (w.Dot(w) / (2 * side)));
        into.Add(Segment.Arc(from, to, centre, side > 0));
    }

    private static void AddArcInto(Point2 from, Point2 to, Point2 arriving, double chord, List<Segment> into)
    {
        var reversed = new List<Segment>(1);
        AddArc(to, arriving * -1, from, chord, reversed);
        into.AddRange(reversed.Select(s => s.Reversed));
    }

    private static void AddLine(Point2 from, Point2 to, List<Segment> into)
    {
        if (from != to)
        {
            into.Add(Segment.Line(from, to));
        }
    }

    private static double Deviation(CurveSpan span, List<Segment> pair, double enough)
    {
        double worst = 0;
        for (int i = 1; i < Samples && worst <= enough; i++)
        {
            Point2 p = span.Curve(span.From + ((span.To - span.From) * i / Samples)).At;
            double nearest = double.PositiveInfinity;
            foreach (Segment s in pair)
            {
                nearest = Math.Min(nearest, Measure.Distance(p, s));
            }
            worst = Math.Max(worst, nearest);
        }
        return worst;
    }
}
