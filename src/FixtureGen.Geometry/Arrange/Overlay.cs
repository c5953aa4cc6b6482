using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Any combination of two sets of loops: everything is cut into a plane graph, every run is told how often A and B wind about
/// its two sides, and those runs bound the result on one side of which only it is wanted.
/// </summary>
internal sealed class Overlay
{
    private readonly Cutter _cutter = new();
    private readonly Runs _runs = new();
    private readonly Twins _twins = new();
    private readonly Windings _windings;
    private readonly LoopTracer _tracer;
    private readonly LoopLoader _loader;
    private readonly double _near;

    public Overlay(Slack slack)
    {
        _near = slack.Near;
        _windings = new(_runs, _twins, new Rotation(_runs));
        _tracer = new(_runs, slack.Grid);
        _loader = new(_cutter);
    }

    /// <summary>The snapping distance of the last work, mm: what the tolerances say, or more where coordinates are so large that they cannot hold it.</summary>
    public double Snap { get; private set; }

    /// <summary>The most that a point or curve was moved by snapping, and a corner by leaving out short edges, mm.</summary>
    public double Moved { get; private set; }

    /// <summary>How many curves the first set has.</summary>
    public int CountA { get; private set; }

    public LoopLoader Loader => _loader;

    /// <summary>Asked again and again whether to go on.</summary>
    public CancellationToken Cancel
    {
        get => _cutter.Cancel;
        set => _cutter.Cancel = value;
    }

    /// <summary>The curves that were combined, A's first; arcs of more than half a turn are two.</summary>
    public CurveTable Given => _cutter.Input;

    /// <summary>What everything was cut into.</summary>
    public Runs Runs => _runs;

    /// <summary>True for a run that bounds the last result.</summary>
    public bool Bounds(int run) => _tracer.Way(run) != 0;

    /// <summary>Adds to scan lines, as sets 0 and 1, what was given of A and B wherever one may cross it.</summary>
    public void AddCrossed(ScanLines lines)
    {
        if (_cutter.Rounds == 1)
        {
            _cutter.Index.AddCrossed(CountA, lines);
            return;
        }
        for (int i = 0; i < _cutter.Input.Count; i++)
        {
            lines.Add(_cutter.Input.Items[i], i < CountA ? 0 : 1, i);
        }
    }

    /// <summary>True where the last work met a place that a set encloses less than not at all.</summary>
    public bool AnyNegative { get; private set; }

    /// <summary>Length of the runs that bound the last result, mm.</summary>
    public double Length { get; private set; }

    /// <summary>
    /// The boundary of all points for which <paramref name="wanted"/> (turns of A, turns of B) holds, material on the left;
    /// null where no plane graph came about.
    /// </summary>
    /// <param name="widening">How many times the usual distance is snapped.</param>
    public List<Loop>? Run(
        IReadOnlyList<Region> a,
        IReadOnlyList<Region> b,
        Func<int, int, bool> wanted,
        double widening
    )
    {
        Begin();
        _loader.AddAll(a, 0);
        EndFirstSet();
        _loader.AddAll(b, 1);
        return Work(wanted, widening);
    }

    /// <summary>Starts anew: loops that are put into the loader from now on are A's, after <see cref="EndFirstSet"/> B's.</summary>
    public void Begin()
    {
        _cutter.Clear();
        _loader.Begin();
    }

    public void EndFirstSet() => CountA = _cutter.Input.Count;

    /// <summary>Combines what was put into the loader, once.</summary>
    public List<Loop>? Work(Func<int, int, bool> wanted, double widening)
    {
        Snap = widening * Math.Max(_near, _loader.Least);
        Length = 0;
        Moved = 0;
        if (_cutter.Input.Count == 0)
        {
            _runs.Clear();
            return [];
        }
        if (!_cutter.Cut(Snap, sorted: _loader.LoopCount <= 8))
        {
            return null;
        }
        _runs.Build(_cutter);
        _twins.Find(_runs, _cutter.Input.Items, Snap);
        var ray = new BaseRay(_runs, _twins, Snap);
        ray.Begin(_cutter, CountA);
        if (!_windings.Number(CountA, ray))
        {
            return null;
        }
        Choose(wanted);
        List<Loop> loops = _tracer.Trace(node => _windings.LiveEnds(node).Length, Snap, reversed: false);
        Length -= _tracer.Thin;
        Moved = _cutter.Moved + _tracer.Moved;
        return _tracer.Loose == 0 ? loops : null;
    }

    /// <summary>Curves, a piece of each, beside which A's turns are less than none, or more than so many.</summary>
    public IEnumerable<(int Origin, Curve Piece)> Strange(int most)
    {
        for (int r = 0; r < _runs.Count; r++)
        {
            if (!_windings.IsLive(r))
            {
                continue;
            }
            (int left, int right) = (_windings.LeftA(r), _windings.RightA(r));
            if (Math.Min(left, right) < 0 || Math.Max(left, right) > most)
            {
                int longest = _runs.Longest(r);
                yield return (_runs.Pieces.Origins[longest], _runs.Pieces.Items[longest]);
            }
        }
    }

    private void Choose(Func<int, int, bool> wanted)
    {
        Span<sbyte> way = _tracer.Begin();
        Length = 0;
        AnyNegative = false;
        for (int r = 0; r < way.Length; r++)
        {
            if (!_windings.IsLive(r))
            {
                continue;
            }
            (int leftA, int leftB) = (_windings.LeftA(r), _windings.LeftB(r));
            (int rightA, int rightB) = (_windings.RightA(r), _windings.RightB(r));
            AnyNegative |= (leftA | leftB | rightA | rightB) < 0;
            bool left = wanted(leftA, leftB);
            bool right = wanted(rightA, rightB);
            way[r] = (sbyte)(
                left == right ? 0
                : left ? 1
                : -1
            );
            Length += left == right ? 0 : _runs.Measure(r);
        }
    }
}
