using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// The untrimmed parallel of a source: every curve shifted to its left, convex corners filled by arcs about the corner,
/// neighbours that overlap trimmed to their common point. Where neighbours do not meet the joint stays open; the parts near
/// it are too near the source anyway and fall out later.
/// </summary>
internal sealed partial class RawOffset(Slack slack)
{
    // Dot product of tangents below which the path turns back on itself.
    public const double UTurn = -1 + Rounding.Direction;

    // Times that a radius must grow for rounding in it to be seen: each end then gets its own distance.
    private const double Magnified = 1000;

    private Shifted[] _shifted = [];
    private OffsetSource _source = null!;
    private double _distance;

    /// <summary>Fills <paramref name="raw"/> with the parallel at <paramref name="d"/> mm to the left, d &gt; 0.</summary>
    public void Build(OffsetSource from, double d, RawCurves raw)
    {
        _source = from;
        _distance = d;
        raw.Begin(from.Count);
        for (int k = 0; k + 1 < from.LoopStarts.Count; k++)
        {
            BuildLoop(from.LoopStarts[k], from.LoopStarts[k + 1], raw);
        }
    }

    private void BuildLoop(int start, int end, RawCurves raw)
    {
        int n = end - start;
        if (_shifted.Length < n)
        {
            _shifted = new Shifted[Math.Max(n, 2 * _shifted.Length)];
        }
        for (int i = 0; i < n; i++)
        {
            Shift(_source.Curves[start + i], _source.StartTangents[start + i], ref _shifted[i]);
        }
        for (int i = 0; i < n; i++)
        {
            int j = i + 1 == n ? 0 : i + 1;
            _shifted[i].After = Join(start, i, j);
        }
        DropConsumed(n);
        for (int i = 0; i < n; i++)
        {
            Trim(ref _shifted[i]);
        }
        CloseJoints(n);
        DropBuried(n);
        Emit(start, n, raw);
    }

    private void Shift(in Curve c, Point2 heading, ref Shifted s)
    {
        s.From = 0;
        s.To = 1;
        s.Alive = true;
        s.Consumed = false;
        if (c.Turn == 0)
        {
            Point2 normal = heading.Left * _distance;
            s.Curve = Curve.Line(c.A + normal, c.B + normal);
            return;
        }
        double radius = c.R - (c.Turn * _distance);
        s.Alive = radius > -slack.Near;
        double k = radius / c.R;
        Point2 a = c.C + ((c.A - c.C) * k);
        Point2 b = c.C + ((c.B - c.C) * k);
        if (k > Magnified)
        {
            a = c.C + ((c.A - c.C) * (radius / c.A.DistanceTo(c.C)));
            b = c.C + ((c.B - c.C) * (radius / c.B.DistanceTo(c.C)));
        }
        // What is left of an arc whose radius the snapping distance swallows is a stroke through its centre.
        s.Curve = radius > slack.Near ? Curve.Arc(a, b, c.C, radius, c.Turn) : Curve.Line(a, b);
    }

    private Joint Join(int start, int i, int j)
    {
        Point2 before = _source.EndTangents[start + i];
        Point2 after = _source.StartTangents[start + j];
        double cross = before.Cross(after);
        double dot = before.Dot(after);
        bool both = _shifted[i].Alive && _shifted[j].Alive;
        if (dot > 0 && Math.Abs(cross) * _distance <= slack.Near)
        {
            return both ? Joint.Tangent : Joint.Open;
        }
        if (
            dot < UTurn
                ? Corners.TurnsBackToTheRight(_source.Curves[start + i], _source.Curves[start + j], slack)
                : cross < 0
        )
        {
            bool lines = !_source.Curves[start + i].IsArc && !_source.Curves[start + j].IsArc;
            bool flat = both && lines && dot > 0 && _distance * cross * cross < 8 * slack.Mitre;
            return flat && Corners.Mitre(ref _shifted[i], ref _shifted[j]) ? Joint.Trimmed : Joint.Round;
        }
        return both && Corners.TrimToCrossing(ref _shifted[i], ref _shifted[j], slack) ? Joint.Trimmed
            : both && _distance * (1 - dot) < slack.Slice ? Joint.Bridged
            : Joint.Open;
    }

