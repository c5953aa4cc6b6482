using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using static FixtureGen.Geometry.PackedBox;

namespace FixtureGen.Geometry;

/// <summary>
/// Curves gathered into chains that run on into one quadrant, so that no two curves of a chain can meet but where one follows
/// the other; a tree of boxes over the chains. Every box is grown by the snapping distance.
/// </summary>
internal sealed class ChainIndex
{
    // Longer chains make fewer but larger boxes.
    private const int MostInChain = 32;

    private readonly BoxTree tree = new();
    private readonly List<long> chainPairs = [];
    private readonly List<int> chainsFound = [];
    private CurveList curves = null!;
    private Vector256<double> margin;
    private Vector256<double>[] curveBoxes = [];
    private bool[] isOpen = [];
    private bool[] linked = [];
    private Vector256<double>[] chainBoxes = [];
    private int[] chainStarts = [];
    private int chains;

    /// <summary>Curves whose ends are no farther apart than the snapping distance.</summary>
    public List<int> Short { get; } = [];

    /// <summary>The packed box around everything.</summary>
    public Vector256<double> Bounds => tree.Bounds;

    public void Build(CurveTable table, double near, bool sorted)
    {
        CurveList over = table.List;
        curves = over;
        margin = Vector256.Create(near);
        int count = over.Count;
        Growing.Reserve(ref chainBoxes, count);
        Growing.Reserve(ref chainStarts, count + 1);
        Growing.Reserve(ref linked, count);
        Short.Clear();
        GatherChains(table, near);
        chainStarts[chains] = count;
        Growing.Reserve(ref curveBoxes, count);
        Growing.Reserve(ref isOpen, chains);
        Array.Clear(isOpen, 0, chains);
        for (int chain = 0; chain < chains; chain++)
        {
            int first = chainStarts[chain];
            int last = chainStarts[chain + 1] - 1;
            ref readonly Curve c = ref over.Items[first];
            // A chain of several curves lies in the box between its ends.
            chainBoxes[chain] = (last > first ? Packed(c.A, over.Items[last].B) : c.Packed()) - margin;
        }
        tree.Build(chainBoxes.AsSpan(0, chains), sorted);
    }

    private void GatherChains(CurveTable table, double near)
    {
        chains = 0;
        int count = table.Count;
        ReadOnlySpan<Curve> span = table.List.Span;
        ReadOnlySpan<byte> ways = table.Ways.AsSpan(0, count);
        ReadOnlySpan<int> startIds = table.StartIds.AsSpan(0, count);
        ReadOnlySpan<int> endIds = table.EndIds.AsSpan(0, count);
        int gathered = Way.Unsteady;
        int first = 0;
        for (int i = 0; i < count; i++)
        {
            int way = ways[i];
            if (way >= Way.Unsteady || near >= Way.Long)
            {
                way = SteadyWay(span[i], i, near);
            }
            bool follows = i > 0 && endIds[i - 1] == startIds[i];
            int together = gathered | way;
            if (follows && together < Way.Unsteady && i - first < MostInChain && Way.IsOneQuadrant(together))
            {
                gathered = together;
                continue;
            }
            linked[chains] = follows;
            chainStarts[chains++] = i;
            first = i;
            gathered = way;
        }
    }

    /// <summary>The way of a curve that runs on into one quadrant and is not short.</summary>
    private int SteadyWay(in Curve c, int i, double near)
    {
        if (c.Chord2 <= near * near)
        {
            Short.Add(i);
            return Way.Unsteady;
        }
        return c.Turn == 0 || c.StaysInOneQuadrant() ? Way.From(c.A, c.B) & ~Way.Unsteady : Way.Unsteady;
    }

    /// <summary>Adds all curves of every chain that one of the lines may cross.</summary>
    public void AddCrossed(int countA, ScanLines lines)
    {
        chainsFound.Clear();
        tree.Crossed(lines, chainsFound);
        foreach (int chain in chainsFound)
        {
            int first = chainStarts[chain];
            lines.AddChain(curves.Items.AsSpan(first..chainStarts[chain + 1]), first < countA ? 0 : 1, first);
        }
    }

