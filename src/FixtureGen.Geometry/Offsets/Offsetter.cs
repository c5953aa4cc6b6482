using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// The exact parallel of closed loops: raw curves, cut into a plane graph, kept where no source is nearer than the distance,
/// followed into loops. Scratch memory is kept from call to call.
/// </summary>
internal sealed class Offsetter
{
    // In snapping distances: how much too near its source a piece that was not moved may seem.
    private const double Unmoved = 0.1;

    // Which ways a run is gone.
    private const byte To = 1;
    private const byte Fro = 2;

    private readonly Slack _slack;
    private readonly RawOffset _rawOffset;
    private readonly RawCurves _raw = new();
    private readonly Cutter _cutter = new();
    private readonly LoopLoader _loader;
    private readonly Runs _runs = new();
    private readonly Twins _twins = new();
    private readonly Rotation _rotation;
    private readonly LoopTracer _tracer;
    private readonly DeadEnds _deadEnds;
    private int[] _live = [];
    private int[] _startIds = [];
    private int[] _endIds = [];
    private int[] _rawOf = [];
    private bool[] _keeps = [];
    private byte[] _toAndFro = [];
    private double _spare;

    public Offsetter(Slack slack)
    {
        _slack = slack;
        _rawOffset = new(slack);
        _loader = new(_cutter);
        _rotation = new(_runs);
        _tracer = new(_runs, slack.Grid);
        _deadEnds = new(_runs);
    }

    /// <summary>Asked again and again whether to go on.</summary>
    public CancellationToken Cancel
    {
        get => _cutter.Cancel;
        set => _cutter.Cancel = value;
    }

    /// <summary>
    /// The most that a point or curve of the last parallel was moved by snapping, and a corner by leaving out short edges, mm.
    /// </summary>
    public double Moved { get; private set; }

    /// <summary>What everything was cut into.</summary>
    public Runs Runs => _runs;

    /// <summary>The parallels before they were cut.</summary>
    public RawCurves Raw => _raw;

    /// <summary>Length of the runs that bound the last result, mm.</summary>
    public double Length { get; private set; }

    /// <summary>True where the last work dropped pieces for their side.</summary>
    public bool WrongSide { get; private set; }

    /// <summary>True for a run that no source was found nearer to.</summary>
    public bool Keeps(int run) => _keeps[run];

    /// <summary>Runs that were kept but led nowhere.</summary>
    public List<int> Stubs => _deadEnds.Dropped;

    /// <summary>The source curve that a curve of the result is as far from as was asked; its number as the loop says it.</summary>
    public int SourceOf(int number) => _raw.Source(_rawOf[number]);

    /// <summary>Loops at <paramref name="distance"/> mm (&gt; 0) to the left of the source; null where they do not close.</summary>
    public List<Loop>? Run(OffsetSource source, double distance, OffsetWay way)
    {
        _rawOffset.Build(source, distance, _raw);
        return Follow(source, distance, way);
    }

    /// <summary>The loops that the raw parallels come to.</summary>
    public List<Loop>? Follow(OffsetSource source, double distance, OffsetWay way)
    {
        Load();
        double snap = way.Widening * Math.Max(_slack.Near, LoopLoader.RoundingOf(source.Greatest + distance));
        Length = 0;
        Moved = 0;
        WrongSide = way.SideTest;
        if (_cutter.Input.Count == 0)
        {
            _runs.Clear();
            return [];
        }
        if (!_cutter.Cut(snap, sorted: source.LoopStarts.Count <= 8))
        {
            return null;
        }
        _runs.Build(_cutter);
        _twins.Find(_runs, _cutter.Input.Items, snap);
        _spare = way.Leniency switch
        {
            Leniency.Moved => _cutter.Moved + (Unmoved * snap),
            Leniency.None => Unmoved * snap,
            Leniency.Slice => _slack.Slice,
        };
        Choose(source, distance, way.SideTest, way.Retraced);
        SortNodes();
        List<Loop> loops = _tracer.Trace(node => _live[node], _slack.Thin, source.Reversed);
        Length -= _tracer.Thin + _tracer.LooseRuns.Sum(r => _runs.Measure(r));
        _deadEnds.Dropped.AddRange(_tracer.LooseRuns);
        Moved = _cutter.Moved + _tracer.Moved;
        return Math.Max(_deadEnds.Longest, _tracer.Loose) <= _slack.Stub ? loops : null;
    }

