using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// The points where curves end or are cut, each with one number. Points nearer to each other than the snapping distance become
/// one: taken in an order that depends on their coordinates alone (given points before computed ones, then by X, then by Y),
/// each joins the nearest one that stayed, or stays itself. So none moves farther than the snapping distance, and chains of
/// near points do not run together.
/// </summary>
internal sealed class Vertices
{
    private readonly List<(int V, int W)> _near = [];
    private readonly List<int> _involved = [];
    private readonly List<int> _stayed = [];
    private readonly List<int> _stayedComputed = [];
    private Point2[] _at = [];
    private int[] _leader = [];
    private int[] _group = [];
    private bool[] _nodes = [];
    private int _given;

    public int Count { get; private set; }

    public void Clear() => (Count, _given) = (0, 0);

    /// <summary>Ends the given points; those added later are computed.</summary>
    public void EndGiven() => _given = Count;

    public int Add(Point2 p)
    {
        if (_at.Length == Count)
        {
            Reserve(1);
        }
        _at[Count] = p;
        _nodes[Count] = false;
        return Count++;
    }

    private void Reserve(int more)
    {
        if (_at.Length < Count + more)
        {
            int size = Math.Max(Math.Max(64, 2 * _at.Length), Count + more);
            Array.Resize(ref _at, size);
            Array.Resize(ref _nodes, size);
        }
    }

    /// <summary>Room for so many points more, to be written before they are taken.</summary>
    public Span<Point2> Room(int more)
    {
        Reserve(more);
        return _at.AsSpan(Count, more);
    }

    /// <summary>Takes points that were written into the room.</summary>
    public void Take(int count)
    {
        Array.Clear(_nodes, Count, count);
        Count += count;
    }

    public ref readonly Point2 this[int v] => ref _at[v];

    /// <summary>Notes that more than two curves may end in a point.</summary>
    public void MakeNode(int v) => _nodes[v] = true;

    /// <summary>Starts a round in which every point stays where it is.</summary>
    public void BeginRound() => _near.Clear();

    /// <summary>Notes that two points are to be one; returns how far apart they are, squared.</summary>
    public double Join(int v, int w)
    {
        _near.Add((v, w));
        Point2 d = _at[v] - _at[w];
        return d.Dot(d);
    }

    /// <summary>For each point whether it is a node.</summary>
    public ReadOnlySpan<bool> Nodes => _nodes.AsSpan(0, Count);

    public bool AnyJoined => _near.Count > 0;

    /// <summary>The point that each one became in this round.</summary>
    public int Leader(int v) => _near.Count == 0 || v >= _leader.Length ? v : _leader[v];

    /// <summary>Chooses who stays: of points that hang together by near pairs, no two that stay are nearer than the distance.</summary>
    /// <returns>The farthest move, mm.</returns>
    public double ChooseLeaders(double distance)
    {
        if (_near.Count == 0)
        {
            return 0;
        }
        Growing.Reserve(ref _leader, Count);
        for (int v = 0; v < Count; v++)
        {
            _leader[v] = v;
        }
        _involved.Clear();
        foreach ((int v, int w) in _near)
        {
            _involved.Add(v);
            _involved.Add(w);
            _leader[Root(v)] = Root(w);
        }
        Growing.Reserve(ref _group, Count);
        foreach (int v in _involved)
        {
            _group[v] = Root(v);
        }
        _involved.Sort(Compare);
        double farthest = 0;
        for (int i = 0; i < _involved.Count; i++)
        {
            if (i == 0 || _group[_involved[i]] != _group[_involved[i - 1]])
            {
                _stayed.Clear();
                _stayedComputed.Clear();
            }
            if (i == 0 || _involved[i] != _involved[i - 1])
            {
                farthest = Math.Max(farthest, Lead(_involved[i], distance));
            }
        }
        return Math.Sqrt(farthest);
    }

    private int Root(int v)
    {
        while (_leader[v] != v)
        {
            _leader[v] = _leader[_leader[v]];
            v = _leader[v];
        }
        return v;
    }

    /// <summary>Joins a point to the nearest one that stayed; returns how far it moves, squared.</summary>
    private double Lead(int v, double distance)
    {
        double best = distance * distance;
        int joined = v;
        Look(_stayed, v, distance, ref best, ref joined);
        Look(_stayedComputed, v, distance, ref best, ref joined);
        _leader[v] = joined;
        _nodes[joined] = true;
        if (joined != v)
        {
            return best;
        }
        (v < _given ? _stayed : _stayedComputed).Add(v);
        return 0;
    }

    /// <summary>Among points in order of X.</summary>
    private void Look(List<int> among, int v, double distance, ref double best, ref int joined)
    {
        int low = 0;
        int high = among.Count;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (_at[among[middle]].X < _at[v].X - distance)
            {
                low = middle + 1;
            }
            else
            {
                high = middle;
            }
        }
        for (; low < among.Count && _at[among[low]].X <= _at[v].X + distance; low++)
        {
            Point2 d = _at[among[low]] - _at[v];
            double away = d.Dot(d);
            if (away < best || (away == best && joined == v))
            {
                best = away;
                joined = among[low];
            }
        }
    }

    private int Compare(int v, int w)
    {
        int order = _group[v].CompareTo(_group[w]);
        order = order != 0 ? order : (v >= _given).CompareTo(w >= _given);
        order = order != 0 ? order : _at[v].X.CompareTo(_at[w].X);
        order = order != 0 ? order : _at[v].Y.CompareTo(_at[w].Y);
        return order != 0 ? order : v.CompareTo(w);
    }
}
