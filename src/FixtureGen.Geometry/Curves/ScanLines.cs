using System.Runtime.Intrinsics;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Parallel straight lines laid across several sets of loops: where the loops cross each line, and between two crossings how
/// often each set winds about the line's points. It knows nothing of graphs and runs, so it can prove them.
/// </summary>
internal sealed class ScanLines
{
    /// <summary>The most sets that can be told apart.</summary>
    public const int Sets = 3;

    private const int Few = 48;

    // So many lines are looked through from the first one on.
    private const int Glance = 6;

    // By how much of its radius an arc's circle is taken for larger: its ends may lie off it.
    private const double Loose = 1 + 1e-6;

    private readonly record struct Crossing(int Line, int Set, int Step, int Curve);

    private double[] levels = [];
    private Crossing[] crossings = [];
    private double[] at = [];
    private int[] starts = [];
    private int[] sorted = [];
    private double[] sortedAt = [];
    private double lowest;
    private double highest;
    private int lines;
    private int count;
    private bool upright;

    /// <summary>Starts anew with the lines y = level, or x = level where upright; levels go from low to high.</summary>
    public void Begin(ReadOnlySpan<double> at, bool areUpright)
    {
        lines = at.Length;
        count = 0;
        upright = areUpright;
        Growing.Reserve(ref levels, lines);
        at.CopyTo(levels);
        (lowest, highest) = lines > 0 ? (levels[0], levels[lines - 1]) : (double.MaxValue, double.MinValue);
    }

    /// <summary>False when none of the lines comes into the packed box.</summary>
    public bool MayCross(Vector256<double> box) => upright ? MayCross(box[0], -box[2]) : MayCross(box[1], -box[3]);

    private bool MayCross(double low, double high)
    {
        if (high < lowest || low > highest)
        {
            return false;
        }
        int line = FirstAt(low);
        return line < lines && levels[line] <= high;
    }

    /// <summary>Adds one segment of a loop of a set.</summary>
    private void Add(in Segment s, int set)
    {
        double a = upright ? s.Start.X : s.Start.Y;
        double b = upright ? s.End.X : s.End.Y;
        double low = Math.Min(a, b);
        double high = Math.Max(a, b);
        if (s.IsArc)
        {
            // No radius is longer than its two legs together.
            double c = upright ? s.Centre.X : s.Centre.Y;
            double legs = (Math.Abs(s.Start.X - s.Centre.X) + Math.Abs(s.Start.Y - s.Centre.Y)) * Loose;
            low = Math.Min(low, c - legs);
            high = Math.Max(high, c + legs);
        }
        if (MayCross(low, high))
        {
            Add(Curve.Of(s), set, -1);
        }
    }

    /// <summary>Adds one curve of a loop of a set.</summary>
    /// <param name="number">What the caller knows the curve by; -1 where it does not matter.</param>
    public void Add(in Curve curve, int set, int number)
    {
        double a = upright ? curve.A.X : curve.A.Y;
        double b = upright ? curve.B.X : curve.B.Y;
        double low = Math.Min(a, b);
        double high = Math.Max(a, b);
        bool steady = curve.Turn == 0 || curve.StaysInOneQuadrant();
        if (!steady)
        {
            double c = upright ? curve.C.X : curve.C.Y;
            low = Math.Min(low, c - curve.R);
            high = Math.Max(high, c + curve.R);
        }
        if (high < lowest || low > highest)
        {
            return;
        }
        for (int line = FirstAt(low); line < lines && levels[line] <= high; line++)
        {
            if (!steady)
            {
                CrossArc(upright ? Ray.Swapped(curve) : curve, set, line, number);
            }
            else if (a <= levels[line] != b <= levels[line])
            {
                // Seen in the mirror the loops run the other way round.
                Add(Once(curve, levels[line]), new(line, set, b > a == upright ? 1 : -1, number));
            }
        }
    }

