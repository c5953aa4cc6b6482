using System.Collections.Immutable;
using System.Runtime.InteropServices;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// One straight line laid across several sets of loops: where it crosses them, and between two crossings how often each set
/// winds round the line's points. It knows nothing of slices and stitches, so it can prove them.
/// </summary>
internal sealed class ScanLine
{
    /// <summary>The most sets that can be told apart.</summary>
    public const int Sets = 3;

    private const int FewCrossings = 24;

    private readonly record struct Crossing(double At, int Set, int Step);

    private readonly List<Crossing> crossings = [];
    private readonly int[] windings = new int[Sets];
    private bool swapped;
    private double level;
    private int next;

    /// <summary>Starts anew with the line y = level, or x = level.</summary>
    public void Begin(bool alongY, double at)
    {
        crossings.Clear();
        swapped = alongY;
        level = at;
        next = 0;
        Array.Clear(windings);
    }

    /// <summary>The point that the last <see cref="MoveNext"/> stopped at.</summary>
    public Point2 Point { get; private set; }

    /// <summary>Length of the interval around <see cref="Point"/>, mm.</summary>
    public double Width { get; private set; }

    /// <summary>Winding number of a set's loops round <see cref="Point"/>.</summary>
    public int Winding(int set) => windings[set];

    public void Add(ImmutableArray<Segment> loop, int set)
    {
        foreach (ref readonly Segment s in loop.AsSpan())
        {
            if (MayCross(s))
            {
                Add(Curve.Of(s), set);
            }
        }
    }

    public void Add(in Curve curve, int set)
    {
        Curve c = swapped ? Ray.Swapped(curve) : curve;
        // Seen in the mirror the loops run the other way round.
        int sign = swapped ? 1 : -1;
        if (c.Turn == 0)
        {
            if (c.A.Y <= level != c.B.Y <= level)
            {
                double x = c.A.X + ((level - c.A.Y) / (c.B.Y - c.A.Y) * (c.B.X - c.A.X));
                crossings.Add(new(x, set, c.B.Y > c.A.Y ? sign : -sign));
            }
            return;
        }
        double off = level - c.C.Y;
        double h2 = (c.R - off) * (c.R + off);
        if (h2 <= 0)
        {
            return;
        }
        double half = Math.Sqrt(h2);
        AddIfOn(c, half, set, sign * c.Turn);
        AddIfOn(c, -half, set, -sign * c.Turn);
    }

    /// <summary>Orders the crossings; false where some set does not close, which a line through a vertex does.</summary>
    public bool Sort()
    {
        if (crossings.Count <= FewCrossings)
        {
            SortFew(CollectionsMarshal.AsSpan(crossings));
        }
        else
        {
            crossings.Sort(static (a, b) => a.At.CompareTo(b.At));
        }
        Span<int> sums = [0, 0, 0];
        foreach (Crossing c in crossings)
        {
            sums[c.Set] += c.Step;
        }
        return sums is [0, 0, 0];
    }

    /// <summary>Steps into the next interval between crossings.</summary>
    public bool MoveNext()
    {
        if (next + 1 >= crossings.Count)
        {
            return false;
        }
        Crossing from = crossings[next++];
        windings[from.Set] += from.Step;
        double to = crossings[next].At;
        Width = to - from.At;
        double middle = (from.At + to) / 2;
        Point = swapped ? new(level, middle) : new(middle, level);
        return true;
    }

    /// <summary>By insertion: a handful is in order before the library's sort has begun.</summary>
    private static void SortFew(Span<Crossing> c)
    {
        for (int i = 1; i < c.Length; i++)
        {
            Crossing moving = c[i];
            int j = i - 1;
            for (; j >= 0 && c[j].At > moving.At; j--)
            {
                c[j + 1] = c[j];
            }
            c[j + 1] = moving;
        }
    }

    private void AddIfOn(in Curve c, double half, int set, int step)
    {
        Point2 p = new(c.C.X + half, level);
        if (c.SweepHolds(p))
        {
            crossings.Add(new(p.X, set, step));
        }
    }

    private bool MayCross(in Segment s)
    {
        (double a, double b, double c) = swapped ? (s.Start.X, s.End.X, s.Centre.X) : (s.Start.Y, s.End.Y, s.Centre.Y);
        if (a <= level != b <= level)
        {
            return true;
        }
        if (!s.IsArc)
        {
            return false;
        }
        Point2 r = s.Start - s.Centre;
        return (level - c) * (level - c) <= r.Dot(r);
    }
}