    /// <summary>Adds every pair of curves of different chains whose boxes touch, the lower in the upper half of a long.</summary>
    public void TouchingPairs(List<long> pairs)
    {
        chainPairs.Clear();
        tree.TouchingPairs(chainPairs);
        foreach (long pair in CollectionsMarshal.AsSpan(chainPairs))
        {
            Expand((int)(pair >> 32), (int)(pair & 0xffffffff), pairs);
        }
    }

    /// <summary>Adds every curve whose box touches the given one.</summary>
    public void Touching(Vector256<double> box, List<int> found)
    {
        chainsFound.Clear();
        tree.Touching(box, chainsFound);
        foreach (int chain in chainsFound)
        {
            Open(chain);
            for (int i = chainStarts[chain]; i < chainStarts[chain + 1]; i++)
            {
                if (Touch(curveBoxes[i], box))
                {
                    found.Add(i);
                }
            }
        }
    }

    private void Expand(int a, int b, List<long> pairs)
    {
        if (IsOne(a) && IsOne(b))
        {
            // The boxes of the chains, which touch, are those of the curves.
            pairs.Add(((long)chainStarts[a] << 32) | (uint)chainStarts[b]);
            return;
        }
        if (b == a + 1 && linked[b])
        {
            ExpandNeighbours(a, b, pairs);
            return;
        }
        Open(a);
        Open(b);
        Vector256<double> whole = chainBoxes[b];
        ReadOnlySpan<Vector256<double>> boxesA = curveBoxes.AsSpan(chainStarts[a]..chainStarts[a + 1]);
        ReadOnlySpan<Vector256<double>> boxesB = curveBoxes.AsSpan(chainStarts[b]..chainStarts[b + 1]);
        for (int i = 0; i < boxesA.Length; i++)
        {
            if (!Touch(boxesA[i], whole))
            {
                continue;
            }
            long upper = (long)(chainStarts[a] + i) << 32;
            for (int j = 0; j < boxesB.Length; j++)
            {
                if (Touch(boxesA[i], boxesB[j]))
                {
                    pairs.Add(upper | (uint)(chainStarts[b] + j));
                }
            }
        }
    }

    /// <summary>
    /// Two chains of which the second goes on where the first ends. What of a chain comes into a box is one stretch, because it
    /// runs on into one quadrant, and here it is the one at the point that both share.
    /// </summary>
    private void ExpandNeighbours(int a, int b, List<long> pairs)
    {
        int from = chainStarts[b] - 1;
        while (from > chainStarts[a] && Touch(curves.Items[from - 1].Packed() - margin, chainBoxes[b]))
        {
            from--;
        }
        for (int i = from; i < chainStarts[b]; i++)
        {
            Vector256<double> box = curves.Items[i].Packed() - margin;
            bool touched = false;
            for (int j = chainStarts[b]; j < chainStarts[b + 1]; j++)
            {
                if (Touch(box, curves.Items[j].Packed() - margin))
                {
                    pairs.Add(((long)i << 32) | (uint)j);
                    touched = true;
                }
                else if (touched)
                {
                    break;
                }
            }
        }
    }

    /// <summary>Most chains meet nothing but the next one: the boxes of their curves are made when they are asked for.</summary>
    private void Open(int chain)
    {
        if (isOpen[chain])
        {
            return;
        }
        isOpen[chain] = true;
        if (IsOne(chain))
        {
            curveBoxes[chainStarts[chain]] = chainBoxes[chain];
            return;
        }
        for (int i = chainStarts[chain]; i < chainStarts[chain + 1]; i++)
        {
            curveBoxes[i] = curves.Items[i].Packed() - margin;
        }
    }

    private bool IsOne(int chain) => chainStarts[chain + 1] - chainStarts[chain] == 1;
}
