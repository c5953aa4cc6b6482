using System.Runtime.Intrinsics;

namespace FixtureGen.Geometry;

/// <summary>
/// Pieces gathered into runs: a run goes from node to node, and a node is a point where curves touch or cross, or where a
/// chain begins, ends or turns straight back. Whatever is true of one point of a run (too near, inside, outside) is true of all.
/// Run r has the ends 2r (its start) and 2r + 1; about each node its ends stand in one list.
/// </summary>
internal sealed class Runs
{
    private CurveTable pieces = null!;
    private int[] nodeOf = [];
    private int[] first = [];
    private int[] from = [];
    private int[] to = [];
    private int[] endsStart = [];
    private int[] ends = [];
    private int[] longest = [];

    public int Count { get; private set; }

    public int NodeCount { get; private set; }

    public CurveTable Pieces => pieces;

    /// <summary>First piece of a run; that of Count is the end of all.</summary>
    public int First(int run) => first[run];

    public int Length(int run) => first[run + 1] - first[run];

    public int From(int run) => from[run];

    public int To(int run) => to[run];

    /// <summary>The node at an end.</summary>
    public int NodeAt(int end) => (end & 1) == 0 ? from[end >> 1] : to[end >> 1];

    /// <summary>The ends of runs at a node; callers may put them in another order.</summary>
    public Span<int> EndsAt(int node) => ends.AsSpan(endsStart[node]..endsStart[node + 1]);

    /// <summary>The pieces of a run in order.</summary>
    public ReadOnlySpan<Curve> Curves(int run) => pieces.Items.AsSpan(first[run]..first[run + 1]);

    /// <summary>The piece at an end of a run, as it leaves the node there.</summary>
    public Curve Leaving(int end)
    {
        int run = end >> 1;
        return (end & 1) == 0 ? pieces.Items[first[run]] : pieces.Items[first[run + 1] - 1].Reversed;
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
        if (longest[run] < 0)
        {
            longest[run] = FindLongest(run);
        }
        return longest[run];
    }

    private int FindLongest(int run)
    {
        int step = Math.Max(1, Length(run) / 64);
        int best = first[run];
        double most = -1;
        for (int i = first[run]; i < first[run + 1]; i += step)
        {
            double chord = pieces.Items[i].Chord2;
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
        pieces = cut;
        int n = cut.Count;
        Growing.Reserve(ref nodeOf, cutter.Vertices.Count);
        Array.Fill(nodeOf, -1, 0, cutter.Vertices.Count);
        Growing.Reserve(ref first, n + 1);
        Growing.Reserve(ref from, n);
        Growing.Reserve(ref to, n);
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
                to[Count - 1] = Node(v);
            }
            from[Count] = Node(starts[i]);
            first[Count++] = i;
        }
        first[Count] = n;
        if (Count > 0)
        {
            to[Count - 1] = Node(stops[n - 1]);
        }
        Growing.Reserve(ref longest, Count);
        Array.Fill(longest, -1, 0, Count);
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
        if (nodeOf[vertex] < 0)
        {
            nodeOf[vertex] = NodeCount++;
        }
        return nodeOf[vertex];
    }

    private void GatherEnds()
    {
        Growing.Reserve(ref endsStart, NodeCount + 2);
        Growing.Reserve(ref ends, 2 * Count);
        Array.Clear(endsStart, 0, NodeCount + 2);
        for (int end = 0; end < 2 * Count; end++)
        {
            endsStart[NodeAt(end) + 2]++;
        }
        for (int k = 2; k < NodeCount + 2; k++)
        {
            endsStart[k] += endsStart[k - 1];
        }
        for (int end = 0; end < 2 * Count; end++)
        {
            ends[endsStart[NodeAt(end) + 1]++] = end;
        }
    }
}
