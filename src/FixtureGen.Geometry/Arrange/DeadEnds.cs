namespace FixtureGen.Geometry;

/// <summary>Drops directed runs that nothing leads to or that lead nowhere, until none is left.</summary>
internal sealed class DeadEnds(Runs runs)
{
    private readonly Stack<int> _suspects = [];
    private int[] _incoming = [];
    private int[] _outgoing = [];

    /// <summary>Length of the longest run dropped, chords of its pieces added up, mm.</summary>
    public double Longest { get; private set; }

    /// <summary>The runs dropped.</summary>
    public List<int> Dropped { get; } = [];

    /// <param name="way">For each run 1 where it goes from its start, -1 from its end, 0 where it is not there; what is dropped becomes 0.</param>
    public void Drop(Span<sbyte> way)
    {
        Longest = 0;
        Dropped.Clear();
        Growing.Reserve(ref _incoming, runs.NodeCount);
        Growing.Reserve(ref _outgoing, runs.NodeCount);
        Array.Clear(_incoming, 0, runs.NodeCount);
        Array.Clear(_outgoing, 0, runs.NodeCount);
        for (int r = 0; r < way.Length; r++)
        {
            if (way[r] != 0)
            {
                _outgoing[Start(r, way[r])]++;
                _incoming[Start(r, -way[r])]++;
            }
        }
        for (int r = 0; r < way.Length; r++)
        {
            _suspects.Push(r);
            while (_suspects.TryPop(out int run))
            {
                Try(run, way);
            }
        }
    }

    private int Start(int run, int way) => way > 0 ? runs.From(run) : runs.To(run);

    private void Try(int run, Span<sbyte> way)
    {
        if (way[run] == 0)
        {
            return;
        }
        int start = Start(run, way[run]);
        int end = Start(run, -way[run]);
        if (_incoming[start] > 0 && _outgoing[end] > 0)
        {
            return;
        }
        way[run] = 0;
        Dropped.Add(run);
        _outgoing[start]--;
        _incoming[end]--;
        double length = 0;
        foreach (ref readonly Curve c in runs.Curves(run))
        {
            length += Math.Sqrt(c.Chord2);
        }
        Longest = Math.Max(Longest, length);
        foreach (int other in runs.EndsAt(start))
        {
            _suspects.Push(other >> 1);
        }
        foreach (int other in runs.EndsAt(end))
        {
            _suspects.Push(other >> 1);
        }
    }
}
