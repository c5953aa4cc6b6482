using System.Runtime.Intrinsics;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Parallel straight lines laid across several sets of loops: where the loops cross each line, and between two crossings how
/// often each set winds about the line's points. It knows nothing of graphs and runs, so it can prove them.
/// </summary>
internal sealed partial class ScanLines
{
    /// <summary>The most sets that can be told apart.</summary>
    public const int Sets = 3;

    private const int Few = 48;

    // So many lines are looked through from the first one on.
    private const int Glance = 6;

    // By how much of its radius an arc's circle is taken for larger: its ends may lie off it.
    private const double Loose = 1 + Rounding.Box;

    private readonly record struct Crossing(int Line, int Set, int Step, int Curve);

    private double[] _levels = [];
    private Crossing[] _crossings = [];
    private double[] _at = [];
    private int[] _starts = [];
    private int[] _sorted = [];
    private double[] _sortedAt = [];
    private double _lowest;
    private double _highest;
    private int _lines;
    private int _count;
    private bool _upright;

    /// <summary>Starts anew with the lines y = level, or x = level where upright; levels go from low to high.</summary>
    public void Begin(ReadOnlySpan<double> at, bool areUpright)
    {
        _lines = at.Length;
        _count = 0;
        _upright = areUpright;
        Growing.Reserve(ref _levels, _lines);
        at.CopyTo(_levels);
        (_lowest, _highest) = _lines > 0 ? (_levels[0], _levels[_lines - 1]) : (double.MaxValue, double.MinValue);
    }

    /// <summary>False when none of the lines comes into the packed box.</summary>
    public bool MayCross(Vector256<double> box) => _upright ? MayCross(box[0], -box[2]) : MayCross(box[1], -box[3]);

    private bool MayCross(double low, double high)
    {
        if (high < _lowest || low > _highest)
        {
            return false;
        }
        int line = FirstAt(low);
        return line < _lines && _levels[line] <= high;
    }

    /// <summary>Adds one segment of a loop of a set.</summary>
    private void Add(in Segment s, int set)
    {
        double a = _upright ? s.Start.X : s.Start.Y;
        double b = _upright ? s.End.X : s.End.Y;
        double low = Math.Min(a, b);
        double high = Math.Max(a, b);
        if (s.IsArc)
        {
            // No radius is longer than its two legs together.
            double c = _upright ? s.Centre.X : s.Centre.Y;
            double legs = (Math.Abs(s.Start.X - s.Centre.X) + Math.Abs(s.Start.Y - s.Centre.Y)) * Loose;
            low = Math.Min(low, c - legs);
            high = Math.Max(high, c + legs);
        }
        if (MayCross(low, high))
        {
            Add(Curve.From(s), set, -1);
        }
    }

    /// <summary>Adds one curve of a loop of a set.</summary>
    /// <param name="number">What the caller knows the curve by; -1 where it does not matter.</param>
    public void Add(in Curve curve, int set, int number)
    {
        double a = _upright ? curve.A.X : curve.A.Y;
        double b = _upright ? curve.B.X : curve.B.Y;
        double low = Math.Min(a, b);
        double high = Math.Max(a, b);
        bool steady = curve.Turn == 0 || curve.StaysInOneQuadrant();
        if (!steady)
        {
            double c = _upright ? curve.C.X : curve.C.Y;
            low = Math.Min(low, c - curve.R);
            high = Math.Max(high, c + curve.R);
        }
        if (high < _lowest || low > _highest)
        {
            return;
        }
        for (int line = FirstAt(low); line < _lines && _levels[line] <= high; line++)
        {
            if (!steady)
            {
                CrossArc(_upright ? Ray.Swapped(curve) : curve, set, line, number);
            }
            else if (a <= _levels[line] != b <= _levels[line])
            {
                // Seen in the mirror the loops run the other way round.
                Add(Once(curve, _levels[line]), new(line, set, b > a == _upright ? 1 : -1, number));
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
        double a = _upright ? chain[0].A.X : chain[0].A.Y;
        double b = _upright ? chain[^1].B.X : chain[^1].B.Y;
        double high = Math.Max(a, b);
        for (int line = FirstAt(Math.Min(a, b)); line < _lines && _levels[line] <= high; line++)
        {
            double level = _levels[line];
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
                double end = _upright ? chain[middle].B.X : chain[middle].B.Y;
                (from, to) = end <= level == a <= level ? (middle + 1, to) : (from, middle);
            }
            Add(Once(chain[from], level), new(line, set, b > a == _upright ? 1 : -1, number + from));
        }
    }

    /// <summary>Adds a stretch of a loop of a set, around which there is a packed box.</summary>
    public void Add(ReadOnlySpan<Segment> stretch, Vector256<double> box, int set)
    {
        (double low, double high) = _upright ? (box[0], -box[2]) : (box[1], -box[3]);
        if (high < _lowest || low > _highest)
        {
            return;
        }
        int first = FirstAt(low);
        if (first >= _lines || _levels[first] > high)
        {
            return;
        }
        bool one = first + 1 == _lines || _levels[first + 1] > high;
        double level = _levels[first];
        foreach (ref readonly Segment s in stretch)
        {
            double a = _upright ? s.Start.X : s.Start.Y;
            double b = _upright ? s.End.X : s.End.Y;
            if (!one || s.IsArc || a <= level != b <= level)
            {
                Add(s, set);
            }
        }
    }

    /// <summary>How far along a level a line, or an arc in one quadrant of its circle, crosses it between its ends.</summary>
    private double Once(in Curve c, double level)
    {
        (double a, double b) = _upright ? (c.A.X, c.B.X) : (c.A.Y, c.B.Y);
        (double alongA, double alongB) = _upright ? (c.A.Y, c.B.Y) : (c.A.X, c.B.X);
        if (c.Turn == 0)
        {
            return alongA + ((level - a) / (b - a) * (alongB - alongA));
        }
        (double off, double alongC) = _upright ? (level - c.C.X, c.C.Y) : (level - c.C.Y, c.C.X);
        double half = Math.Sqrt(Math.Max(0, (c.R - off) * (c.R + off)));
        return alongA + alongB > 2 * alongC ? alongC + half : alongC - half;
    }

    private int FirstAt(double low)
    {
        int from = 0;
        if (_lines <= Glance)
        {
            while (from < _lines && _levels[from] < low)
            {
                from++;
            }
            return from;
        }
        int to = _lines;
        while (from < to)
        {
            int middle = (from + to) / 2;
            if (_levels[middle] < low)
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
        double level = _levels[line];
        int sign = _upright ? 1 : -1;
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
        if (_at.Length == _count)
        {
            int size = Math.Max(64, 2 * _count);
            Array.Resize(ref _at, size);
            Array.Resize(ref _crossings, size);
        }
        _at[_count] = where;
        _crossings[_count++] = crossing;
    }
}