    /// <summary>
    /// Drops curves of which trimming leaves nothing. Where they are arcs, or meet one, their neighbours get back what was
    /// trimmed there: they meet each other elsewhere. Where trimming left less than nothing by a slice at most, the step back
    /// stays, so that the chain does.
    /// </summary>
    private void DropConsumed(int n)
    {
        for (int i = 0; i < n; i++)
        {
            ref Shifted s = ref _shifted[i];
            s.Consumed = s.Alive && (s.From != 0 || s.To != 1) && s.From >= s.To - Rounding.Fraction;
        }
        for (int i = 0; i < n; i++)
        {
            ref Shifted s = ref _shifted[i];
            if (!s.Consumed)
            {
                continue;
            }
            ref Shifted previous = ref _shifted[i == 0 ? n - 1 : i - 1];
            ref Shifted next = ref _shifted[i + 1 == n ? 0 : i + 1];
            bool trimmed = previous.After == Joint.Trimmed && s.After == Joint.Trimmed;
            if (trimmed && s.FromPoint.DistanceTo(s.ToPoint) <= slack.Slice)
            {
                s.Curve = Curve.Line(s.FromPoint, s.ToPoint);
                (s.From, s.To) = (0, 1);
                continue;
            }
            s.Alive = false;
            if (previous.After == Joint.Trimmed && (s.Curve.IsArc || previous.Curve.IsArc))
            {
                previous.To = 1;
            }
            if (s.After == Joint.Trimmed && (s.Curve.IsArc || next.Curve.IsArc))
            {
                next.From = 0;
            }
            if (previous.To == 1 && next.From == 0 && previous.Alive && next.Alive)
            {
                Point2 from = previous.After == Joint.Round ? s.Curve.A : previous.Curve.B;
                Point2 to = s.After == Joint.Round ? s.Curve.B : next.Curve.A;
                StepOver(ref s, from, to);
            }
        }
    }

    /// <summary>
    /// Where the neighbours of a dropped curve, or the arc about its corner, end next to each other a step between them stands
    /// for it.
    /// </summary>
    private void StepOver(ref Shifted s, Point2 from, Point2 to)
    {
        if (from.DistanceTo(to) <= slack.Buried)
        {
            s.Curve = Curve.Line(from, to);
            (s.From, s.To, s.Alive) = (0, 1, true);
        }
    }

    private void Trim(ref Shifted s)
    {
        if (!s.Alive || (s.From == 0 && s.To == 1))
        {
            return;
        }
        if (s.From != 0)
        {
            s.Curve.A = s.FromPoint;
        }
        if (s.To != 1)
        {
            s.Curve.B = s.ToPoint;
        }
        if (s.Curve.IsArc && s.Curve.Chord2 < slack.Near * slack.Near && s.Curve.Length < 2 * slack.Near)
        {
            s.Alive = false;
        }
    }

    private void CloseJoints(int n)
    {
        for (int i = 0; i < n; i++)
        {
            ref Shifted s = ref _shifted[i];
            if (s.After is Joint.Open or Joint.Round)
            {
                continue;
            }
            ref Shifted next = ref _shifted[i + 1 == n ? 0 : i + 1];
            if (s.Alive && next.Alive)
            {
                next.Curve.A = s.After == Joint.Bridged ? next.Curve.A : s.Curve.B;
            }
            else
            {
                s.After = Joint.Open;
            }
        }
    }

    /// <summary>Drops curves at an open joint that lie wholly too near the source; it saves most of the crossings.</summary>
    private void DropBuried(int n)
    {
        for (int i = 0; i < n; i++)
        {
            ref Shifted s = ref _shifted[i];
            ref Shifted previous = ref _shifted[i == 0 ? n - 1 : i - 1];
            if (!s.Alive || (s.After != Joint.Open && previous.After != Joint.Open))
            {
                continue;
            }
            double half = s.Curve.Length * 0.5;
            double reach = _distance - half - slack.Buried;
            if (half >= slack.Noise && (reach <= 0 || !_source.Index.AnyNearer(s.Curve.Middle, reach)))
            {
                continue;
            }
            s.Alive = false;
            s.After = s.After == Joint.Round ? Joint.Round : Joint.Open;
            previous.After = previous.After == Joint.Round ? Joint.Round : Joint.Open;
        }
    }
}
