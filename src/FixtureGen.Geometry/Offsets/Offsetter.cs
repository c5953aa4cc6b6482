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

    private readonly Slack slack;
    private readonly RawOffset rawOffset;
    private readonly RawCurves raw = new();
    private readonly Cutter cutter = new();
    private readonly LoopLoader loader;
    private readonly Runs runs = new();
    private readonly Twins twins = new();
    private readonly Rotation rotation;
    private readonly LoopTracer tracer;
    private readonly DeadEnds deadEnds;
    private int[] live = [];
    private int[] startIds = [];
    private int[] endIds = [];
    private int[] rawOf = [];
    private bool[] keeps = [];
    private double spare;

    public Offsetter(Slack slack)
    {
        this.slack = slack;
        rawOffset = new(slack);
        loader = new(cutter);
        rotation = new(runs);
        tracer = new(runs, slack.Grid);
        deadEnds = new(runs);
    }

    /// <summary>Asked again and again whether to go on.</summary>
    public CancellationToken Cancel
    {
        get => cutter.Cancel;
        set => cutter.Cancel = value;
    }

    /// <summary>
    /// The most that a point or curve of the last parallel was moved by snapping, and a corner by leaving out short edges, mm.
    /// </summary>
    public double Moved { get; private set; }

    /// <summary>What everything was cut into.</summary>
    public Runs Runs => runs;

    /// <summary>The parallels before they were cut.</summary>
    public RawCurves Raw => raw;

    /// <summary>Length of the runs that bound the last result, mm.</summary>
    public double Length { get; private set; }

    /// <summary>True where the last work dropped pieces for their side.</summary>
    public bool WrongSide { get; private set; }

    /// <summary>True for a run that no source was found nearer to.</summary>
    public bool Keeps(int run) => keeps[run];

    /// <summary>The source curve that a curve of the result is as far from as was asked; its number as the loop says it.</summary>
    public int SourceOf(int number) => raw.Source(rawOf[number]);

    /// <summary>Loops at <paramref name="distance"/> mm (&gt; 0) to the left of the source; null where they do not close.</summary>
    public List<Loop>? Run(OffsetSource source, double distance, OffsetWay way)
    {
        rawOffset.Build(source, distance, raw);
        Load();
        double snap = way.Widening * Math.Max(slack.Near, LoopLoader.RoundingOf(source.Greatest + distance));
        Length = 0;
        Moved = 0;
        WrongSide = way.SideTest;
        if (cutter.Input.Count == 0)
        {
            runs.Clear();
            return [];
        }
        if (!cutter.Cut(snap, sorted: source.LoopStarts.Count <= 8))
        {
            return null;
        }
        runs.Build(cutter);
        twins.Find(runs, cutter.Input.Items, snap);
        spare = way.Leniency switch
        {
            Leniency.Moved => cutter.Moved + (Unmoved * snap),
            Leniency.None => Unmoved * snap,
            _ => slack.Slice,
        };
        Choose(source, distance, way.SideTest);
        SortNodes();
        List<Loop> loops = tracer.Trace(node => live[node], slack.Thin, source.Reversed);
        Length -= tracer.Thin;
        Moved = cutter.Moved + tracer.Moved;
        return Math.Max(deadEnds.Longest, tracer.Loose) <= slack.Stub ? loops : null;
    }

    private void Load()
    {
        cutter.Clear();
        loader.Begin();
        int count = raw.Count;
        Growing.Reserve(ref startIds, count);
        Growing.Reserve(ref endIds, count);
        Growing.Reserve(ref rawOf, 2 * count);
        bool plain = JoinEnds(raw.Span);
        CurveTable input = cutter.Input;
        if (plain)
        {
            Growing.Number(rawOf.AsSpan(0, count), 0);
            raw.GiveTo(input);
            for (int i = 0; i < count; i++)
            {
                input.Join(i, startIds[i], endIds[i]);
            }
            return;
        }
        for (int i = 0; i < count; i++)
        {
            int number = input.Count;
            loader.Put(raw.Items[i], startIds[i], endIds[i]);
            // An arc of more than half a turn is two.
            rawOf[number] = i;
            rawOf[input.Count - 1] = i;
        }
    }

    /// <summary>Gives the ends of the raw curves to the cutter, linked ones as one point; false where an arc turns more than half.</summary>
    private bool JoinEnds(Span<Curve> curves)
    {
        Vertices vertices = cutter.Vertices;
        Array.Fill(startIds, -1, 0, curves.Length);
        bool plain = true;
        for (int i = 0; i < curves.Length; i++)
        {
            ref Curve c = ref curves[i];
            int start = startIds[i];
            if (start < 0)
            {
                start = startIds[i] = vertices.Add(c.A);
            }
            else
            {
                c.A = vertices[start];
            }
            int next = raw.Next(i);
            int end = next >= 0 ? startIds[next] : -1;
            if (end < 0)
            {
                end = vertices.Add(c.B);
                if (next >= 0)
                {
                    startIds[next] = end;
                }
            }
            else
            {
                c.B = vertices[end];
            }
            endIds[i] = end;
            plain &= !LoopLoader.IsMoreThanHalf(c);
        }
        return plain;
    }

    /// <summary>Keeps what is no nearer to the source than the distance; what goes to and fro on the same way goes nowhere.</summary>
    private void Choose(OffsetSource source, double distance, bool sideTest)
    {
        Span<sbyte> way = tracer.Begin();
        Growing.Reserve(ref keeps, way.Length);
        for (int r = 0; r < way.Length; r++)
        {
            if (r % 1024 == 0)
            {
                Cancel.ThrowIfCancellationRequested();
            }
            keeps[r] = IsFar(source, distance, sideTest, r);
            if (keeps[r])
            {
                way[twins.Of(r)] += (sbyte)(twins.Opposed(r) ? -1 : 1);
            }
        }
        for (int r = 0; r < way.Length; r++)
        {
            way[r] = (sbyte)Math.Sign(way[r]);
        }
        deadEnds.Drop(way);
        for (int r = 0; r < way.Length; r++)
        {
            Length += way[r] == 0 ? 0 : runs.Measure(r);
        }
    }

    private void SortNodes()
    {
        Growing.Reserve(ref live, runs.NodeCount);
        for (int node = 0; node < runs.NodeCount; node++)
        {
            Span<int> ends = runs.EndsAt(node);
            int count = 0;
            for (int i = 0; i < ends.Length; i++)
            {
                if (tracer.Way(ends[i] >> 1) != 0)
                {
                    (ends[count], ends[i]) = (ends[i], ends[count]);
                    count++;
                }
            }
            live[node] = count;
            if (count > 2)
            {
                rotation.Sort(ends[..count]);
            }
        }
    }

    private bool IsFar(OffsetSource source, double distance, bool sideTest, int run)
    {
        Point2 probe = runs.Pieces.Items[runs.Longest(run)].Probe;
        return !source.Index.AnyNearer(probe, distance - spare) && (!sideTest || OnMaterialsSide(source, probe));
    }

    /// <summary>Shrinking stays inside. Growing stays outside, where reversed loops wind zero times or more.</summary>
    private static bool OnMaterialsSide(OffsetSource source, Point2 p)
    {
        int winding = source.Index.Winding(p);
        return source.Reversed ? winding >= 0 : winding > 0;
    }
}
