using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>Puts the cuts of each curve in order and cuts it, so that its pieces run from point to point.</summary>
internal sealed class PieceMaker
{
    // An arc no longer than this many snapping distances is run straight: its ends may have moved past each other.
    private const double Stub = 8;

    private Cut[] _sorted = [];
    private int _count;

    /// <summary>Orders the cuts along their curves and joins those that touch each other.</summary>
    public void Sort(Meeting meeting, Vertices vertices, double near)
    {
        ReadOnlySpan<Cut> cuts = meeting.Cuts;
        _count = cuts.Length;
        Growing.Reserve(ref _sorted, _count);
        cuts.CopyTo(_sorted);
        _sorted.AsSpan(0, _count).Sort(static (a, b) => Order(a, b));
        for (int k = 1; k < _count; k++)
        {
            int v = _sorted[k - 1].Vertex;
            int w = _sorted[k].Vertex;
            Point2 d = vertices[w] - vertices[v];
            if (_sorted[k].Curve == _sorted[k - 1].Curve && v != w && d.Dot(d) <= near * near)
            {
                vertices.Join(v, w);
            }
        }
    }

    /// <summary>Writes the pieces of all curves, in order.</summary>
    public void Make(CurveTable from, CurveTable to, Vertices vertices, double near)
    {
        to.Clear();
        to.List.Reserve(from.Count + _count);
        int k = 0;
        for (int i = 0; i < from.Count; i++)
        {
            int stay =
                vertices.AnyJoined ? i
                : k < _count ? _sorted[k].Curve
                : from.Count;
            if (stay > i)
            {
                // Up to the next cut everything stays as it is.
                to.AddRange(from, i, stay);
                i = stay;
            }
            if (i < from.Count)
            {
                k = MakeOne(from, to, i, k, vertices, near);
            }
        }
    }

    private int MakeOne(CurveTable from, CurveTable to, int i, int k, Vertices vertices, double near)
    {
        ref readonly Curve curve = ref from.Items[i];
        int origin = from.Origins[i];
        int at = vertices.Leader(from.StartIds[i]);
        int end = vertices.Leader(from.EndIds[i]);
        for (; k < _count && _sorted[k].Curve == i; k++)
        {
            int v = vertices.Leader(_sorted[k].Vertex);
            Add(to, curve, at, v, origin, i, vertices, near);
            at = v;
        }
        Add(to, curve, at, end, origin, i, vertices, near);
        return k;
    }

    private static int Order(in Cut a, in Cut b)
    {
        int order = a.Curve.CompareTo(b.Curve);
        order = order != 0 ? order : a.Parameter.CompareTo(b.Parameter);
        return order != 0 ? order : a.Vertex.CompareTo(b.Vertex);
    }

    private static void Add(
        CurveTable to,
        in Curve curve,
        int from,
        int end,
        int origin,
        int parent,
        Vertices vertices,
        double near
    )
    {
        if (from == end)
        {
            return;
        }
        Curve piece = curve;
        piece.A = vertices[from];
        piece.B = vertices[end];
        if (piece.Turn != 0 && (piece.Chord2 <= Stub * Stub * near * near || IsFlat(piece, near)))
        {
            piece = Curve.Line(piece.A, piece.B);
        }
        to.Add(piece, from, end, origin, parent);
    }

    /// <summary>True for an arc whose ends moved off its circle by about as much as it bends.</summary>
    private static bool IsFlat(in Curve piece, double near)
    {
        if (piece.Chord2 > 8 * piece.R * near)
        {
            return false;
        }
        double off = Math.Abs(piece.A.DistanceTo(piece.C) - piece.R) + Math.Abs(piece.B.DistanceTo(piece.C) - piece.R);
        return off > Cutter.Harmless * near;
    }
}
