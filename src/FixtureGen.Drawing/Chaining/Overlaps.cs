using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Chaining;

/// <summary>
/// Takes away what single lines and arcs draw a second time. Of two that run together the shorter keeps only what sticks
/// out, and the longer is cut where the shorter one ends on it, so that both keep the other's corners.
/// </summary>
internal sealed class Overlaps(ChainLimits limits)
{
    private const int Passes = 4;

    public int Removed { get; private set; }

    /// <summary>False when there were too many pairs to look at them all.</summary>
    public bool Complete { get; private set; } = true;

    /// <summary>The pieces without overlaps; those of one segment may come out shorter, cut or not at all.</summary>
    public List<Piece> Clean(List<Piece> pieces)
    {
        for (int pass = 0; pass < Passes; pass++)
        {
            int before = Removed;
            pieces = Pass(pieces);
            if (Removed == before)
            {
                break;
            }
        }
        return pieces;
    }

    private List<Piece> Pass(List<Piece> pieces)
    {
        List<Piece> single = pieces.FindAll(p => p.Path.Count == 1 && !p.Closed);
        var grid = new SegmentGrid([.. single.Select(p => Measure.Bounds(p.Path[0]))], limits.Near);
        var cuts = new Dictionary<Piece, List<Segment>>();
        List<(int, int)> pairs = grid.Pairs(out bool all);
        foreach ((int a, int b) in pairs)
        {
            Piece longer = single[a].Path[0].Length >= single[b].Path[0].Length ? single[a] : single[b];
            Piece shorter = longer == single[a] ? single[b] : single[a];
            if (!cuts.ContainsKey(longer) && !cuts.ContainsKey(shorter))
            {
                Compare(longer, shorter, cuts);
            }
        }
        Complete &= all;
        if (cuts.Count == 0)
        {
            return pieces;
        }
        var kept = new List<Piece>(pieces.Count);
        foreach (Piece piece in pieces)
        {
            if (!cuts.TryGetValue(piece, out List<Segment>? parts))
            {
                kept.Add(piece);
            }
            else
            {
                kept.AddRange(parts.Select(p => piece with { Path = [p] }));
            }
        }
        return kept;
    }

    private void Compare(Piece longer, Piece shorter, Dictionary<Piece, List<Segment>> cuts)
    {
        Segment a = longer.Path[0];
        Segment b = shorter.Path[0];
        if (!TryAlong(a, b, out double low, out double high))
        {
            return;
        }
        double length = a.Length;
        double from = Math.Max(low, 0);
        double to = Math.Min(high, length);
        if (to - from <= 4 * limits.Near || !Together(a, b, from, to))
        {
            return;
        }
        Removed++;
        Segment forward = Runs(a, b) ? b : b.Reversed;
        bool sticksOutBelow = low < -limits.Near;
        bool sticksOutAbove = high > length + limits.Near;
        cuts[shorter] =
            sticksOutBelow ? [CutAt(forward, a.Start, first: true)]
            : sticksOutAbove ? [CutAt(forward, a.End, first: false)]
            : [];
        List<Segment> parts = Split(a, forward, low, high);
        if (parts.Count > 1)
        {
            cuts[longer] = parts;
        }
    }

    private List<Segment> Split(Segment a, Segment b, double low, double high)
    {
        var parts = new List<Segment>(3);
        Segment rest = a;
        if (low > limits.Near)
        {
            parts.Add(Weld.Ends(CutAt(rest, b.Start, first: true), rest.Start, b.Start));
            rest = CutAt(rest, b.Start, first: false);
        }
        if (high < a.Length - limits.Near)
        {
            parts.Add(CutAt(rest, b.End, first: true));
            rest = CutAt(rest, b.End, first: false);
        }
        parts.Add(rest);
        return parts;
    }

    private static Segment CutAt(Segment s, Point2 at, bool first) =>
        first ? s with { End = at } : s with { Start = at };

    private static bool Runs(Segment a, Segment b) =>
        a.IsArc ? a.IsCcw == b.IsCcw : (a.End - a.Start).Dot(b.End - b.Start) >= 0;

    // Where b starts and ends along a, from a's start; false when they do not run together at all.
    private bool TryAlong(Segment a, Segment b, out double low, out double high)
    {
        low = high = 0;
        if (a.IsArc != b.IsArc)
        {
            return false;
        }
        if (!a.IsArc)
        {
            Point2 d = (a.End - a.Start) * (1 / a.Length);
            double s = (b.Start - a.Start).Dot(d);
            double e = (b.End - a.Start).Dot(d);
            (low, high) = (Math.Min(s, e), Math.Max(s, e));
            return true;
        }
        if (a.Centre.DistanceTo(b.Centre) > limits.Near || Math.Abs(a.Radius - b.Radius) > limits.Near)
        {
            return false;
        }
        Point2 middle = LoopMath.Middle(a) - a.Centre;
        Point2 other = LoopMath.Middle(b) - a.Centre;
        double turn = Math.Atan2(middle.Cross(other), middle.Dot(other)) * (a.IsCcw ? 1 : -1);
        double at = (a.Length / 2) + (turn * a.Radius);
        (low, high) = (at - (b.Length / 2), at + (b.Length / 2));
        return true;
    }

    private bool Together(Segment a, Segment b, double from, double to)
    {
        if (a.IsArc)
        {
            return true;
        }
        Point2 d = (a.End - a.Start) * (1 / a.Length);
        return Measure.Distance(a.Start + (from * d), b) <= limits.Near
            && Measure.Distance(a.Start + (to * d), b) <= limits.Near;
    }
}
