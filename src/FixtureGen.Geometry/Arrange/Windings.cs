namespace FixtureGen.Geometry;

/// <summary>
/// How often the loops of two sets wind about the two sides of every run. One run of each connected part is asked by a ray;
/// from there the numbers go from run to run about the nodes, and where they come back they must be the same.
/// </summary>
internal sealed class Windings(Runs runs, Twins twins, Rotation rotation)
{
    private readonly Stack<int> _open = [];
    private readonly List<int> _part = [];
    private int[] _stepA = [];
    private int[] _stepB = [];
    private int[] _rightA = [];
    private int[] _rightB = [];
    private int[] _live = [];
    private bool[] _known = [];

    /// <summary>True for a run that stands for itself and that the number of turns changes across.</summary>
    public bool IsLive(int run) => twins.TwinOf(run) == run && (_stepA[run] | _stepB[run]) != 0;

    public int RightA(int run) => _rightA[run];

    public int RightB(int run) => _rightB[run];

    public int LeftA(int run) => _rightA[run] + _stepA[run];

    public int LeftB(int run) => _rightB[run] + _stepB[run];

    /// <summary>The live ends about a node, counter-clockwise.</summary>
    public Span<int> LiveEnds(int node) => runs.EndsAt(node)[.._live[node]];

    /// <summary>Numbers every side; false where the numbers contradict each other, which no plane graph does.</summary>
    /// <param name="countA">How many of the original curves belong to the first set.</param>
    public bool Number(int countA, BaseRay ray)
    {
        CountSteps(countA);
        SortNodes();
        for (int r = 0; r < runs.Count; r++)
        {
            if (!_known[r] && IsLive(r) && !NumberPart(r, ray))
            {
                return false;
            }
        }
        return true;
    }

    /// <summary>Numbers all that hangs together with a run, first as if its right side were 0, then by the ray's answer.</summary>
    private bool NumberPart(int first, BaseRay ray)
    {
        _part.Clear();
        Know(first, 0, 0);
        _open.Push(runs.From(first));
        _open.Push(runs.To(first));
        while (_open.TryPop(out int node))
        {
            if (!GoRound(node))
            {
                _open.Clear();
                return false;
            }
        }
        int best = first;
        double longest = 0;
        foreach (int r in _part)
        {
            // A run that lies alone is asked rather than one with twins.
            double chord = runs.Pieces.Items[runs.Longest(r)].Chord2 * (twins.Next(r) == r ? 1 : 0.01);
            if (chord > longest)
            {
                longest = chord;
                best = r;
            }
        }
        (int a, int b) = ray.RightOf(best);
        (a, b) = (a - _rightA[best], b - _rightB[best]);
        foreach (int r in _part)
        {
            _rightA[r] += a;
            _rightB[r] += b;
        }
        return true;
    }

    private void Know(int run, int a, int b)
    {
        _known[run] = true;
        _rightA[run] = a;
        _rightB[run] = b;
        _part.Add(run);
    }

    private void CountSteps(int countA)
    {
        int n = runs.Count;
        Growing.Reserve(ref _stepA, n);
        Growing.Reserve(ref _stepB, n);
        Growing.Reserve(ref _rightA, n);
        Growing.Reserve(ref _rightB, n);
        Growing.Reserve(ref _known, n);
        Array.Clear(_stepA, 0, n);
        Array.Clear(_stepB, 0, n);
        Array.Clear(_known, 0, n);
        for (int r = 0; r < n; r++)
        {
            int step = twins.Opposed(r) ? -1 : 1;
            bool inA = runs.Pieces.Origins[runs.First(r)] < countA;
            (inA ? _stepA : _stepB)[twins.TwinOf(r)] += step;
        }
    }

    private void SortNodes()
    {
        Growing.Reserve(ref _live, runs.NodeCount);
        for (int node = 0; node < runs.NodeCount; node++)
        {
            Span<int> ends = runs.EndsAt(node);
            int count = 0;
            for (int i = 0; i < ends.Length; i++)
            {
                if (IsLive(ends[i] >> 1))
                {
                    (ends[count], ends[i]) = (ends[i], ends[count]);
                    count++;
                }
            }
            _live[node] = count;
            if (count > 2)
            {
                rotation.Sort(ends[..count]);
            }
        }
    }

    private bool GoRound(int node)
    {
        Span<int> ends = LiveEnds(node);
        int first = 0;
        while (!_known[ends[first] >> 1])
        {
            first++;
        }
        (int a, int b) = After(ends[first]);
        for (int i = 1; i < ends.Length; i++)
        {
            int end = ends[(first + i) % ends.Length];
            int run = end >> 1;
            bool leaves = (end & 1) == 0;
            int ra = leaves ? a : a - _stepA[run];
            int rb = leaves ? b : b - _stepB[run];
            if (!_known[run])
            {
                Know(run, ra, rb);
                _open.Push(runs.NodeAt(end ^ 1));
            }
            else if (_rightA[run] != ra || _rightB[run] != rb)
            {
                return false;
            }
            (a, b) = After(end);
        }
        (int ba, int bb) = Before(ends[first]);
        return a == ba && b == bb;
    }

    /// <summary>The turns of the sector that follows an end counter-clockwise.</summary>
    private (int A, int B) After(int end) => Side(end, (end & 1) == 0);

    private (int A, int B) Before(int end) => Side(end, (end & 1) != 0);

    private (int A, int B) Side(int end, bool left)
    {
        int run = end >> 1;
        return left ? (LeftA(run), LeftB(run)) : (_rightA[run], _rightB[run]);
    }
}
