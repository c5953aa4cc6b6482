using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>Whether the area between a source and its parallel is one that a disc can have swept: J. Steiner's formula from both sides.</summary>
internal sealed class SweptArea(Slack slack)
{
    private OffsetSource _source = null!;
    private double _distance;

    /// <summary>Before anything is asked.</summary>
    /// <param name="from">What the parallel is of.</param>
    /// <param name="at">mm.</param>
    public void Begin(OffsetSource from, double at) => (_source, _distance) = (from, at);

    /// <summary>True where the loops bound no more than what the source's length allows, and no less than what their own sweeps.</summary>
    public bool IsPossible(List<Loop> loops)
    {
        LoopSums sums = default;
        double unsure = 0;
        foreach (Loop loop in loops)
        {
            sums += _source.Reversed ? loop.Sums.Reversed : loop.Sums;
            unsure += Unsure(loop);
        }
        double band = _source.Sums.Area - sums.Area;
        double slop = slack.Slop * (1 + _source.Sums.Length + sums.Length);
        double swept = (sums.Length * _distance) + (sums.Sweeps * _distance * _distance / 2);
        int count = _source.LoopStarts.Count - 1;
        double most = (_source.Sums.Length * _distance) + (count * Math.PI * _distance * _distance);
        if (loops.Count == 0 || band > most + slop)
        {
            return band <= most + slop;
        }
        double least = swept - slop - (unsure * _distance * _distance / 2);
        return band >= least || band >= least - (loops.Sum(Blunt) * _distance * _distance / 2);
    }

    /// <summary>
    /// The turns at a loop's corners that stand for arcs, radians: a mitre, or a chord within the snapping distance of its arc.
    /// The strips along both sides of such a corner overlap, which no sweep takes off.
    /// </summary>
    private double Blunt(Loop loop)
    {
        ReadOnlySpan<Segment> segments = loop.Contour.Segments.AsSpan();
        double sum = 0;
        Point2 before = Curve.From(segments[^1]).EndTangent;
        foreach (ref readonly Segment s in segments)
        {
            Curve c = Curve.From(s);
            Point2 after = c.StartTangent;
            double turn = _source.Reversed ? before.Cross(after) : after.Cross(before);
            if (turn > 0 && before.Dot(after) > 0 && _distance * turn * turn <= 8 * slack.Slop)
            {
                sum += turn;
            }
            before = c.EndTangent;
        }
        return sum;
    }

    /// <summary>How much the sweeps of a loop's arcs may be off where ends moved by a grid: nothing but for tiny radii.</summary>
    private double Unsure(in Loop loop)
    {
        double sum = 0;
        foreach (ref readonly Segment s in loop.Contour.Segments.AsSpan())
        {
            if (s.IsArc)
            {
                double r = s.Start.DistanceTo(s.Centre);
                sum += r > slack.TinyRadius ? 0 : Math.Min(2 * Math.PI, 4 * slack.Grid / r);
            }
        }
        return sum;
    }
}
