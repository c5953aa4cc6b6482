using FixtureGen.Model;

namespace FixtureGen.Geometry;

// The shifted curves and the joints between them, put out as raw curves that follow each other.
internal sealed partial class RawOffset
{
    private void Emit(int start, int n, RawCurves raw)
    {
        int previous = -1;
        int first = -1;
        for (int i = 0; i < n; i++)
        {
            ref Shifted s = ref _shifted[i];
            if (s.Alive)
            {
                int id = raw.Add(s.Curve, start + i);
                if (!s.Consumed)
                {
                    raw.Show(start + i);
                }
                first = i == 0 ? id : first;
                Connect(raw, previous, id);
                previous = id;
            }
            else
            {
                previous = -1;
            }
            if (s.After == Joint.Trimmed)
            {
                raw.ShowCorner(start + i);
                continue;
            }
            if (s.After == Joint.Round)
            {
                int id = EmitRound(start, i, n, previous, raw);
                previous = id < 0 ? previous : id;
            }
            else if (s.After == Joint.Bridged)
            {
                int id = raw.Add(Curve.Line(s.Curve.B, _shifted[i + 1 == n ? 0 : i + 1].Curve.A), start + i);
                Connect(raw, previous, id);
                previous = id;
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
        Point2 corner = _source.Curves[start + i].B;
        Point2 from = corner + (_source.EndTangents[start + i].Left * _distance);
        Point2 to = corner + (_source.StartTangents[start + j].Left * _distance);
        Point2 a = _shifted[i].Alive ? _shifted[i].Curve.B : from;
        Point2 b = _shifted[j].Alive ? _shifted[j].Curve.A : to;
        if (a.DistanceTo(b) <= slack.Near)
        {
            return -1;
        }
        int id = raw.Add(Curve.Arc(a, b, corner, _distance, -1), start + i);
        if (a.DistanceTo(from) <= slack.Buried && b.DistanceTo(to) <= slack.Buried)
        {
            raw.ShowCorner(start + i);
        }
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
