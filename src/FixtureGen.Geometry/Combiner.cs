using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Union, intersection and difference of sets of loops: everything is cut where it crosses, and a piece is kept, forwards or
/// backwards, where the wanted set lies on one side of it only. Edges that coincide need no case of their own.
/// </summary>
internal sealed class Combiner(Slack slack)
{
    private readonly RawCurves raw = new();
    private readonly Slices slices = new(slack);
    private readonly Stitcher stitcher = new(slack);
    private readonly List<int> kept = [];
    private readonly List<int> found = [];

    /// <summary>True when every piece of the last result closed.</summary>
    public bool Closed => stitcher.Closed;

    /// <summary>All curves of the last work, A's first.</summary>
    public ReadOnlySpan<Curve> Curves => raw.Span;

    public CurveIndex Index => slices.Index;

    public int CountA { get; private set; }

    /// <summary>The boundary of all points for which <paramref name="wanted"/> (in A, in B) holds, material on the left.</summary>
    /// <param name="shiftB">How far B is moved first, mm; not zero only to get clear of a coincidence.</param>
    public List<Loop> Run(
        IReadOnlyList<Region> a,
        IReadOnlyList<Region> b,
        Func<bool, bool, bool> wanted,
        Point2 shiftB
    )
    {
        raw.Clear();
        Load(a, default);
        CountA = raw.Count;
        Load(b, shiftB);
        slices.Build(raw);
        kept.Clear();
        int runs = slices.RunCount;
        for (int r = 0; r < runs; r++)
        {
            Classify(r, wanted);
        }
        return stitcher.Stitch(slices, kept, backwards: false);
    }

    private void Load(IReadOnlyList<Region> regions, Point2 shift)
    {
        foreach (Contour contour in regions.SelectMany(static r => r.Contours))
        {
            int first = raw.Count;
            foreach (Segment s in contour.Segments)
            {
                Curve c = Curve.Of(s);
                if (c.Chord2 < slack.Near * slack.Near && c.Length < 2 * slack.Near)
                {
                    continue;
                }
                c.A = raw.Count > first ? raw.Items[raw.Count - 1].B : c.A + shift;
                c.B += shift;
                c.C += shift;
                raw.Add(c);
            }
            LinkLoop(first);
        }
    }

    private void LinkLoop(int first)
    {
        for (int i = first; i < raw.Count; i++)
        {
            int next = i + 1 == raw.Count ? first : i + 1;
            bool lines = !raw.Items[i].IsArc && !raw.Items[next].IsArc;
            if (next != i)
            {
                raw.Connect(i, next, lines ? Link.Once : Link.Shared);
            }
        }
        if (raw.Count > first)
        {
            raw.Items[raw.Count - 1].B = raw.Items[first].A;
        }
    }

    private void Classify(int run, Func<bool, bool, bool> wanted)
    {
        ReadOnlySpan<Curve> pieces = slices.Run(run);
        ref readonly Curve longest = ref Slices.Longest(pieces);
        if (pieces.Length == 1 && longest.Length < slack.Stitch / 2)
        {
            return;
        }
        Point2 p = longest.Probe;
        Point2 heading = longest.TangentAt(p);
        found.Clear();
        slices.Index.Touching(Sides.RayBox(p, heading, slack.Near), found);
        Sides s = Sides.Of(raw.Span, CountA, found, p, heading, slack.Near);
        bool left = wanted(s.LeftA > 0, s.LeftB > 0);
        bool right = wanted(s.RightA > 0, s.RightB > 0);
        if (left == right || !IsFirst(run, s.First))
        {
            return;
        }
        kept.Add(left ? run : slices.AppendReversed(run));
    }

    /// <summary>Where curves coincide only the first of them is kept.</summary>
    private bool IsFirst(int run, int first)
    {
        int begin = slices.RunStarts[run];
        int end = slices.RunStarts[run + 1];
        for (int i = begin; i < end; i++)
        {
            if (slices.Origins[i] == first)
            {
                return true;
            }
        }
        return false;
    }
}
