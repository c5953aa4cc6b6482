using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Any combination of two sets of loops: everything is cut into a plane graph, every run is told how often A and B wind about
/// its two sides, and those runs bound the result on one side of which only it is wanted.
/// </summary>
internal sealed class Overlay
{
    private readonly Cutter cutter = new();
    private readonly Runs runs = new();
    private readonly Twins twins = new();
    private readonly Windings windings;
    private readonly LoopTracer tracer;
    private readonly LoopLoader loader;
    private readonly double near;

    public Overlay(Slack slack)
    {
        near = slack.Near;
        windings = new(runs, twins, new Rotation(runs));
        tracer = new(runs, slack.Grid);
        loader = new(cutter);
    }

    /// <summary>The snapping distance of the last work, mm: what the tolerances say, or more where coordinates are so large that they cannot hold it.</summary>
    public double Snap { get; private set; }

    /// <summary>The most that a point or curve was moved by snapping, and a corner by leaving out short edges, mm.</summary>
    public double Moved { get; private set; }

    /// <summary>How many curves the first set has.</summary>
    public int CountA { get; private set; }

    public LoopLoader Loader => loader;

    /// <summary>Asked again and again whether to go on.</summary>
    public CancellationToken Cancel
    {
        get => cutter.Cancel;
        set => cutter.Cancel = value;
    }

    /// <summary>The curves that were combined, A's first; arcs of more than half a turn are two.</summary>
    public CurveTable Given => cutter.Input;

    /// <summary>What everything was cut into.</summary>
    public Runs Runs => runs;

    /// <summary>True for a run that bounds the last result.</summary>
    public bool Bounds(int run) => tracer.Way(run) != 0;

    /// <summary>Adds to scan lines, as sets 0 and 1, what was given of A and B wherever one may cross it.</summary>
    public void AddCrossed(ScanLines lines)
    {
        if (cutter.Rounds == 1)
        {
            cutter.Index.AddCrossed(CountA, lines);
            return;
        }
        for (int i = 0; i < cutter.Input.Count; i++)
        {
            lines.Add(cutter.Input.Items[i], i < CountA ? 0 : 1, i);
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
        loader.AddAll(a, 0);
        EndFirstSet();
        loader.AddAll(b, 1);
        return Work(wanted, widening);
    }

    /// <summary>Starts anew: loops that are put into the loader from now on are A's, after <see cref="EndFirstSet"/> B's.</summary>
    public void Begin()
    {
        cutter.Clear();
        loader.Begin();
    }

    public void EndFirstSet() => CountA = cutter.Input.Count;

    /// <summary>Combines what was put into the loader, once.</summary>
    public List<Loop>? Work(Func<int, int, bool> wanted, double widening)
    {
        Snap = widening * Math.Max(near, loader.Least);
        Length = 0;
        Moved = 0;
        if (cutter.Input.Count == 0)
        {
            runs.Clear();
            return [];
        }
        if (!cutter.Cut(Snap, sorted: loader.LoopCount <= 8))
        {
            return null;
        }
        runs.Build(cutter);
        twins.Find(runs, cutter.Input.Items, Snap);
        var ray = new BaseRay(runs, twins, Snap);
        ray.Begin(cutter, CountA);
        if (!windings.Number(CountA, ray))
        {
            return null;
        }
        Choose(wanted);
        List<Loop> loops = tracer.Trace(node => windings.LiveEnds(node).Length, Snap, reversed: false);
        Length -= tracer.Thin;
        Moved = cutter.Moved + tracer.Moved;
        return tracer.Loose == 0 ? loops : null;
    }

    /// <summary>Curves, a piece of each, beside which A's turns are less than none, or more than so many.</summary>
    public IEnumerable<(int Origin, Curve Piece)> Strange(int most)
    {
        for (int r = 0; r < runs.Count; r++)
        {
            if (!windings.IsLive(r))
            {
                continue;
            }
            (int left, int right) = (windings.LeftA(r), windings.RightA(r));
            if (Math.Min(left, right) < 0 || Math.Max(left, right) > most)
            {
                int longest = runs.Longest(r);
                yield return (runs.Pieces.Origins[longest], runs.Pieces.Items[longest]);
            }
        }
    }

    private void Choose(Func<int, int, bool> wanted)
    {
        Span<sbyte> way = tracer.Begin();
        Length = 0;
        AnyNegative = false;
        for (int r = 0; r < way.Length; r++)
        {
            if (!windings.IsLive(r))
            {
                continue;
            }
            (int leftA, int leftB) = (windings.LeftA(r), windings.LeftB(r));
            (int rightA, int rightB) = (windings.RightA(r), windings.RightB(r));
            AnyNegative |= (leftA | leftB | rightA | rightB) < 0;
            bool left = wanted(leftA, leftB);
            bool right = wanted(rightA, rightB);
            way[r] = (sbyte)(
                left == right ? 0
                : left ? 1
                : -1
            );
            Length += left == right ? 0 : runs.Measure(r);
        }
    }
}
