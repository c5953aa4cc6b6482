namespace FixtureGen.Geometry;

/// <summary>
/// Follows directed runs into closed loops, at every node as far to the left as there is a way, so that loops that touch come
/// out apart. Runs that lead nowhere are counted by their length, never hidden.
/// </summary>
internal sealed class LoopTracer(Runs runs, double grid)
{
    private readonly LoopBuilder _builder = new(grid);
    private readonly List<int> _followed = [];
    private int[] _order = [];
    private bool[] _gone = [];
    private sbyte[] _way = [];

    /// <summary>Length of the longest run that belongs to no loop, mm.</summary>
    public double Loose { get; private set; }

    /// <summary>The runs that belong to no loop.</summary>
    public List<int> LooseRuns { get; } = [];

    /// <summary>Length of the loops left out as too thin, mm.</summary>
    public double Thin { get; private set; }

    /// <summary>The farthest that leaving out edges shorter than the grid moved a corner, mm.</summary>
    public double Moved => _builder.Moved;

    /// <summary>Which way each run is gone: 1 from its start, -1 from its end, 0 not at all.</summary>
    public Span<sbyte> Begin()
    {
        Growing.Reserve(ref _way, runs.Count);
        Array.Clear(_way, 0, runs.Count);
        return _way.AsSpan(0, runs.Count);
    }

    public int Way(int run) => _way[run];

    /// <summary>All loops of the runs that have a way; about each node the first ends, as many as <paramref name="live"/> says, stand counter-clockwise.</summary>
    /// <param name="thin">Loops thinner than this, area over length, are nothing, mm.</param>
    /// <param name="reversed">Turns the loops round.</param>
    public List<Loop> Trace(Func<int, int> live, double thin, bool reversed)
    {
        Loose = 0;
        LooseRuns.Clear();
        Thin = 0;
        _builder.Start();
        int n = runs.Count;
        Growing.Reserve(ref _gone, n);
        Array.Clear(_gone, 0, n);
        Growing.Reserve(ref _order, 2 * n);
        for (int node = 0; node < runs.NodeCount; node++)
        {
            Span<int> ends = runs.EndsAt(node);
            int count = live(node);
            for (int i = 0; i < count; i++)
            {
                _order[ends[i]] = i;
            }
        }
        List<Loop> loops = [];
        for (int r = 0; r < n; r++)
        {
            if (_way[r] != 0 && !_gone[r])
            {
                Follow(r, live, loops, thin, reversed);
            }
        }
        return loops;
    }

    private void Follow(int first, Func<int, int> live, List<Loop> loops, double thin, bool reversed)
    {
        _builder.Begin();
        _followed.Clear();
        int current = first;
        do
        {
            _gone[current] = true;
            _followed.Add(current);
            Append(current);
            current = Onwards(_way[current] > 0 ? (2 * current) + 1 : 2 * current, live, first);
        } while (current >= 0 && current != first);
        if (current < 0)
        {
            Loose = Math.Max(Loose, Measure());
            LooseRuns.AddRange(_followed);
            return;
        }
        if (_builder.Close(thin, reversed) is { } loop)
        {
            loops.Add(loop);
        }
        else
        {
            Thin += Measure();
        }
    }

    private double Measure()
    {
        double sum = 0;
        foreach (int run in _followed)
        {
            sum += runs.Measure(run);
        }
        return sum;
    }

    private void Append(int run)
    {
        ReadOnlySpan<Curve> curves = runs.Curves(run);
        ReadOnlySpan<int> origins = runs.Pieces.Origins.AsSpan(runs.First(run), curves.Length);
        _builder.Add(curves, origins, backwards: _way[run] < 0);
    }

    /// <summary>From an end that was reached, the first way on clockwise from it.</summary>
    private int Onwards(int reached, Func<int, int> live, int first)
    {
        int node = runs.NodeAt(reached);
        int count = live(node);
        Span<int> ends = runs.EndsAt(node)[..count];
        int at = _order[reached];
        for (int k = 1; k <= count; k++)
        {
            int end = ends[(at + count - k) % count];
            int run = end >> 1;
            bool leaves = (end & 1) == 0 ? _way[run] > 0 : _way[run] < 0;
            if (leaves && (!_gone[run] || run == first))
            {
                return run;
            }
        }
        return -1;
    }
}
