using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Finds runs of one piece that lie on each other: same nodes, nowhere farther apart than the snapping distance. One of them,
/// chosen by shape alone (lines first, then what was cut from the longest curve), stands for all.
/// </summary>
internal sealed class Twins
{
    private readonly List<int> group = [];
    private int[] standsFor = [];
    private int[] nextTwin = [];
    private Runs runs = null!;
    private Curve[] originals = [];

    /// <summary>The run that stands for this one; itself where it lies alone.</summary>
    public int Of(int run) => standsFor[run];

    /// <summary>Round and round through all runs that lie on each other; a run alone leads to itself.</summary>
    public int Next(int run) => nextTwin[run];

    public bool Any { get; private set; }

    /// <summary>Gathers the runs; <paramref name="given"/> are the curves that their pieces' origins count.</summary>
    public void Find(Runs among, Curve[] given, double snap)
    {
        runs = among;
        originals = given;
        Any = false;
        Growing.Reserve(ref standsFor, runs.Count);
        Growing.Reserve(ref nextTwin, runs.Count);
        for (int r = 0; r < runs.Count; r++)
        {
            standsFor[r] = r;
            nextTwin[r] = r;
        }
        for (int node = 0; node < runs.NodeCount; node++)
        {
            Span<int> ends = runs.EndsAt(node);
            if (ends.Length >= 2)
            {
                FindAt(node, ends, snap);
            }
        }
    }

    /// <summary>True when the run goes the other way than the one that stands for it.</summary>
    public bool Opposed(int run) => runs.From(run) != runs.From(standsFor[run]);

    private void FindAt(int node, Span<int> ends, double snap)
    {
        group.Clear();
        foreach (int end in ends)
        {
            if (runs.Length(end >> 1) == 1 && runs.NodeAt(end ^ 1) > node)
            {
                group.Add(end);
            }
        }
        if (group.Count < 2)
        {
            return;
        }
        group.Sort((a, b) => runs.NodeAt(a ^ 1).CompareTo(runs.NodeAt(b ^ 1)));
        for (int i = 0; i < group.Count; )
        {
            int next = i + 1;
            while (next < group.Count && runs.NodeAt(group[next] ^ 1) == runs.NodeAt(group[i] ^ 1))
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
        group.Sort(start, stop - start, Comparer<int>.Create((a, b) => Bulge(a).CompareTo(Bulge(b))));
        int begin = start;
        for (int i = start + 1; i <= stop; i++)
        {
            if (i < stop && Bulge(group[i]) - Bulge(group[i - 1]) <= snap)
            {
                continue;
            }
            Appoint(begin, i);
            begin = i;
        }
    }

    private void Appoint(int start, int stop)
    {
        int chosen = group[start];
        for (int i = start + 1; i < stop; i++)
        {
            chosen = Plainer(group[i], chosen) ? group[i] : chosen;
        }
        for (int i = start; i < stop; i++)
        {
            standsFor[group[i] >> 1] = chosen >> 1;
            nextTwin[group[i] >> 1] = group[i + 1 < stop ? i + 1 : start] >> 1;
        }
        Any |= stop - start > 1;
    }

    /// <summary>How far the middle of the piece lies to the left of its chord, seen from the node.</summary>
    private double Bulge(int end)
    {
        Curve c = runs.Leaving(end);
        if (c.Turn == 0)
        {
            return 0;
        }
        Point2 chord = c.B - c.A;
        return chord.Cross(c.Middle - c.A) / chord.Length;
    }

    private bool Plainer(int a, int b)
    {
        ref readonly Curve x = ref originals[runs.Pieces.Origins[runs.First(a >> 1)]];
        ref readonly Curve y = ref originals[runs.Pieces.Origins[runs.First(b >> 1)]];
        bool arc = runs.Leaving(a).IsArc;
        if (arc != runs.Leaving(b).IsArc)
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
