using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>Puts the cuts of each curve in order and cuts it, so that its pieces run from point to point.</summary>
internal sealed class PieceMaker
{
    // An arc no longer than this many snapping distances is run straight: its ends may have moved past each other.
    private const double Stub = 8;

    private int[] starts = [];
    private Cut[] sorted = [];

    /// <summary>Orders the cuts along their curves and joins those that touch each other.</summary>
    public void Sort(CurveTable curves, Meeting meeting, Vertices vertices, double near)
    {
        int count = curves.Count;
        ReadOnlySpan<Cut> cuts = meeting.Cuts;
        Growing.Reserve(ref starts, count + 2);
        Array.Clear(starts, 0, count + 2);
        Growing.Reserve(ref sorted, cuts.Length);
        foreach (Cut cut in cuts)
        {
            starts[cut.Curve + 2]++;
        }
        for (int i = 2; i < count + 2; i++)
        {
            starts[i] += starts[i - 1];
        }
        foreach (Cut cut in cuts)
        {
            sorted[starts[cut.Curve + 1]++] = cut;
        }
        for (int i = 0; i < count; i++)
        {
            Span<Cut> own = sorted.AsSpan(starts[i]..starts[i + 1]);
            if (own.Length > 1)
            {
                SortOne(own);
                JoinNear(own, vertices, near);
            }
        }
    }

    /// <summary>Writes the pieces of all curves, in order.</summary>
    public void Make(CurveTable from, CurveTable to, Vertices vertices, double near)
    {
        to.Clear();
        int cuts = starts[from.Count];
        to.List.Reserve(from.Count + cuts);
        int i = 0;
        while (i < from.Count)
        {
            int stay = i;
            while (stay < from.Count && starts[stay] == starts[stay + 1] && !vertices.AnyJoined)
            {
                stay++;
            }
            if (stay > i)
            {
                to.AddRange(from, i, stay);
                i = stay;
            }
            else
            {
                MakeOne(from, to, i++, vertices, near);
            }
        }
    }

    private void MakeOne(CurveTable from, CurveTable to, int i, Vertices vertices, double near)
    {
        ref readonly Curve curve = ref from.Items[i];
        int origin = from.Origins[i];
        int at = vertices.Leader(from.StartIds[i]);
        int end = vertices.Leader(from.EndIds[i]);
        for (int k = starts[i]; k < starts[i + 1]; k++)
        {
            int v = vertices.Leader(sorted[k].Vertex);
            Add(to, curve, at, v, origin, i, vertices, near);
            at = v;
        }
        Add(to, curve, at, end, origin, i, vertices, near);
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

    private static void SortOne(Span<Cut> cuts)
    {
        if (cuts.Length > 16)
        {
            cuts.Sort(
                static (x, y) =>
                    Before(x, y) ? -1
                    : Before(y, x) ? 1
                    : 0
            );
            return;
        }
        for (int i = 1; i < cuts.Length; i++)
        {
            Cut moving = cuts[i];
            int j = i - 1;
            for (; j >= 0 && Before(moving, cuts[j]); j--)
            {
                cuts[j + 1] = cuts[j];
            }
            cuts[j + 1] = moving;
        }
    }

    private static bool Before(in Cut a, in Cut b) =>
        a.Parameter != b.Parameter ? a.Parameter < b.Parameter : a.Vertex < b.Vertex;

    private static void JoinNear(Span<Cut> cuts, Vertices vertices, double near)
    {
        for (int i = 1; i < cuts.Length; i++)
        {
            int v = cuts[i - 1].Vertex;
            int w = cuts[i].Vertex;
            Point2 d = vertices[w] - vertices[v];
            if (v != w && d.Dot(d) <= near * near)
            {
                vertices.Join(v, w);
            }
        }
    }
}
