using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// The untrimmed parallel of a source: every curve shifted to its left, convex corners filled by arcs about the corner,
/// neighbours that overlap trimmed to their common point. Where neighbours do not meet the joint stays open; the parts near
/// it are too near the source anyway and fall out later.
/// </summary>
internal sealed class RawOffset(Slack slack)
{
    // Dot product of tangents below which the path turns back on itself.
    private const double UTurn = -1 + 1e-12;

    // A mitre stands for the round join where the two differ by less than this, mm.
    private const double MitreError = 1e-10;

    private Shifted[] shifted = [];
    private OffsetSource source = null!;
    private double distance;
    private double tangentSine;

    /// <summary>Fills <paramref name="raw"/> with the parallel at <paramref name="d"/> mm to the left, d &gt; 0.</summary>
    public void Build(OffsetSource from, double d, RawCurves raw)
    {
        source = from;
        distance = d;
        tangentSine = Math.Min(1e-6, 1e-5 / d);
        raw.Clear();
        for (int k = 0; k + 1 < from.LoopStarts.Count; k++)
        {
            BuildLoop(from.LoopStarts[k], from.LoopStarts[k + 1], raw);
        }
    }

    private void BuildLoop(int start, int end, RawCurves raw)
    {
        int n = end - start;
        if (shifted.Length < n)
        {
            shifted = new Shifted[Math.Max(n, 2 * shifted.Length)];
        }
        for (int i = 0; i < n; i++)
        {
            Shift(source.Curves[start + i], source.StartTangents[start + i], ref shifted[i]);
        }
        for (int i = 0; i < n; i++)
        {
            int j = i + 1 == n ? 0 : i + 1;
            shifted[i].After = Join(start, i, j);
        }
        for (int i = 0; i < n; i++)
        {
            Trim(ref shifted[i]);
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
        if (c.Turn == 0)
        {
            Point2 normal = heading.Left * distance;
            s.Curve = Curve.Line(c.A + normal, c.B + normal);
            return;
        }
        double radius = c.R - (c.Turn * distance);
        s.Alive = radius >= slack.Grid;
        double k = radius / c.R;
        s.Curve = Curve.Arc(c.C + ((c.A - c.C) * k), c.C + ((c.B - c.C) * k), c.C, radius, c.Turn);
    }

    private Joint Join(int start, int i, int j)
    {
        Point2 before = source.EndTangents[start + i];
        Point2 after = source.StartTangents[start + j];
        double cross = before.Cross(after);
        double dot = before.Dot(after);
        bool both = shifted[i].Alive && shifted[j].Alive;
        if (dot > 0 && Math.Abs(cross) < tangentSine)
        {
            return both ? Joint.Tangent : Joint.Open;
        }
        if (dot < UTurn ? Corners.TurnsBackToTheRight(source.Curves[start + i], source.Curves[start + j]) : cross < 0)
        {
            bool flat = both && dot > 0 && distance * cross * cross < 8 * MitreError;
            return flat && Corners.Mitre(ref shifted[i], ref shifted[j]) ? Joint.Trimmed : Joint.Round;
        }
        return both && Corners.TrimToCrossing(ref shifted[i], ref shifted[j], slack) ? Joint.Trimmed : Joint.Open;
    }

    private void Trim(ref Shifted s)
    {
        if (!s.Alive || (s.From == 0 && s.To == 1))
        {
            return;
        }
        if (s.From >= s.To - 1e-12)
        {
            s.Alive = false;
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
        if (s.Curve.IsArc && s.Curve.Chord2 < slack.Near * slack.Near)
        {
            s.Alive = false;
        }
    }

    private void CloseJoints(int n)
    {
        for (int i = 0; i < n; i++)
        {
            ref Shifted s = ref shifted[i];
            if (s.After is Joint.Open or Joint.Round)
            {
                continue;
            }
            ref Shifted next = ref shifted[i + 1 == n ? 0 : i + 1];
            if (s.Alive && next.Alive)
            {
                next.Curve.A = s.Curve.B;
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
            ref Shifted s = ref shifted[i];
            ref Shifted previous = ref shifted[i == 0 ? n - 1 : i - 1];
            if (!s.Alive || (s.After != Joint.Open && previous.After != Joint.Open))
            {
                continue;
            }
            double half = s.Curve.Length * 0.5;
            double reach = distance - half - slack.Stitch;
            if (half >= 1e-9 && (reach <= 0 || !source.Index.AnyNearer(s.Curve.Middle, reach)))
            {
                continue;
            }
            s.Alive = false;
            s.After = s.After == Joint.Round ? Joint.Round : Joint.Open;
            previous.After = previous.After == Joint.Round ? Joint.Round : Joint.Open;
        }
    }

    private void Emit(int start, int n, RawCurves raw)
    {
        int previous = -1;
        int first = -1;
        for (int i = 0; i < n; i++)
        {
            ref Shifted s = ref shifted[i];
            if (s.Alive)
            {
                int id = raw.Add(s.Curve, start + i);
                first = i == 0 ? id : first;
                Connect(raw, previous, id);
                previous = id;
            }
            else
            {
                previous = -1;
            }
            if (s.After == Joint.Round)
            {
                int id = EmitRound(start, i, n, previous, raw);
                previous = id < 0 ? previous : id;
            }
            else if (s.After == Joint.Open)
            {
                previous = -1;
            }
        }
        if (first >= 0)
        {
            Connect(raw, previous, first);
        }
    }

    private int EmitRound(int start, int i, int n, int previous, RawCurves raw)
    {
        int j = i + 1 == n ? 0 : i + 1;
        Point2 corner = source.Curves[start + i].B;
        Point2 a = shifted[i].Alive ? shifted[i].Curve.B : corner + (source.EndTangents[start + i].Left * distance);
        Point2 b = shifted[j].Alive ? shifted[j].Curve.A : corner + (source.StartTangents[start + j].Left * distance);
        if (a.DistanceTo(b) <= slack.Near)
        {
            return -1;
        }
        int id = raw.Add(Curve.Arc(a, b, corner, distance, -1), start + i);
        Connect(raw, previous, id);
        return id;
    }

    private static void Connect(RawCurves raw, int from, int to)
    {
        if (from >= 0 && from != to)
        {
            raw.Connect(from, to);
        }
    }
}