    /// <summary>Adds a chain that runs on into one quadrant, so that no line crosses it twice.</summary>
    /// <param name="number">What the caller knows its first curve by.</param>
    public void AddChain(ReadOnlySpan<Curve> chain, int set, int number)
    {
        if (chain.Length == 1)
        {
            Add(chain[0], set, number);
            return;
        }
        double a = upright ? chain[0].A.X : chain[0].A.Y;
        double b = upright ? chain[^1].B.X : chain[^1].B.Y;
        double high = Math.Max(a, b);
        for (int line = FirstAt(Math.Min(a, b)); line < lines && levels[line] <= high; line++)
        {
            double level = levels[line];
            if (a <= level == b <= level)
            {
                continue;
            }
            // The first curve that ends on the other side.
            int from = 0;
            int to = chain.Length - 1;
            while (from < to)
            {
                int middle = (from + to) / 2;
                double end = upright ? chain[middle].B.X : chain[middle].B.Y;
                (from, to) = end <= level == a <= level ? (middle + 1, to) : (from, middle);
            }
            Add(Once(chain[from], level), new(line, set, b > a == upright ? 1 : -1, number + from));
        }
    }

    /// <summary>Adds a stretch of a loop of a set, around which there is a packed box.</summary>
    public void Add(ReadOnlySpan<Segment> stretch, Vector256<double> box, int set)
    {
        (double low, double high) = upright ? (box[0], -box[2]) : (box[1], -box[3]);
        if (high < lowest || low > highest)
        {
            return;
        }
        int first = FirstAt(low);
        if (first >= lines || levels[first] > high)
        {
            return;
        }
        bool one = first + 1 == lines || levels[first + 1] > high;
        double level = levels[first];
        foreach (ref readonly Segment s in stretch)
        {
            double a = upright ? s.Start.X : s.Start.Y;
            double b = upright ? s.End.X : s.End.Y;
            if (!one || s.IsArc || a <= level != b <= level)
            {
                Add(s, set);
            }
        }
    }

    /// <summary>How far along a level a line, or an arc in one quadrant of its circle, crosses it between its ends.</summary>
    private double Once(in Curve c, double level)
    {
        (double a, double b) = upright ? (c.A.X, c.B.X) : (c.A.Y, c.B.Y);
        (double alongA, double alongB) = upright ? (c.A.Y, c.B.Y) : (c.A.X, c.B.X);
        if (c.Turn == 0)
        {
            return alongA + ((level - a) / (b - a) * (alongB - alongA));
        }
        (double off, double alongC) = upright ? (level - c.C.X, c.C.Y) : (level - c.C.Y, c.C.X);
        double half = Math.Sqrt(Math.Max(0, (c.R - off) * (c.R + off)));
        return alongA + alongB > 2 * alongC ? alongC + half : alongC - half;
    }

    /// <summary>Puts the crossings of every line in order.</summary>
    public void Sort()
    {
        Growing.Reserve(ref starts, lines + 2);
        Growing.Reserve(ref sorted, count);
        Growing.Reserve(ref sortedAt, count);
        Array.Clear(starts, 0, lines + 2);
        for (int i = 0; i < count; i++)
        {
            starts[crossings[i].Line + 2]++;
        }
        for (int i = 2; i < lines + 2; i++)
        {
            starts[i] += starts[i - 1];
        }
        for (int i = 0; i < count; i++)
        {
            int to = starts[crossings[i].Line + 1]++;
            sorted[to] = i;
            sortedAt[to] = at[i];
        }
        for (int line = 0; line < lines; line++)
        {
            SortLine(starts[line], starts[line + 1]);
        }
    }

    /// <summary>By insertion where few: a handful is in order before the library's sort has begun.</summary>
    private void SortLine(int first, int end)
    {
        if (end - first > Few)
        {
            Array.Sort(sortedAt, sorted, first, end - first);
            return;
        }
        for (int i = first + 1; i < end; i++)
        {
            double moving = sortedAt[i];
            int crossing = sorted[i];
            int j = i - 1;
            for (; j >= first && sortedAt[j] > moving; j--)
            {
                sortedAt[j + 1] = sortedAt[j];
                sorted[j + 1] = sorted[j];
            }
            sortedAt[j + 1] = moving;
            sorted[j + 1] = crossing;
        }
    }

