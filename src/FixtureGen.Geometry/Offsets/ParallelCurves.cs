using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>Whether every curve of a result is what it says: a parallel of the source curve that it names, and no source nearer to it.</summary>
internal sealed class ParallelCurves(Slack slack)
{
    private OffsetSource _source = null!;
    private double _distance;

    /// <summary>Before anything is asked.</summary>
    /// <param name="from">What the parallel is of.</param>
    /// <param name="at">mm.</param>
    public void Begin(OffsetSource from, double at) => (_source, _distance) = (from, at);

    public bool LieAtDistance(Offsetter work, List<Loop> loops)
    {
        foreach (Loop loop in loops)
        {
            ReadOnlySpan<Segment> segments = loop.Contour.Segments.AsSpan();
            if (loop.Sources.IsDefault || loop.Sources.Length != segments.Length)
            {
                return false;
            }
            for (int i = 0; i < segments.Length; i++)
            {
                ref readonly Segment s = ref segments[i];
                ref readonly Curve from = ref _source.Curves[work.SourceOf(loop.Sources[i])];
                if (!(s.IsArc ? IsParallelArc(s, from) : IsParallelLine(s, from)))
                {
                    return false;
                }
            }
        }
        return true;
    }

    /// <summary>The same for loops of whose making nothing is known: the nearest source is asked for.</summary>
    public bool AreNearest(List<Loop> loops)
    {
        foreach (Loop loop in loops)
        {
            foreach (ref readonly Segment s in loop.Contour.Segments.AsSpan())
            {
                double d = _source.Index.Nearest(Curve.From(s).Probe, _distance + (2 * slack.Slop), out _);
                if (Math.Abs(d - _distance) > slack.Slop)
                {
                    return false;
                }
            }
        }
        return true;
    }

    /// <summary>
    /// No source is nearer to any segment of the result that is longer than half the distance, at a point other than the one
    /// by which its run was kept, and to any stretch of shorter ones as long.
    /// </summary>
    public bool AreFar(List<Loop> loops)
    {
        double reach = _distance - slack.Slop;
        foreach (Loop loop in loops)
        {
            double unasked = _distance / 2;
            foreach (ref readonly Segment s in loop.Contour.Segments.AsSpan())
            {
                Point2 chord = s.End - s.Start;
                double length = chord.Length;
                unasked += length;
                if (unasked < _distance / 2 || length < slack.Scanned)
                {
                    continue;
                }
                unasked = 0;
                Point2 p = s.IsArc ? SecondPoints.On(Curve.From(s)) : s.Start + (chord * SecondPoints.Fraction);
                if (_source.Index.AnyNearer(p, reach))
                {
                    return false;
                }
            }
        }
        return true;
    }

    /// <summary>
    /// Middle and end of a line at the distance from its source's whole line, or circle where it stands for a flat arc, or from
    /// its source's end where it stands for a flat arc about that; what continues a line straight on was joined to it.
    /// </summary>
    private bool IsParallelLine(in Segment s, in Curve from)
    {
        Point2 end = _source.Reversed ? s.Start : s.End;
        Point2 middle = (s.Start + s.End) * 0.5;
        if (from.IsArc)
        {
            return IsBesideArc(end, from) && IsBesideArc(middle, from);
        }
        Point2 d = from.B - from.A;
        double length = Math.Sqrt(d.Dot(d));
        double low = (_distance - slack.Slop) * length;
        double high = (_distance + slack.Slop) * length;
        double atEnd = Math.Abs(d.Cross(end - from.A));
        double atMiddle = Math.Abs(d.Cross(middle - from.A));
        return ((atEnd >= low && atEnd <= high) || IsBesideEnd(end, from))
            && ((atMiddle >= low && atMiddle <= high) || IsBesideEnd(middle, from));
    }

    private bool IsBesideArc(Point2 p, in Curve from) =>
        Math.Abs(Math.Abs(p.DistanceTo(from.C) - from.R) - _distance) <= slack.Slop || IsBesideEnd(p, from);

    private bool IsBesideEnd(Point2 p, in Curve from) => Math.Abs(p.DistanceTo(from.B) - _distance) <= slack.Slop;

    /// <summary>Both ends of an arc at the distance from its centre, which is its source's end, or its source's centre.</summary>
    private bool IsParallelArc(in Segment s, in Curve from) =>
        (IsSame(s.Centre, from.B) && HasRadius(s, _distance))
        || (from.IsArc && IsSame(s.Centre, from.C) && HasRadius(s, Math.Abs(from.R - (from.Turn * _distance))));

    private bool HasRadius(in Segment s, double radius)
    {
        double low = Math.Max(0, radius - slack.Slop);
        double high = radius + slack.Slop;
        return IsWithin(s.Start, s.Centre, low, high) && IsWithin(s.End, s.Centre, low, high);
    }

    /// <summary>Arcs that continue each other are joined to one, whose centre is that of either: they differ in the last digits.</summary>
    private bool IsSame(Point2 a, Point2 b)
    {
        Point2 d = a - b;
        return d.Dot(d) <= slack.Slop * slack.Slop;
    }

    private static bool IsWithin(Point2 p, Point2 centre, double low, double high)
    {
        Point2 d = p - centre;
        double away = d.Dot(d);
        return away >= low * low && away <= high * high;
    }
}
