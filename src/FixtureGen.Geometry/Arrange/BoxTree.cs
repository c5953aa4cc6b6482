using System.Runtime.Intrinsics;
using static FixtureGen.Geometry.PackedBox;

namespace FixtureGen.Geometry;

/// <summary>
/// A hierarchy over boxes, four to a node. Boxes come in an order in which neighbours lie near each other, or are brought
/// into one along a space-filling curve (Morton 1966). Keeps its memory from one build to the next.
/// </summary>
internal sealed class BoxTree
{
    private const int Fan = 4;
    private const int MaxLevels = 17;
    private readonly int[] _levelStart = new int[MaxLevels];
    private readonly int[] _levelCount = new int[MaxLevels];
    private Vector256<double>[] _boxes = [];
    private int[] _item = [];
    private ulong[] _keys = [];
    private int _top;

    public int Count { get; private set; }

    /// <summary>Builds the tree over the given boxes, packed; <paramref name="sorted"/> when their order is a good one.</summary>
    public void Build(ReadOnlySpan<Vector256<double>> leaves, bool sorted)
    {
        Count = leaves.Length;
        int need = NodeCount(Count);
        Growing.Reserve(ref _boxes, need);
        Growing.Reserve(ref _item, Count);
        for (int i = 0; i < Count; i++)
        {
            _item[i] = i;
        }
        if (!sorted)
        {
            SortAlongCurve(leaves);
        }
        for (int i = 0; i < Count; i++)
        {
            _boxes[i] = leaves[_item[i]];
        }
        BuildUpperLevels();
    }

    /// <summary>Adds every pair of different boxes that touch, the lower one's number in the upper half of a long.</summary>
    public void TouchingPairs(List<long> pairs)
    {
        if (Count > 1)
        {
            Within(_top, 0, pairs);
        }
    }

    /// <summary>Adds the number of every box that touches the given one.</summary>
    public void Touching(Vector256<double> box, List<int> found)
    {
        if (Count > 0)
        {
            Touching(_top, 0, box, found);
        }
    }

    /// <summary>Adds the number of every box that some line comes into.</summary>
    public void Crossed(ScanLines lines, List<int> found)
    {
        if (Count > 0)
        {
            Crossed(_top, 0, lines, found);
        }
    }

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

    private void SortAlongCurve(ReadOnlySpan<Vector256<double>> leaves)
    {
        Growing.Reserve(ref _keys, Count);
        Vector256<double> all = leaves[0];
        foreach (Vector256<double> b in leaves)
        {
            all = Vector256.Min(all, b);
        }
        double width = -all[2] - all[0];
        double height = -all[3] - all[1];
        double kx = width > 0 ? ushort.MaxValue / width : 0;
        double ky = height > 0 ? ushort.MaxValue / height : 0;
        for (int i = 0; i < Count; i++)
        {
            Vector256<double> b = leaves[i];
            double x = (((b[0] - b[2]) / 2) - all[0]) * kx;
            double y = (((b[1] - b[3]) / 2) - all[1]) * ky;
            _keys[i] = Spread((uint)x) | (Spread((uint)y) << 1);
        }
        Array.Sort(_keys, _item, 0, Count);
    }

    private static ulong Spread(uint v)
    {
        ulong x = v & 0xffff;
        x = (x | (x << 8)) & 0x00ff00ff;
        x = (x | (x << 4)) & 0x0f0f0f0f;
        x = (x | (x << 2)) & 0x33333333;
        return (x | (x << 1)) & 0x55555555;
    }

    private void BuildUpperLevels()
    {
        int count = Count;
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
                int first = below + (Fan * i);
                int end = Math.Min(below + count, first + Fan);
                Vector256<double> box = _boxes[first];
                for (int k = first + 1; k < end; k++)
                {
                    box = Vector256.Min(box, _boxes[k]);
                }
                _boxes[start + i] = box;
            }
            _top++;
            _levelStart[_top] = start;
            _levelCount[_top] = nodes;
            count = nodes;
        }
    }

    private int ChildEnd(int level, int node) => Math.Min(_levelCount[level - 1], (Fan * node) + Fan);

    private void Within(int level, int node, List<long> pairs)
    {
        if (level == 0)
        {
            return;
        }
        int end = ChildEnd(level, node);
        for (int a = Fan * node; a < end; a++)
        {
            Within(level - 1, a, pairs);
            for (int b = a + 1; b < end; b++)
            {
                Between(level - 1, a, b, pairs);
            }
        }
    }

    private void Between(int level, int a, int b, List<long> pairs)
    {
        int start = _levelStart[level];
        if (!Touch(_boxes[start + a], _boxes[start + b]))
        {
            return;
        }
        if (level == 0)
        {
            long i = _item[a];
            long j = _item[b];
            pairs.Add(i < j ? (i << 32) | j : (j << 32) | i);
            return;
        }
        // The smaller side is opened against the whole of the other: what lies clear of it is never looked at.
        int below = _levelStart[level - 1];
        int endA = ChildEnd(level, a);
        int endB = ChildEnd(level, b);
        Vector256<double> other = _boxes[start + b];
        for (int i = Fan * a; i < endA; i++)
        {
            if (!Touch(_boxes[below + i], other))
            {
                continue;
            }
            for (int j = Fan * b; j < endB; j++)
            {
                Between(level - 1, i, j, pairs);
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
            found.Add(_item[node]);
            return;
        }
        int end = ChildEnd(level, node);
        for (int i = Fan * node; i < end; i++)
        {
            Touching(level - 1, i, box, found);
        }
    }

    private void Crossed(int level, int node, ScanLines lines, List<int> found)
    {
        if (!lines.MayCross(_boxes[_levelStart[level] + node]))
        {
            return;
        }
        if (level == 0)
        {
            found.Add(_item[node]);
            return;
        }
        int end = ChildEnd(level, node);
        for (int i = Fan * node; i < end; i++)
        {
            Crossed(level - 1, i, lines, found);
        }
    }
}
