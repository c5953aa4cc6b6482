using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Joins directed runs end to start into closed loops. Where loops touch it turns as far left as it can, so that each loop
/// comes out alone. What does not close is counted, never hidden.
/// </summary>
internal sealed class Stitcher(Slack slack)
{
    // Loops thinner than this many stitches, area over length, are zero-width remainders.
    private const double ThinStitches = 0.5;

    private readonly CurveList chain = new();
    private double[] endX = [];
    private int[] endId = [];
    private int[] node = [];
    private int[] incoming = [];
    private int[] outgoing = [];
    private int[] head = [];
    private int[] nextOut = [];
    private bool[] gone = [];
    private Slices slices = null!;
    private List<int> runs = null!;
    private bool reversed;

    /// <summary>Length of the longest run that could not be closed, mm; above the stub length the result is broken.</summary>
    public double Loose { get; private set; }

    public bool Closed => Loose <= slack.Stub;

    /// <summary>Returns the closed loops of the given runs, tidied, run backwards if so wanted.</summary>
    public List<Loop> Stitch(Slices from, List<int> kept, bool backwards)
    {
        slices = from;
        reversed = backwards;
        runs = kept;
        Loose = 0;
        Reserve(2 * kept.Count);
        Array.Clear(gone, 0, kept.Count);
        int nodes = FindNodes();
        LinkOutgoing(nodes);
        DropTwins();
        CancelOpposites();
        DropLoose(nodes);
        List<Loop> loops = [];
        for (int r = 0; r < runs.Count; r++)
        {
            if (!gone[r])
            {
                Walk(r, loops);
            }
        }
        return loops;
    }

    private void Reserve(int ends)
    {
        if (endX.Length >= ends)
        {
            return;
        }
        int size = Math.Max(ends, 2 * endX.Length);
        endX = new double[size];
        endId = new int[size];
        node = new int[size];
        incoming = new int[size];
        outgoing = new int[size];
        head = new int[size];
        nextOut = new int[size];
        gone = new bool[size];
    }

    private ReadOnlySpan<Curve> Run(int r) => slices.Run(runs[r]);

    private Point2 End(int id) => (id & 1) == 0 ? Run(id >> 1)[0].A : Run(id >> 1)[^1].B;

    /// <summary>Gathers run ends that lie within a stitch of each other into nodes; returns the number of nodes.</summary>
    private int FindNodes()
    {
        int ends = 2 * runs.Count;
        for (int i = 0; i < ends; i++)
        {
            endX[i] = End(i).X;
            endId[i] = i;
        }
        Array.Sort(endX, endId, 0, ends);
        int nodes = 0;
        for (int i = 0; i < ends; i++)
        {
            int found = NearestEarlier(i);
            node[endId[i]] = found < 0 ? nodes++ : found;
        }
        return nodes;
    }

    private int NearestEarlier(int i)
    {
        Point2 p = End(endId[i]);
        int found = -1;
        double best = slack.Stitch;
        for (int b = i - 1; b >= 0 && endX[i] - endX[b] <= slack.Stitch; b--)
        {
            double away = End(endId[b]).DistanceTo(p);
            if (away < best)
            {
                best = away;
                found = node[endId[b]];
            }
        }
        return found;
    }

    /// <summary>Of runs that go the same way together, which sources that retrace themselves make, keeps one.</summary>
    private void DropTwins()
    {
        for (int r = 0; r < runs.Count; r++)
        {
            for (int twin = gone[r] ? -1 : nextOut[r]; twin >= 0; twin = nextOut[twin])
            {
                bool together = node[(2 * twin) + 1] == node[(2 * r) + 1];
                gone[twin] |= together && SameWay(Run(twin), Run(r));
            }
        }
    }

    /// <summary>Drops pairs of runs that go to and fro on the same way: between them there is nothing.</summary>
    private void CancelOpposites()
    {
        for (int r = 0; r < runs.Count; r++)
        {
            int back = gone[r] ? -1 : head[node[(2 * r) + 1]];
            for (; back >= 0; back = nextOut[back])
            {
                if (!gone[back] && back != r && node[(2 * back) + 1] == node[2 * r] && SameWay(Run(back), Run(r)))
                {
                    gone[r] = true;
                    gone[back] = true;
                    break;
                }
            }
        }
    }

