using System.Runtime.Intrinsics;

namespace FixtureGen.Geometry;

/// <summary>
/// Pieces gathered into runs: a run goes from node to node, and a node is a point where curves touch or cross, or where a
/// chain begins, ends or turns straight back. Whatever is true of one point of a run (too near, inside, outside) is true of all.
/// Run r has the ends 2r (its start) and 2r + 1; about each node its ends stand in one list.
/// </summary>
internal sealed class Runs
{
    private CurveTable _pieces = null!;
    private int[] _nodeOf = [];
    private int[] _first = [];
    private int[] _from = [];
    private int[] _to = [];
    private int[] _endsStart = [];
    private int[] _ends = [];
    private int[] _longest = [];

    public int Count { get; private set; }

    public int NodeCount { get; private set; }

    public CurveTable Pieces => _pieces;

    /// <summary>First piece of a run; that of Count is the end of all.</summary>
    public int First(int run) => _first[run];

    public int Length(int run) => _first[run + 1] - _first[run];

    public int From(int run) => _from[run];

    public int To(int run) => _to[run];

    /// <summary>The node at an end.</summary>
    public int NodeAt(int end) => (end & 1) == 0 ? _from[end >> 1] : _to[end >> 1];

    /// <summary>The ends of runs at a node; callers may put them in another order.</summary>
    public Span<int> EndsAt(int node) => _ends.AsSpan(_endsStart[node].._endsStart[node + 1]);

    /// <summary>The pieces of a run in order.</summary>
    public ReadOnlySpan<Curve> Curves(int run) => _pieces.Items.AsSpan(_first[run].._first[run + 1]);

    /// <summary>The piece at an end of a run, as it leaves the node there.</summary>
    public Curve Leaving(int end)
    {
        int run = end >> 1;
        return (end & 1) == 0 ? _pieces.Items[_first[run]] : _pieces.Items[_first[run + 1] - 1].Reversed;
    }

    /// <summary>Length of a run, mm.</summary>
    public double Measure(int run)
    {
        double sum = 0;
        foreach (ref readonly Curve c in Curves(run))
        {
            sum += c.Turn == 0 ? Math.Sqrt(c.Chord2) : c.Length;
        }
        return sum;
    }

    /// <summary>The longest piece of a run, looked for among at most 64 of them.</summary>
    public int Longest(int run)
    {
        if (_longest[run] < 0)
        {
            _longest[run] = FindLongest(run);
        }
        return _longest[run];
    }

    private int FindLongest(int run)
    {
        int step = Math.Max(1, Length(run) / 64);
        int best = _first[run];
        double most = -1;
        for (int i = _first[run]; i < _first[run + 1]; i += step)
        {
            double chord = _pieces.Items[i].Chord2;
            if (chord > most)
            {
                most = chord;
                best = i;
            }
        }
        return best;
    }

    public void Clear() => (Count, NodeCount) = (0, 0);

    public void Build(Cutter cutter)
    {
        CurveTable cut = cutter.Pieces;
        _pieces = cut;
        int n = cut.Count;
        Growing.Reserve(ref _nodeOf, cutter.Vertices.Count);
        Array.Fill(_nodeOf, -1, 0, cutter.Vertices.Count);
        Growing.Reserve(ref _first, n + 1);
        Growing.Reserve(ref _from, n);
        Growing.Reserve(ref _to, n);
        Count = 0;
        NodeCount = 0;
        ReadOnlySpan<int> starts = cut.StartIds.AsSpan(0, n);
        ReadOnlySpan<int> stops = cut.EndIds.AsSpan(0, n);
        ReadOnlySpan<bool> isNode = cutter.Vertices.Nodes;
        for (int i = 0; i < n; i++)
        {
            if (i > 0)
            {
                i += Plain(starts, stops, isNode, i);
                if (i == n)
                {
                    break;
                }
                int v = stops[i - 1];
                if (v == starts[i] && !isNode[v] && starts[i - 1] != stops[i])
                {
                    continue;
                }
                _to[Count - 1] = Node(v);
            }
            _from[Count] = Node(starts[i]);
            _first[Count++] = i;
        }
        _first[Count] = n;
        if (Count > 0)
        {
            _to[Count - 1] = Node(stops[n - 1]);
        }
        Growing.Reserve(ref _longest, Count);
        Array.Fill(_longest, -1, 0, Count);
        GatherEnds();
    }

    /// <summary>How many pieces from one on, in whole eights, surely go on from the one before: most run through points in order.</summary>
    private static int Plain(ReadOnlySpan<int> starts, ReadOnlySpan<int> stops, ReadOnlySpan<bool> isNode, int from)
    {
        int count = Vector256<int>.Count;
        int i = from;
        while (i + count <= starts.Length)
        {
            Vector256<int> before = Vector256.Create(stops[(i - 1)..]);
            Vector256<int> inOrder = Vector256.Create(stops[i - 1]) + Vector256<int>.Indices;
            bool goesOn =
                before == inOrder
                && before == Vector256.Create(starts[i..])
                && !Vector256.EqualsAny(Vector256.Create(starts[(i - 1)..]), Vector256.Create(stops[i..]));
            if (!goesOn || isNode.Slice(stops[i - 1], count).Contains(true))
            {
                break;
            }
            i += count;
        }
        return i - from;
    }

    private int Node(int vertex)
    {
        if (_nodeOf[vertex] < 0)
        {
            _nodeOf[vertex] = NodeCount++;
        }
        return _nodeOf[vertex];
    }

    private void GatherEnds()
    {
        Growing.Reserve(ref _endsStart, NodeCount + 2);
        Growing.Reserve(ref _ends, 2 * Count);
        Array.Clear(_endsStart, 0, NodeCount + 2);
        for (int end = 0; end < 2 * Count; end++)
        {
            _endsStart[NodeAt(end) + 2]++;
        }
        for (int k = 2; k < NodeCount + 2; k++)
        {
            _endsStart[k] += _endsStart[k - 1];
        }
        for (int end = 0; end < 2 * Count; end++)
        {
            _ends[_endsStart[NodeAt(end) + 1]++] = end;
        }
    }
}
