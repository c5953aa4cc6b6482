using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>A place where a curve is cut: how far along it, and the number of the point there.</summary>
internal readonly record struct Cut(int Curve, int Vertex, double Parameter);

/// <summary>Finds where two curves touch or cross and notes the cuts and the points that become one.</summary>
internal sealed class Meeting(Vertices vertices)
{
    private Cut[] _cuts = [];
    private (int A, int B)[] _owners = [];
    private CurveTable _table = null!;
    private double _near;
    private double _near2;
    private double _farthest2;
    private int _firstCrossing;

    public int CutCount { get; private set; }

    public ReadOnlySpan<Cut> Cuts => _cuts.AsSpan(0, CutCount);

    /// <summary>The farthest that a point lay from a curve that was cut there, mm.</summary>
    public double Farthest => Math.Sqrt(_farthest2);

    public void Begin(CurveTable curves, double distance)
    {
        _table = curves;
        _near = distance;
        _near2 = distance * distance;
        _farthest2 = 0;
        CutCount = 0;
        _firstCrossing = vertices.Count;
    }

    /// <summary>A curve without length has one end.</summary>
    public void JoinEnds(int i)
    {
        if (_table.StartIds[i] != _table.EndIds[i])
        {
            _farthest2 = Math.Max(_farthest2, vertices.Join(_table.StartIds[i], _table.EndIds[i]));
        }
    }

    public void Meet(int i, int j)
    {
        ref readonly Curve a = ref _table.Items[i];
        ref readonly Curve b = ref _table.Items[j];
        if (a.Turn == 0 && b.Turn == 0)
        {
            MeetLines(i, j, a, b);
            return;
        }
        TouchEnds(i, j, a, b);
        if (SameCarrier(a, b))
        {
            return;
        }
        Span<Point2> points = stackalloc Point2[2];
        int count = Carriers.Common(a, b, _near, points);
        for (int k = 0; k < count; k++)
        {
            Point2 q = points[k];
            if (!NearEnd(a, q) && !NearEnd(b, q) && Carriers.Holds(a, q) && Carriers.Holds(b, q))
            {
                Cross(i, j, a.Parameter(q), b.Parameter(q), q);
            }
        }
    }

    /// <summary>The crossing <paramref name="v"/> of two curves as a third one sees it.</summary>
    public void TouchCrossing(int v, int i)
    {
        (int a, int b) = _owners[v - _firstCrossing];
        if (i != a && i != b)
        {
            Touch(i, _table.Items[i], v);
        }
    }

    private void MeetLines(int i, int j, in Curve a, in Curve b)
    {
        Point2 u = a.B - a.A;
        Point2 w = b.B - b.A;
        double fromA = u.Cross(b.A - a.A);
        double fromB = u.Cross(b.B - a.A);
        double reachU = _near2 * u.Dot(u);
        // All of b lies clear of a, on one side of its line.
        if (fromA > 0 == fromB > 0 && fromA * fromA > reachU && fromB * fromB > reachU)
        {
            return;
        }
        double ontoA = w.Cross(a.A - b.A);
        double ontoB = w.Cross(a.B - b.A);
        double reachW = _near2 * w.Dot(w);
        bool apart = ontoA > 0 == ontoB > 0;
        if (apart && ontoA * ontoA > reachW && ontoB * ontoB > reachW)
        {
            return;
        }
        // Lines that touch at an end part from there, or cross within the snapping distance of each other.
        if (TouchEnds(i, j, a, b) || apart || fromA > 0 == fromB > 0)
        {
            return;
        }
        double s = ontoA / (ontoA - ontoB);
        double t = fromA / (fromA - fromB);
        // The point is reckoned on the same one of the two whatever their numbers, so that no rounding depends on those.
        Cross(i, j, s, t, Carriers.Precedes(a.A, b.A) ? a.A + (u * s) : b.A + (w * t));
    }

    private void Cross(int i, int j, double alongI, double alongJ, Point2 q)
    {
        int v = vertices.Add(q);
        int k = v - _firstCrossing;
        Growing.Append(ref _owners, ref k, (i, j));
        AddCut(new(i, v, alongI));
        AddCut(new(j, v, alongJ));
    }

    private bool TouchEnds(int i, int j, in Curve a, in Curve b)
    {
        bool any = Touch(i, a, _table.StartIds[j]);
        any |= Touch(i, a, _table.EndIds[j]);
        any |= Touch(j, b, _table.StartIds[i]);
        return Touch(j, b, _table.EndIds[i]) || any;
    }

    /// <summary>True when the point is an end of the curve or touches it.</summary>
    private bool Touch(int i, in Curve c, int v)
    {
        int start = _table.StartIds[i];
        int end = _table.EndIds[i];
        if (v == start || v == end)
        {
            return true;
        }
        Point2 p = vertices[v];
        double away = c.Distance2(p);
        if (away > _near2)
        {
            return false;
        }
        bool atStart = Away2(p, c.A) <= _near2;
        bool atEnd = Away2(p, c.B) <= _near2;
        if (atStart)
        {
            _farthest2 = Math.Max(_farthest2, vertices.Join(v, start));
        }
        if (atEnd)
        {
            _farthest2 = Math.Max(_farthest2, vertices.Join(v, end));
        }
        if (!atStart && !atEnd)
        {
            _farthest2 = Math.Max(_farthest2, away);
            AddCut(new(i, v, c.Parameter(p)));
        }
        return true;
    }

    private void AddCut(Cut cut)
    {
        vertices.MakeNode(cut.Vertex);
        int count = CutCount;
        Growing.Append(ref _cuts, ref count, cut);
        CutCount = count;
    }

    private bool NearEnd(in Curve c, Point2 q) => Away2(q, c.A) <= _near2 || Away2(q, c.B) <= _near2;

    private bool SameCarrier(in Curve a, in Curve b) =>
        a.Turn != 0 && b.Turn != 0 && Math.Abs(a.R - b.R) + a.C.DistanceTo(b.C) <= _near;

    private static double Away2(Point2 p, Point2 q)
    {
        double x = p.X - q.X;
        double y = p.Y - q.Y;
        return (x * x) + (y * y);
    }
}