    private bool SameWay(ReadOnlySpan<Curve> a, ReadOnlySpan<Curve> b) => Covers(a, b) && Covers(b, a);

    private bool Covers(ReadOnlySpan<Curve> run, ReadOnlySpan<Curve> other)
    {
        Point2 p = Slices.Longest(other).Middle;
        foreach (ref readonly Curve c in run)
        {
            if (c.Distance2(p) < slack.Stitch * slack.Stitch / 4)
            {
                return true;
            }
        }
        return false;
    }

    private void DropLoose(int nodes)
    {
        int count = runs.Count;
        Array.Clear(incoming, 0, nodes);
        Array.Clear(outgoing, 0, nodes);
        for (int r = 0; r < count; r++)
        {
            if (!gone[r])
            {
                outgoing[node[2 * r]]++;
                incoming[node[(2 * r) + 1]]++;
            }
        }
        bool changed = true;
        while (changed)
        {
            changed = false;
            for (int r = 0; r < count; r++)
            {
                if (!gone[r] && (incoming[node[2 * r]] == 0 || outgoing[node[(2 * r) + 1]] == 0))
                {
                    Drop(r);
                    changed = true;
                }
            }
        }
    }

    private void Drop(int r)
    {
        gone[r] = true;
        outgoing[node[2 * r]]--;
        incoming[node[(2 * r) + 1]]--;
        Loose = Math.Max(Loose, LengthOf(Run(r)));
    }

    private void LinkOutgoing(int nodes)
    {
        Array.Fill(head, -1, 0, nodes);
        for (int r = runs.Count - 1; r >= 0; r--)
        {
            nextOut[r] = head[node[2 * r]];
            head[node[2 * r]] = r;
        }
    }

    private void Walk(int first, List<Loop> loops)
    {
        chain.Clear();
        int current = first;
        do
        {
            gone[current] = true;
            ReadOnlySpan<Curve> run = Run(current);
            chain.AddRange(run);
            current = Onwards(node[(2 * current) + 1], run[^1], first);
        } while (current >= 0 && current != first);
        if (current < 0)
        {
            Loose = Math.Max(Loose, LengthOf(chain.Span));
            return;
        }
        Close(chain.Span, loops);
    }

    private void Close(Span<Curve> loop, List<Loop> loops)
    {
        loop[0].A = loop[^1].B;
        for (int i = 1; i < loop.Length; i++)
        {
            loop[i].A = loop[i - 1].B;
        }
        Span<Curve> tidy = LoopTidy.Tidy(loop, slack);
        LoopSums sums = CurveSums.Of(tidy);
        if (Math.Abs(sums.Area) > ThinStitches * slack.Stitch * sums.Length)
        {
            loops.Add(Loop.Of(tidy, sums, reversed));
        }
    }

    /// <summary>The run to go on with: the only one there is, or the leftmost.</summary>
    private int Onwards(int at, in Curve last, int first)
    {
        int only = head[at];
        bool alone = only >= 0 && nextOut[only] < 0 && (!gone[only] || only == first);
        return alone ? only : LeftmostFrom(at, last.EndTangent, first);
    }

    private int LeftmostFrom(int at, Point2 heading, int first)
    {
        int best = -1;
        double most = -10;
        for (int r = head[at]; r >= 0; r = nextOut[r])
        {
            if (gone[r] && r != first)
            {
                continue;
            }
            Point2 leaving = Run(r)[0].StartTangent;
            double turn = Math.Atan2(heading.Cross(leaving), heading.Dot(leaving));
            // Straight back counts as the rightmost way, whatever the sign of the rounding error.
            turn = turn > 3.14159 ? -turn : turn;
            if (turn > most)
            {
                most = turn;
                best = r;
            }
        }
        return best;
    }

    private static double LengthOf(ReadOnlySpan<Curve> run)
    {
        double sum = 0;
        foreach (ref readonly Curve c in run)
        {
            sum += c.Length;
        }
        return sum;
    }
}
