using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Finds runs of one piece that lie on each other: same nodes, nowhere farther apart than the snapping distance. One of them,
/// chosen by shape alone (lines first, then what was cut from the longest curve), stands for all.
/// </summary>
internal sealed class Twins
{
    private readonly List<int> _group = [];
    private int[] _standsFor = [];
    private int[] _nextTwin = [];
    private Runs _runs = null!;
    private Curve[] _originals = [];

    /// <summary>The run that stands for this one; itself where it lies alone.</summary>
    public int TwinOf(int run) => _standsFor[run];

    /// <summary>Round and round through all runs that lie on each other; a run alone leads to itself.</summary>
    public int Next(int run) => _nextTwin[run];

    public bool Any { get; private set; }

    /// <summary>Gathers the runs; <paramref name="given"/> are the curves that their pieces' origins count.</summary>
    public void Find(Runs among, Curve[] given, double snap)
    {
        _runs = among;
        _originals = given;
        Any = false;
        Growing.Reserve(ref _standsFor, _runs.Count);
        Growing.Reserve(ref _nextTwin, _runs.Count);
        for (int r = 0; r < _runs.Count; r++)
        {
            _standsFor[r] = r;
            _nextTwin[r] = r;
        }
        for (int node = 0; node < _runs.NodeCount; node++)
        {
            Span<int> ends = _runs.EndsAt(node);
            if (ends.Length >= 2)
            {
                FindAt(node, ends, snap);
            }
        }
    }

    /// <summary>True when the run goes the other way than the one that stands for it.</summary>
    public bool Opposed(int run) => _runs.From(run) != _runs.From(_standsFor[run]);

    private void FindAt(int node, Span<int> ends, double snap)
    {
        _group.Clear();
        foreach (int end in ends)
        {
            if (_runs.Length(end >> 1) == 1 && _runs.NodeAt(end ^ 1) > node)
            {
                _group.Add(end);
            }
        }
        if (_group.Count < 2)
        {
            return;
        }
        _group.Sort((a, b) => _runs.NodeAt(a ^ 1).CompareTo(_runs.NodeAt(b ^ 1)));
        for (int i = 0; i < _group.Count; )
        {
            int next = i + 1;
            while (next < _group.Count && _runs.NodeAt(_group[next] ^ 1) == _runs.NodeAt(_group[i] ^ 1))
            {
                next++;
            }
            if (next - i > 1)
            {
                Gather(i, next, snap);
            }
            i = next;
        }
    }

    /// <summary>Runs between the same two nodes: in order of their bulge, neighbours no farther apart than the snap are one.</summary>
    private void Gather(int start, int stop, double snap)
    {
        _group.Sort(start, stop - start, Comparer<int>.Create((a, b) => Bulge(a).CompareTo(Bulge(b))));
        int begin = start;
        for (int i = start + 1; i <= stop; i++)
        {
            if (i < stop && Bulge(_group[i]) - Bulge(_group[i - 1]) <= snap)
            {
                continue;
            }
            Appoint(begin, i);
            begin = i;
        }
    }

    private void Appoint(int start, int stop)
    {
        int chosen = _group[start];
        for (int i = start + 1; i < stop; i++)
        {
            chosen = Plainer(_group[i], chosen) ? _group[i] : chosen;
        }
        for (int i = start; i < stop; i++)
        {
            _standsFor[_group[i] >> 1] = chosen >> 1;
            _nextTwin[_group[i] >> 1] = _group[i + 1 < stop ? i + 1 : start] >> 1;
        }
        Any |= stop - start > 1;
    }

    /// <summary>How far the middle of the piece lies to the left of its chord, seen from the node.</summary>
    private double Bulge(int end)
    {
        Curve c = _runs.Leaving(end);
        if (c.Turn == 0)
        {
            return 0;
        }
        Point2 chord = c.B - c.A;
        return chord.Cross(c.Middle - c.A) / chord.Length;
    }

    private bool Plainer(int a, int b)
    {
        ref readonly Curve x = ref _originals[_runs.Pieces.Origins[_runs.First(a >> 1)]];
        ref readonly Curve y = ref _originals[_runs.Pieces.Origins[_runs.First(b >> 1)]];
        bool arc = _runs.Leaving(a).IsArc;
        if (arc != _runs.Leaving(b).IsArc)
        {
            return !arc;
        }
        int order = y.Chord2.CompareTo(x.Chord2);
        order = order != 0 ? order : Compare(Lower(x), Lower(y));
        order = order != 0 ? order : Compare(x.A, y.A);
        order = order != 0 ? order : Compare(x.C, y.C);
        return order < 0;
    }

    private static Point2 Lower(in Curve c) => Compare(c.A, c.B) < 0 ? c.A : c.B;

    private static int Compare(Point2 p, Point2 q) => p.X != q.X ? p.X.CompareTo(q.X) : p.Y.CompareTo(q.Y);
}
