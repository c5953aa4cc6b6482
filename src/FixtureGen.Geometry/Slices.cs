using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Curves cut at every common point, gathered into runs: a run is a stretch between two cuts or open ends, and whatever is
/// true of one of its points (too near, inside, outside) is true of all.
/// </summary>
internal sealed class Slices(Slack slack)
{
    private readonly record struct Cut(int Curve, double Parameter, Point2 At);

    private readonly CurveIndex index = new();
    private readonly List<long> pairs = [];
    private readonly List<Cut> cuts = [];

    public CurveList Pieces { get; } = new();

    /// <summary>First piece of each run, and one entry more for the end.</summary>
    public List<int> RunStarts { get; } = [];

    /// <summary>For each piece the raw curve it was cut from.</summary>
    public List<int> Origins { get; } = [];

    /// <summary>The index over the raw curves.</summary>
    public CurveIndex Index => index;

    public int RunCount => RunStarts.Count - 1;

    public ReadOnlySpan<Curve> Run(int r)
    {
        int start = RunStarts[r];
        return new(Pieces.Items, start, RunStarts[r + 1] - start);
    }

    public void Build(RawCurves raw)
    {
        pairs.Clear();
        cuts.Clear();
        Pieces.Clear();
        Origins.Clear();
        RunStarts.Clear();
        index.Build(raw.Items, raw.Count, slack.Near);
        index.TouchingPairs(pairs);
        foreach (long pair in pairs)
        {
            int i = (int)(pair >> 32);
            int j = (int)(pair & 0xffffffff);
            if (!raw.MeetOnce(i, j))
            {
                CutPair(raw, i, j);
            }
        }
        cuts.Sort(
            static (x, y) => x.Curve != y.Curve ? x.Curve.CompareTo(y.Curve) : x.Parameter.CompareTo(y.Parameter)
        );
        Slice(raw);
    }

    /// <summary>The longest piece of a run, looked for among at most 64 of them: its middle is far from every cut.</summary>
    public static ref readonly Curve Longest(ReadOnlySpan<Curve> run)
    {
        int step = Math.Max(1, run.Length / 64);
        int best = 0;
        double longest = -1;
        for (int i = 0; i < run.Length; i += step)
        {
            double chord = run[i].Chord2;
            if (chord > longest)
            {
                longest = chord;
                best = i;
            }
        }
        return ref run[best];
    }

    /// <summary>Adds the run once more, the other way round; returns the new run.</summary>
    public int AppendReversed(int run)
    {
        for (int i = RunStarts[run + 1] - 1; i >= RunStarts[run]; i--)
        {
            AddPiece(Pieces.Items[i].Reversed, Origins[i]);
        }
        RunStarts.Add(Pieces.Count);
        return RunCount - 1;
    }

    private void CutPair(RawCurves raw, int i, int j)
    {
        Span<Curve> c = raw.Span;
        bool follows = raw.Next(i) == j;
        bool leads = raw.Next(j) == i;
        Span<Point2> found = stackalloc Point2[Crossings.Most];
        int count = Crossings.Find(c[i], c[j], slack.Near, found);
        for (int k = 0; k < count; k++)
        {
            Point2 q = found[k];
            // Neighbours that are nearly tangent give their common point twice, a little off.
            bool shared =
                (follows && q.DistanceTo(c[i].B) < slack.Stitch) || (leads && q.DistanceTo(c[j].B) < slack.Stitch);
            if (!shared)
            {
                AddCut(c, i, q);
                AddCut(c, j, q);
            }
        }
    }

    private void AddCut(Span<Curve> c, int i, Point2 q) => cuts.Add(new(i, c[i].Parameter(q), q));

    private void Slice(RawCurves raw)
    {
        Span<Curve> curves = raw.Span;
        int next = 0;
        bool open = true;
        for (int e = 0; e < curves.Length; e++)
        {
            if (open)
            {
                StartRun(Pieces.Count);
            }
            ref Curve rest = ref AddPiece(curves[e], e);
            bool cutAtEnd = false;
            for (; next < cuts.Count && cuts[next].Curve == e; next++)
            {
                Point2 q = cuts[next].At;
                if (q.DistanceTo(rest.B) < slack.Near)
                {
                    cutAtEnd = true;
                    continue;
                }
                if (q.DistanceTo(rest.A) < slack.Near)
                {
                    StartRun(Pieces.Count - 1);
                    continue;
                }
                rest.B = q;
                StartRun(Pieces.Count);
                rest = ref AddPiece(curves[e], e);
                rest.A = q;
            }
            open = cutAtEnd || raw.LinkAfter(e) == Link.Open || raw.Next(e) != e + 1;
        }
        RunStarts.Add(Pieces.Count);
    }

    private void StartRun(int piece)
    {
        if (RunStarts.Count == 0 || RunStarts[^1] != piece)
        {
            RunStarts.Add(piece);
        }
    }

    private ref Curve AddPiece(in Curve piece, int origin)
    {
        Origins.Add(origin);
        return ref Pieces.Add(piece);
    }
}
