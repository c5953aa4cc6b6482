using FixtureGen.Model;

namespace FixtureGen.Drawing.Chaining;

/// <summary>The places where pieces end: ends within the grid are one node; then free ends find each other within the join tolerance, nearest first.</summary>
internal sealed class EndNodes
{
    private readonly List<Point2> _at = [];
    private readonly List<int> _parent = [];
    private readonly Dictionary<(long, long), List<int>> _cells = [];

    /// <summary>Start and end node of each piece.</summary>
    public List<(int A, int B)> Of { get; } = [];

    /// <summary>False when there were too many free ends near each other to look at them all.</summary>
    public bool Complete { get; private set; } = true;

    /// <summary>The gaps that were closed, in the order of their widths, and the middle of each.</summary>
    public List<(double Gap, Point2 At)> Joined { get; } = [];

    public static EndNodes Build(List<Piece> pieces, ChainLimits limits)
    {
        var nodes = new EndNodes();
        foreach (Piece p in pieces)
        {
            nodes.Of.Add((nodes.Add(p.Start, limits.Grid), nodes.Add(p.End, limits.Grid)));
        }
        nodes.JoinFreeEnds(pieces, limits.Join);
        for (int i = 0; i < pieces.Count; i++)
        {
            nodes.Of[i] = (nodes.Root(nodes.Of[i].A), nodes.Root(nodes.Of[i].B));
        }
        return nodes;
    }

    public int[] Degrees()
    {
        var degrees = new int[_at.Count];
        foreach ((int a, int b) in Of)
        {
            degrees[Root(a)]++;
            degrees[Root(b)]++;
        }
        return degrees;
    }

    public Point2 PointOf(int node) => _at[node];

    private int Add(Point2 p, double grid)
    {
        (long x, long y) = ((long)Math.Floor(p.X / (4 * grid)), (long)Math.Floor(p.Y / (4 * grid)));
        for (long i = x - 1; i <= x + 1; i++)
        {
            for (long j = y - 1; j <= y + 1; j++)
            {
                foreach (int k in _cells.GetValueOrDefault((i, j), []))
                {
                    if (_at[k].DistanceTo(p) <= grid)
                    {
                        return k;
                    }
                }
            }
        }
        if (!_cells.TryGetValue((x, y), out List<int>? cell))
        {
            _cells[(x, y)] = cell = [];
        }
        _at.Add(p);
        _parent.Add(_at.Count - 1);
        cell.Add(_at.Count - 1);
        return _at.Count - 1;
    }

    private int Root(int node)
    {
        while (_parent[node] != node)
        {
            node = _parent[node] = _parent[_parent[node]];
        }
        return node;
    }

    private void JoinFreeEnds(List<Piece> pieces, double join)
    {
        int[] degrees = Degrees();
        var pieceAt = new Dictionary<int, int>();
        for (int i = 0; i < Of.Count; i++)
        {
            pieceAt[Of[i].A] = i;
            pieceAt[Of[i].B] = i;
        }
        List<int> free = [.. Enumerable.Range(0, _at.Count).Where(n => degrees[n] == 1)];
        var candidates = new List<(double Gap, int A, int B)>();
        var grid = new SegmentGrid([.. free.Select(n => new Box2(_at[n].X, _at[n].Y, _at[n].X, _at[n].Y))], join);
        List<(int, int)> pairs = grid.Pairs(out bool all);
        Complete = all;
        foreach ((int i, int j) in pairs)
        {
            (int a, int b) = (free[i], free[j]);
            double gap = _at[a].DistanceTo(_at[b]);
            bool folds = pieceAt[a] == pieceAt[b] && LoopMath.Length(pieces[pieceAt[a]].Path) < 4 * gap;
            if (gap <= join && !folds)
            {
                candidates.Add((gap, a, b));
            }
        }
        candidates.Sort();
        var taken = new HashSet<int>();
        foreach ((double gap, int a, int b) in candidates)
        {
            if (taken.Contains(a) || taken.Contains(b))
            {
                continue;
            }
            taken.Add(a);
            taken.Add(b);
            _parent[Root(b)] = Root(a);
            Joined.Add((gap, (_at[a] + _at[b]) * 0.5));
        }
    }
}
