namespace FixtureGen.Drawing.Chaining;

/// <summary>The pieces as a graph of ends: tails that hang on it are cut, then each remaining way is followed once.</summary>
internal sealed class EdgeWays
{
    private readonly EndNodes _nodes;
    private readonly Dictionary<int, List<int>> _at = [];
    private readonly int[] _degrees;
    private readonly bool[] _used;
    private readonly int[] _firstDegrees;

    public EdgeWays(List<Piece> edges, EndNodes nodes)
    {
        _nodes = nodes;
        _degrees = nodes.Degrees();
        _firstDegrees = [.. _degrees];
        _used = new bool[edges.Count];
        for (int i = 0; i < edges.Count; i++)
        {
            (int a, int b) = nodes.Of[i];
            Meet(a, i);
            if (b != a)
            {
                Meet(b, i);
            }
        }
    }

    /// <summary>Chains that end free on one side and on a junction of three or more on the other, cut off until none is left.</summary>
    public List<List<(int Edge, bool Forward)>> CutTails()
    {
        var tails = new List<List<(int, bool)>>();
        var free = new Queue<int>(_at.Keys.Where(n => _degrees[n] == 1).Order());
        while (free.TryDequeue(out int node))
        {
            int edge = _degrees[node] == 1 ? _at[node].FindIndex(e => !_used[e]) : -1;
            if (edge >= 0 && Tail(node, _at[node][edge], out int junction) is { } tail)
            {
                tails.Add(tail);
                if (_degrees[junction] == 1)
                {
                    free.Enqueue(junction);
                }
            }
        }
        return tails;
    }

    /// <summary>All that is left, each way from junction to junction, end to end, or round.</summary>
    public IEnumerable<(List<(int Edge, bool Forward)> Way, bool Closed)> Chains()
    {
        for (int edge = 0; edge < _used.Length; edge++)
        {
            if (!_used[edge] && StartsWay(edge, out int from))
            {
                List<(int, bool)> way = Follow(from, edge, out int to);
                yield return (way, to == from);
            }
        }
        for (int edge = 0; edge < _used.Length; edge++)
        {
            if (!_used[edge])
            {
                yield return (Follow(_nodes.Of[edge].A, edge, out _), true);
            }
        }
    }

    /// <summary>Where the way's ends met more than one other piece.</summary>
    public IEnumerable<(double X, double Y)> JunctionsOf(List<(int Edge, bool Forward)> way)
    {
        (int first, bool forward) = way[0];
        (int last, bool onward) = way[^1];
        int from = forward ? _nodes.Of[first].A : _nodes.Of[first].B;
        int to = onward ? _nodes.Of[last].B : _nodes.Of[last].A;
        foreach (int node in (int[])[from, to])
        {
            if (_firstDegrees[node] > 2)
            {
                yield return (_nodes.PointOf(node).X, _nodes.PointOf(node).Y);
            }
        }
    }

    private bool StartsWay(int edge, out int from)
    {
        (int a, int b) = _nodes.Of[edge];
        from = _degrees[a] != 2 ? a : b;
        return _degrees[from] != 2;
    }

    private void Meet(int node, int edge)
    {
        if (!_at.TryGetValue(node, out List<int>? there))
        {
            _at[node] = there = [];
        }
        there.Add(edge);
    }

    // Walks in from a free end; the walk is undone when it ends free too.
    private List<(int, bool)>? Tail(int free, int edge, out int junction)
    {
        List<(int Edge, bool)> way = Follow(free, edge, out junction);
        if (_degrees[junction] < 3)
        {
            way.ForEach(w => _used[w.Edge] = false);
            return null;
        }
        _degrees[free]--;
        _degrees[junction]--;
        return way;
    }

    private List<(int Edge, bool Forward)> Follow(int from, int edge, out int to)
    {
        var way = new List<(int, bool)>();
        to = from;
        for (int next = edge; next >= 0; )
        {
            (int a, int b) = _nodes.Of[next];
            bool forward = a == to;
            _used[next] = true;
            way.Add((next, forward));
            to = forward ? b : a;
            int found = _degrees[to] != 2 || to == from ? -1 : _at[to].FindIndex(e => !_used[e]);
            next = found < 0 ? -1 : _at[to][found];
        }
        return way;
    }
}
