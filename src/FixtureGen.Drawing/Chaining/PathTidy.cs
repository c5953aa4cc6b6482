using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Chaining;

/// <summary>What was taken out of paths: pieces shorter than the grid, and spikes that run out and back.</summary>
internal sealed class PathTidy(ChainLimits limits)
{
    public int Short { get; private set; }

    public int Spikes { get; private set; }

    /// <summary>The path without them, end to end again; empty when nothing is left.</summary>
    public List<Segment> Clean(IReadOnlyList<Segment> path, bool closed)
    {
        var kept = new List<Segment>(path.Count);
        foreach (Segment next in path)
        {
            Push(kept, next);
        }
        if (closed)
        {
            Wrap(kept);
        }
        return kept;
    }

    private void Push(List<Segment> kept, Segment next)
    {
        if (next.Length < limits.Grid)
        {
            Short++;
            return;
        }
        if (kept.Count > 0)
        {
            next = Weld.Ends(next, kept[^1].End, next.End);
        }
        while (kept.Count > 0 && IsSpike(kept[^1], next))
        {
            Spikes++;
            Segment before = kept[^1];
            kept.RemoveAt(kept.Count - 1);
            if (Math.Abs(before.Length - next.Length) <= limits.Near)
            {
                return;
            }
            next = Segment.Line(before.Start, next.End);
        }
        kept.Add(next);
    }

    // The seam of a closed path is a joint like any other.
    private void Wrap(List<Segment> kept)
    {
        while (kept.Count > 2 && IsSpike(kept[^1], kept[0]))
        {
            Spikes++;
            Segment last = kept[^1];
            Segment first = kept[0];
            kept.RemoveAt(kept.Count - 1);
            kept.RemoveAt(0);
            if (Math.Abs(last.Length - first.Length) > limits.Near)
            {
                kept.Insert(0, Segment.Line(last.Start, first.End));
            }
        }
        if (kept.Count > 0)
        {
            kept[0] = Weld.Ends(kept[0], kept[^1].End, kept[0].End);
        }
    }

    private bool IsSpike(Segment a, Segment b)
    {
        if (a.IsArc || b.IsArc)
        {
            return false;
        }
        Point2 d = a.End - a.Start;
        Point2 e = b.End - b.Start;
        if (d.Dot(e) > -0.99 * d.Length * e.Length)
        {
            return false;
        }
        return d.Length < e.Length
            ? Measure.Distance(a.Start, b) <= limits.Near
            : Measure.Distance(b.End, a) <= limits.Near;
    }
}