    private void Load()
    {
        _cutter.Clear();
        _loader.Begin();
        int count = _raw.Count;
        Growing.Reserve(ref _startIds, count);
        Growing.Reserve(ref _endIds, count);
        Growing.Reserve(ref _rawOf, 2 * count);
        bool plain = JoinEnds(_raw.Span);
        CurveTable input = _cutter.Input;
        if (plain)
        {
            Growing.Number(_rawOf.AsSpan(0, count), 0);
            _raw.GiveTo(input);
            for (int i = 0; i < count; i++)
            {
                input.Join(i, _startIds[i], _endIds[i]);
            }
            return;
        }
        for (int i = 0; i < count; i++)
        {
            int number = input.Count;
            _loader.Put(_raw.Items[i], _startIds[i], _endIds[i]);
            // An arc of more than half a turn is two.
            _rawOf[number] = i;
            _rawOf[input.Count - 1] = i;
        }
    }

    /// <summary>Gives the ends of the raw curves to the cutter, linked ones as one point; false where an arc turns more than half.</summary>
    private bool JoinEnds(Span<Curve> curves)
    {
        Vertices vertices = _cutter.Vertices;
        Array.Fill(_startIds, -1, 0, curves.Length);
        bool plain = true;
        for (int i = 0; i < curves.Length; i++)
        {
            ref Curve c = ref curves[i];
            int start = _startIds[i];
            if (start < 0)
            {
                start = _startIds[i] = vertices.Add(c.A);
            }
            else
            {
                c.A = vertices[start];
            }
            int next = _raw.Next(i);
            int end = next >= 0 ? _startIds[next] : -1;
            if (end < 0)
            {
                end = vertices.Add(c.B);
                if (next >= 0)
                {
                    _startIds[next] = end;
                }
            }
            else
            {
                c.B = vertices[end];
            }
            _endIds[i] = end;
            plain &= !LoopLoader.IsMoreThanHalf(c);
        }
        return plain;
    }

    /// <summary>
    /// Keeps what is no nearer to the source than the distance; what goes to and fro on the same way goes nowhere. As often to
    /// as fro, that is, but for a source that retraces itself, which has its parallels twice on one side and once on the other.
    /// </summary>
    private void Choose(OffsetSource source, double distance, bool sideTest, bool retraced)
    {
        Span<sbyte> way = _tracer.Begin();
        Growing.Reserve(ref _keeps, way.Length);
        Growing.Reserve(ref _toAndFro, way.Length);
        Array.Clear(_toAndFro, 0, way.Length);
        for (int r = 0; r < way.Length; r++)
        {
            if (r % 1024 == 0)
            {
                Cancel.ThrowIfCancellationRequested();
            }
            _keeps[r] = IsFar(source, distance, sideTest, r);
            if (_keeps[r])
            {
                int twin = _twins.TwinOf(r);
                way[twin] += (sbyte)(_twins.Opposed(r) ? -1 : 1);
                _toAndFro[twin] |= _twins.Opposed(r) ? Fro : To;
            }
        }
        for (int r = 0; r < way.Length; r++)
        {
            way[r] = retraced && _toAndFro[r] == (To | Fro) ? (sbyte)0 : (sbyte)Math.Sign(way[r]);
        }
        _deadEnds.Drop(way);
        for (int r = 0; r < way.Length; r++)
        {
            Length += way[r] == 0 ? 0 : _runs.Measure(r);
        }
    }

    private void SortNodes()
    {
        Growing.Reserve(ref _live, _runs.NodeCount);
        for (int node = 0; node < _runs.NodeCount; node++)
        {
            Span<int> ends = _runs.EndsAt(node);
            int count = 0;
            for (int i = 0; i < ends.Length; i++)
            {
                if (_tracer.Way(ends[i] >> 1) != 0)
                {
                    (ends[count], ends[i]) = (ends[i], ends[count]);
                    count++;
                }
            }
            _live[node] = count;
            if (count > 2)
            {
                _rotation.Sort(ends[..count]);
            }
        }
    }

    private bool IsFar(OffsetSource source, double distance, bool sideTest, int run)
    {
        Point2 probe = _runs.Pieces.Items[_runs.Longest(run)].Probe;
        return !source.Index.AnyNearer(probe, distance - _spare) && (!sideTest || OnMaterialsSide(source, probe));
    }

    /// <summary>Shrinking stays inside. Growing stays outside, where reversed loops wind zero times or more.</summary>
    private static bool OnMaterialsSide(OffsetSource source, Point2 p)
    {
        int winding = source.Index.Winding(p);
        return source.Reversed ? winding >= 0 : winding > 0;
    }
}