    /// <summary>False where some set's loops do not close along the line, which a line through a corner does.</summary>
    public bool Closes(int line)
    {
        Span<int> sums = stackalloc int[Sets];
        for (int i = starts[line]; i < starts[line + 1]; i++)
        {
            ref readonly Crossing c = ref crossings[sorted[i]];
            sums[c.Set] += c.Step;
        }
        return sums is [0, 0, 0];
    }

    /// <summary>Walks along a line from stretch to stretch.</summary>
    public Walk Along(int line) => new(this, line);

    private int FirstAt(double low)
    {
        int from = 0;
        if (lines <= Glance)
        {
            while (from < lines && levels[from] < low)
            {
                from++;
            }
            return from;
        }
        int to = lines;
        while (from < to)
        {
            int middle = (from + to) / 2;
            if (levels[middle] < low)
            {
                from = middle + 1;
            }
            else
            {
                to = middle;
            }
        }
        return from;
    }

    private void CrossArc(in Curve c, int set, int line, int number)
    {
        double level = levels[line];
        int sign = upright ? 1 : -1;
        double off = level - c.C.Y;
        double h2 = (c.R - off) * (c.R + off);
        if (h2 <= 0)
        {
            return;
        }
        double half = Math.Sqrt(h2);
        if (IsBeyondChord(c, c.C.X + half, level))
        {
            Add(c.C.X + half, new(line, set, sign * c.Turn, number));
        }
        if (IsBeyondChord(c, c.C.X - half, level))
        {
            Add(c.C.X - half, new(line, set, -sign * c.Turn, number));
        }
    }

    /// <summary>A point of an arc's circle belongs to the arc where it lies on the arc's side of the chord.</summary>
    private static bool IsBeyondChord(in Curve c, double x, double y) =>
        c.Turn * (((c.B.X - c.A.X) * (y - c.A.Y)) - ((c.B.Y - c.A.Y) * (x - c.A.X))) <= 0;

    private void Add(double where, in Crossing crossing)
    {
        if (at.Length == count)
        {
            int size = Math.Max(64, 2 * count);
            Array.Resize(ref at, size);
            Array.Resize(ref crossings, size);
        }
        at[count] = where;
        crossings[count++] = crossing;
    }

    /// <summary>A walk along one line.</summary>
    internal struct Walk
    {
        private readonly ScanLines lines;
        private readonly int line;
        private readonly int end;
        private int next;
        private Windings3 windings;

        internal Walk(ScanLines of, int which)
        {
            lines = of;
            line = which;
            next = of.starts[which];
            end = of.starts[which + 1];
        }

        /// <summary>Length of the stretch, mm.</summary>
        public double Width { get; private set; }

        /// <summary>The number of a curve of set 0 at one end of the stretch; -1 where there is none.</summary>
        public int Curve { get; private set; }

        /// <summary>The middle of the stretch.</summary>
        public Point2 Point { get; private set; }

        /// <summary>Winding number of a set's loops about the stretch.</summary>
        public readonly int Winding(int set) => windings[set];

        /// <summary>Steps into the next stretch between two crossings.</summary>
        public bool MoveNext()
        {
            if (next + 1 >= end)
            {
                return false;
            }
            ref readonly Crossing from = ref lines.crossings[lines.sorted[next]];
            windings[from.Set] += from.Step;
            double a = lines.sortedAt[next];
            double b = lines.sortedAt[next + 1];
            next++;
            ref readonly Crossing to = ref lines.crossings[lines.sorted[next]];
            Curve =
                from.Set == 0 ? from.Curve
                : to.Set == 0 ? to.Curve
                : -1;
            Width = b - a;
            double middle = (a + b) / 2;
            double level = lines.levels[line];
            Point = lines.upright ? new(level, middle) : new(middle, level);
            return true;
        }
    }

    [System.Runtime.CompilerServices.InlineArray(Sets)]
    private struct Windings3
    {
        private int first;
    }
}
