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

    // Curves that are looked at together first.
    private const int Block = 16;
    private const int Few = 24;

    private readonly record struct Crossing(int Line, int Set, int Step);

    private double[] levels = [];
    private Crossing[] crossings = [];
    private double[] at = [];
    private int[] starts = [];
    private Crossing[] sorted = [];
    private double[] sortedAt = [];
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
    }

    /// <summary>False when none of the lines comes into the box.</summary>
    public bool MayCross(in Box2 box)
    {
        int line = FirstAt(upright ? box.MinX : box.MinY);
        return line < lines && levels[line] <= (upright ? box.MaxX : box.MaxY);
    }

    /// <summary>Adds a closed loop of a set; stretches of it that no line comes near are passed over together.</summary>
    public void Add(ReadOnlySpan<Segment> loop, int set)
    {
        for (int start = 0; start < loop.Length; start += Block)
        {
            ReadOnlySpan<Segment> block = loop[start..Math.Min(loop.Length, start + Block)];
            if (!MayCross(Around(block)))
            {
                continue;
            }
            foreach (ref readonly Segment s in block)
            {
                Add(Curve.Of(s), set);
            }
        }
    }

    /// <summary>Adds one curve of a loop of a set.</summary>
    public void Add(in Curve curve, int set)
    {
        Point2 a = curve.A;
        Point2 b = curve.B;
        double low = upright ? Math.Min(a.X, b.X) : Math.Min(a.Y, b.Y);
        double high = upright ? Math.Max(a.X, b.X) : Math.Max(a.Y, b.Y);
        if (curve.Turn != 0)
        {
            double c = upright ? curve.C.X : curve.C.Y;
            bool flat = curve.StaysInOneQuadrant();
            low = flat ? low : Math.Min(low, c - curve.R);
            high = flat ? high : Math.Max(high, c + curve.R);
        }
        int line = FirstAt(low);
        if (line >= lines || levels[line] > high)
        {
            return;
        }
        Curve seen = upright ? Ray.Swapped(curve) : curve;
        for (; line < lines && levels[line] <= high; line++)
        {
            Cross(seen, set, line);
        }
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
            sorted[to] = crossings[i];
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
            Crossing crossing = sorted[i];
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
            sums[sorted[i].Set] += sorted[i].Step;
        }
        return sums is [0, 0, 0];
    }

    /// <summary>Walks along a line from stretch to stretch.</summary>
    public Walk Along(int line) => new(this, line);

    /// <summary>A box around all of the segments, along the side that counts.</summary>
    private Box2 Around(ReadOnlySpan<Segment> block)
    {
        double low = double.MaxValue;
        double high = double.MinValue;
        foreach (ref readonly Segment s in block)
        {
            double a = upright ? s.Start.X : s.Start.Y;
            double b = upright ? s.End.X : s.End.Y;
            if (s.IsArc)
            {
                double c = upright ? s.Centre.X : s.Centre.Y;
                double r = s.Start.DistanceTo(s.Centre) * (1 + Rounding.Box);
                (a, b) = (Math.Min(c - r, Math.Min(a, b)), Math.Max(c + r, Math.Max(a, b)));
            }
            low = Math.Min(low, Math.Min(a, b));
            high = Math.Max(high, Math.Max(a, b));
        }
        return new(low, low, high, high);
    }

    private int FirstAt(double low)
    {
        int from = 0;
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

    private void Cross(in Curve c, int set, int line)
    {
        double level = levels[line];
        // Seen in the mirror the loops run the other way round.
        int sign = upright ? 1 : -1;
        if (c.Turn == 0)
        {
            if (c.A.Y <= level != c.B.Y <= level)
            {
                double x = c.A.X + ((level - c.A.Y) / (c.B.Y - c.A.Y) * (c.B.X - c.A.X));
                Add(x, new(line, set, c.B.Y > c.A.Y ? sign : -sign));
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
        if (c.SweepHolds(new(c.C.X + half, level)))
        {
            Add(c.C.X + half, new(line, set, sign * c.Turn));
        }
        if (c.SweepHolds(new(c.C.X - half, level)))
        {
            Add(c.C.X - half, new(line, set, -sign * c.Turn));
        }
    }

    private void Add(double where, Crossing crossing)
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
            Crossing from = lines.sorted[next];
            windings[from.Set] += from.Step;
            double a = lines.sortedAt[next];
            double b = lines.sortedAt[next + 1];
            next++;
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
