using System.Runtime.Intrinsics;
using FixtureGen.Model;
using static FixtureGen.Geometry.PackedBox;

namespace FixtureGen.Geometry;

/// <summary>
/// A hierarchy of boxes over curves in chain order: level 0 holds one box a curve, each node above covers four below.
/// Consecutive curves lie near each other, so nothing is sorted. It may be rebuilt over other curves; it keeps its memory.
/// Boxes are kept packed, see <see cref="PackedBox"/>.
/// </summary>
internal sealed partial class CurveIndex
{
    private const int Fan = 4;
    private const int MaxLevels = 17;

    // A node's number takes so many bits, its level the rest.
    private const int LevelShift = 26;
    private readonly int[] _levelStart = new int[MaxLevels];
    private readonly int[] _levelCount = new int[MaxLevels];
    private int _top;
    private Vector256<double>[] _boxes = [];
    private Curve[] _curves = [];
    private int _lastHit;

    public int Count { get; private set; }

    /// <summary>Indexes the first <paramref name="count"/> curves; every box is grown by <paramref name="margin"/>, mm.</summary>
    public void Build(Curve[] over, int count, double margin)
    {
        _curves = over;
        Count = count;
        _lastHit = 0;
        int need = NodeCount(count);
        if (_boxes.Length < need)
        {
            _boxes = new Vector256<double>[Math.Max(need, 2 * _boxes.Length)];
        }
        var grown = Vector256.Create(margin);
        Span<Vector256<double>> leaves = _boxes.AsSpan(0, count);
        for (int i = 0; i < leaves.Length; i++)
        {
            ref readonly Curve c = ref over[i];
            leaves[i] = (c.Turn == 0 ? Packed(c.A, c.B) : c.Packed()) - grown;
        }
        BuildUpperLevels(count);
    }

    /// <summary>The box around everything; only where Count &gt; 0.</summary>
    public Box2 Bounds => Unpacked(_boxes[_levelStart[_top]]);

    /// <summary>Adds every pair i &lt; j of curves whose boxes touch, i in the upper and j in the lower half of a long.</summary>
    public void TouchingPairs(List<long> pairs)
    {
        if (Count > 0)
        {
            PairsWithin(_top, 0, pairs);
        }
    }

    /// <summary>Adds every curve whose box touches the given one.</summary>
    public void Touching(in Box2 box, List<int> found)
    {
        if (Count > 0)
        {
            Touching(_top, 0, Packed(box), found);
        }
    }

    /// <summary>Adds every curve whose box comes nearer than a margin (mm) to the straight line from a to b.</summary>
    public void TouchingLine(Point2 a, Point2 b, double margin, List<int> found)
    {
        if (Count > 0)
        {
            Box2 box = new(Math.Min(a.X, b.X), Math.Min(a.Y, b.Y), Math.Max(a.X, b.X), Math.Max(a.Y, b.Y));
            TouchingLine(_top, 0, Packed(box), new Strip(a, b, margin), found);
        }
    }

    /// <summary>Adds to scan lines, as set 0, all curves that one may cross.</summary>
    public void AddCrossed(ScanLines lines)
    {
        if (Count > 0)
        {
            AddCrossed(_top, 0, lines);
        }
    }

    /// <summary>Winding number of the closed loops about a point that is not on them.</summary>
    public int Winding(Point2 p) =>
        Count == 0 ? 0 : Winding(_top, 0, p, Packed(new Box2(p.X, p.Y, double.PositiveInfinity, p.Y)));

    private static int NodeCount(int count)
    {
        int total = count;
        while (count > 1)
        {
            count = (count + Fan - 1) / Fan;
            total += count;
        }
        return total;
    }

    private void BuildUpperLevels(int count)
    {
        _top = 0;
        _levelStart[0] = 0;
        _levelCount[0] = count;
        while (count > 1)
        {
            int below = _levelStart[_top];
            int nodes = (count + Fan - 1) / Fan;
            int start = below + count;
            for (int i = 0; i < nodes; i++)
            {
                _boxes[start + i] = Around(below + (Fan * i), Math.Min(count - (Fan * i), Fan));
            }
            _top++;
            _levelStart[_top] = start;
            _levelCount[_top] = nodes;
            count = nodes;
        }
    }

    private Vector256<double> Around(int first, int count)
    {
        Vector256<double> box = _boxes[first];
        for (int i = first + 1; i < first + count; i++)
        {
            box = Vector256.Min(box, _boxes[i]);
        }
        return box;
    }

    private int ChildEnd(int level, int node) => Math.Min(_levelCount[level - 1], (Fan * node) + Fan);

    private void PairsWithin(int level, int node, List<long> pairs)
    {
        if (level == 0)
        {
            return;
        }
        int end = ChildEnd(level, node);
        for (int a = Fan * node; a < end; a++)
        {
            PairsWithin(level - 1, a, pairs);
            for (int b = a + 1; b < end; b++)
            {
                PairsBetween(level - 1, a, b, pairs);
            }
        }
    }

    private void PairsBetween(int level, int a, int b, List<long> pairs)
    {
        int start = _levelStart[level];
        if (!Touch(_boxes[start + a], _boxes[start + b]))
        {
            return;
        }
        if (level == 0)
        {
            pairs.Add(((long)a << 32) | (uint)b);
            return;
        }
        int endA = ChildEnd(level, a);
        int endB = ChildEnd(level, b);
        for (int i = Fan * a; i < endA; i++)
        {
            for (int j = Fan * b; j < endB; j++)
            {
                PairsBetween(level - 1, i, j, pairs);
            }
        }
    }

    private void Touching(int level, int node, Vector256<double> box, List<int> found)
    {
        if (!Touch(_boxes[_levelStart[level] + node], box))
        {
            return;
        }
        if (level == 0)
        {
            found.Add(node);
            return;
        }
        int end = ChildEnd(level, node);
        for (int i = Fan * node; i < end; i++)
        {
            Touching(level - 1, i, box, found);
        }
    }

    private void TouchingLine(int level, int node, Vector256<double> box, in Strip strip, List<int> found)
    {
        Vector256<double> own = _boxes[_levelStart[level] + node];
        if (!Touch(own, box) || !strip.Meets(Unpacked(own)))
        {
            return;
        }
        if (level == 0)
        {
            found.Add(node);
            return;
        }
        int end = ChildEnd(level, node);
        for (int i = Fan * node; i < end; i++)
        {
            TouchingLine(level - 1, i, box, strip, found);
        }
    }

    private void AddCrossed(int level, int node, ScanLines lines)
    {
        if (level == 0)
        {
            lines.Add(_curves[node], 0, node);
            return;
        }
        if (!lines.MayCross(_boxes[_levelStart[level] + node]))
        {
            return;
        }
        int end = ChildEnd(level, node);
        for (int i = Fan * node; i < end; i++)
        {
            AddCrossed(level - 1, i, lines);
        }
    }

    private int Winding(int level, int node, Point2 p, Vector256<double> ray)
    {
        if (!Touch(_boxes[_levelStart[level] + node], ray))
        {
            return 0;
        }
        if (level == 0)
        {
            return Ray.Turns(_curves[node], p);
        }
        int turns = 0;
        int end = ChildEnd(level, node);
        for (int i = Fan * node; i < end; i++)
        {
            turns += Winding(level - 1, i, p, ray);
        }
        return turns;
    }
}
