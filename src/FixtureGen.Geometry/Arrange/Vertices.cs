using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// The points where curves end or are cut, each with one number. Points nearer to each other than the snapping distance become
/// one: taken in an order that depends on their coordinates alone (given points before computed ones, then by X, then by Y),
/// each joins the nearest one that stayed, or stays itself. So none moves farther than the snapping distance, and chains of
/// near points do not run together.
/// </summary>
internal sealed class Vertices
{
    private readonly List<(int V, int W)> near = [];
    private readonly List<int> involved = [];
    private readonly List<int> stayed = [];
    private readonly List<int> stayedComputed = [];
    private Point2[] at = [];
    private int[] leader = [];
    private int[] group = [];
    private bool[] nodes = [];
    private int given;

    public int Count { get; private set; }

    public void Clear() => (Count, given) = (0, 0);

    /// <summary>Ends the given points; those added later are computed.</summary>
    public void EndGiven() => given = Count;

    public int Add(Point2 p)
    {
        if (at.Length == Count)
        {
            Reserve(1);
        }
        at[Count] = p;
        nodes[Count] = false;
        return Count++;
    }

    private void Reserve(int more)
    {
        if (at.Length < Count + more)
        {
            int size = Math.Max(Math.Max(64, 2 * at.Length), Count + more);
            Array.Resize(ref at, size);
            Array.Resize(ref nodes, size);
        }
    }

    /// <summary>Room for so many points more, to be written before they are taken.</summary>
    public Span<Point2> Room(int more)
    {
        Reserve(more);
        return at.AsSpan(Count, more);
    }

    /// <summary>Takes points that were written into the room.</summary>
    public void Take(int count)
    {
        Array.Clear(nodes, Count, count);
        Count += count;
    }

    public ref readonly Point2 this[int v] => ref at[v];

    /// <summary>Notes that more than two curves may end in a point.</summary>
    public void MakeNode(int v) => nodes[v] = true;

    /// <summary>False where just one curve ends in the point and one starts.</summary>
    public bool IsNode(int v) => nodes[v];

    /// <summary>Starts a round in which every point stays where it is.</summary>
    public void BeginRound() => near.Clear();

    /// <summary>Notes that two points are to be one; returns how far apart they are, squared.</summary>
    public double Join(int v, int w)
    {
        near.Add((v, w));
        Point2 d = at[v] - at[w];
        return d.Dot(d);
    }

    /// <summary>For each point whether it is a node.</summary>
    public ReadOnlySpan<bool> Nodes => nodes.AsSpan(0, Count);

    public bool AnyJoined => near.Count > 0;

    /// <summary>The point that each one became in this round.</summary>
    public int Leader(int v) => near.Count == 0 || v >= leader.Length ? v : leader[v];

    /// <summary>Chooses who stays: of points that hang together by near pairs, no two that stay are nearer than the distance.</summary>
    /// <returns>The farthest move, mm.</returns>
    public double ChooseLeaders(double distance)
    {
        if (near.Count == 0)
        {
            return 0;
        }
        Growing.Reserve(ref leader, Count);
        for (int v = 0; v < Count; v++)
        {
            leader[v] = v;
        }
        involved.Clear();
        foreach ((int v, int w) in near)
        {
            involved.Add(v);
            involved.Add(w);
            leader[Root(v)] = Root(w);
        }
        Growing.Reserve(ref group, Count);
        foreach (int v in involved)
        {
            group[v] = Root(v);
        }
        involved.Sort(Compare);
        double farthest = 0;
        for (int i = 0; i < involved.Count; i++)
        {
            if (i == 0 || group[involved[i]] != group[involved[i - 1]])
            {
                stayed.Clear();
                stayedComputed.Clear();
            }
            if (i == 0 || involved[i] != involved[i - 1])
            {
                farthest = Math.Max(farthest, Lead(involved[i], distance));
            }
        }
        return Math.Sqrt(farthest);
    }

    private int Root(int v)
    {
        while (leader[v] != v)
        {
            leader[v] = leader[leader[v]];
            v = leader[v];
        }
        return v;
    }

    /// <summary>Joins a point to the nearest one that stayed; returns how far it moves, squared.</summary>
    private double Lead(int v, double distance)
    {
        double best = distance * distance;
        int joined = v;
        Look(stayed, v, distance, ref best, ref joined);
        Look(stayedComputed, v, distance, ref best, ref joined);
        leader[v] = joined;
        nodes[joined] = true;
        if (joined != v)
        {
            return best;
        }
        (v < given ? stayed : stayedComputed).Add(v);
        return 0;
    }

    /// <summary>Among points in order of X.</summary>
    private void Look(List<int> among, int v, double distance, ref double best, ref int joined)
    {
        int low = 0;
        int high = among.Count;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (at[among[middle]].X < at[v].X - distance)
            {
                low = middle + 1;
            }
            else
            {
                high = middle;
            }
        }
        for (; low < among.Count && at[among[low]].X <= at[v].X + distance; low++)
        {
            Point2 d = at[among[low]] - at[v];
            double away = d.Dot(d);
            if (away < best || (away == best && joined == v))
            {
                best = away;
                joined = among[low];
            }
        }
    }

    private int Compare(int v, int w)
    {
        int order = group[v].CompareTo(group[w]);
        order = order != 0 ? order : (v >= given).CompareTo(w >= given);
        order = order != 0 ? order : at[v].X.CompareTo(at[w].X);
        order = order != 0 ? order : at[v].Y.CompareTo(at[w].Y);
        return order != 0 ? order : v.CompareTo(w);
    }
}
