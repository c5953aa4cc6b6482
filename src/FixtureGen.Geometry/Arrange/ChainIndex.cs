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

    private readonly BoxTree _tree = new();
    private readonly List<long> _chainPairs = [];
    private readonly List<int> _chainsFound = [];
    private CurveList _curves = null!;
    private Vector256<double> _margin;
    private Vector256<double>[] _curveBoxes = [];
    private bool[] _isOpen = [];
    private bool[] _linked = [];
    private Vector256<double>[] _chainBoxes = [];
    private int[] _chainStarts = [];
    private int _chains;

    /// <summary>Curves whose ends are no farther apart than the snapping distance.</summary>
    public List<int> Short { get; } = [];

    public void Build(CurveTable table, double near, bool sorted)
    {
        CurveList over = table.List;
        _curves = over;
        _margin = Vector256.Create(near);
        int count = over.Count;
        Growing.Reserve(ref _chainBoxes, count);
        Growing.Reserve(ref _chainStarts, count + 1);
        Growing.Reserve(ref _linked, count);
        Short.Clear();
        GatherChains(table, near);
        _chainStarts[_chains] = count;
        Growing.Reserve(ref _curveBoxes, count);
        Growing.Reserve(ref _isOpen, _chains);
        Array.Clear(_isOpen, 0, _chains);
        for (int chain = 0; chain < _chains; chain++)
        {
            int first = _chainStarts[chain];
            int last = _chainStarts[chain + 1] - 1;
            ref readonly Curve c = ref over.Items[first];
            // A chain of several curves lies in the box between its ends.
            _chainBoxes[chain] = (last > first ? Packed(c.A, over.Items[last].B) : c.Packed()) - _margin;
        }
        _tree.Build(_chainBoxes.AsSpan(0, _chains), sorted);
    }

    private void GatherChains(CurveTable table, double near)
    {
        _chains = 0;
        int count = table.Count;
        ReadOnlySpan<Curve> span = table.List.Span;
        ReadOnlySpan<byte> ways = table.Ways.AsSpan(0, count);
        ReadOnlySpan<int> startIds = table.StartIds.AsSpan(0, count);
        ReadOnlySpan<int> endIds = table.EndIds.AsSpan(0, count);
        int gathered = Heading.Unsteady;
        int first = 0;
        for (int i = 0; i < count; i++)
        {
            int way = ways[i];
            if (way >= Heading.Unsteady || near >= Heading.Long)
            {
                way = SteadyWay(span[i], i, near);
            }
            bool follows = i > 0 && endIds[i - 1] == startIds[i];
            int together = gathered | way;
            if (follows && together < Heading.Unsteady && i - first < MostInChain && Heading.IsOneQuadrant(together))
            {
                gathered = together;
                continue;
            }
            _linked[_chains] = follows;
            _chainStarts[_chains++] = i;
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
            return Heading.Unsteady;
        }
        return c.Turn == 0 || c.StaysInOneQuadrant() ? Heading.From(c.A, c.B) & ~Heading.Unsteady : Heading.Unsteady;
    }

    /// <summary>Adds all curves of every chain that one of the lines may cross.</summary>
    public void AddCrossed(int countA, ScanLines lines)
    {
        _chainsFound.Clear();
        _tree.Crossed(lines, _chainsFound);
        foreach (int chain in _chainsFound)
        {
            int first = _chainStarts[chain];
            lines.AddChain(_curves.Items.AsSpan(first.._chainStarts[chain + 1]), first < countA ? 0 : 1, first);
        }
    }

    /// <summary>Adds every pair of curves of different chains whose boxes touch, the lower in the upper half of a long.</summary>
    public void TouchingPairs(List<long> pairs)
    {
        _chainPairs.Clear();
        _tree.TouchingPairs(_chainPairs);
        foreach (long pair in CollectionsMarshal.AsSpan(_chainPairs))
        {
            Expand((int)(pair >> 32), (int)(pair & 0xffffffff), pairs);
        }
    }

    /// <summary>Adds every curve whose box touches the given one.</summary>
    public void Touching(Vector256<double> box, List<int> found)
    {
        _chainsFound.Clear();
        _tree.Touching(box, _chainsFound);
        foreach (int chain in _chainsFound)
        {
            Open(chain);
            for (int i = _chainStarts[chain]; i < _chainStarts[chain + 1]; i++)
            {
                if (Touch(_curveBoxes[i], box))
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
            pairs.Add(((long)_chainStarts[a] << 32) | (uint)_chainStarts[b]);
            return;
        }
        if (b == a + 1 && _linked[b])
        {
            ExpandNeighbours(a, b, pairs);
            return;
        }
        Open(a);
        Open(b);
        Vector256<double> whole = _chainBoxes[b];
        ReadOnlySpan<Vector256<double>> boxesA = _curveBoxes.AsSpan(_chainStarts[a].._chainStarts[a + 1]);
        ReadOnlySpan<Vector256<double>> boxesB = _curveBoxes.AsSpan(_chainStarts[b].._chainStarts[b + 1]);
        for (int i = 0; i < boxesA.Length; i++)
        {
            if (!Touch(boxesA[i], whole))
            {
                continue;
            }
            long upper = (long)(_chainStarts[a] + i) << 32;
            for (int j = 0; j < boxesB.Length; j++)
            {
                if (Touch(boxesA[i], boxesB[j]))
                {
                    pairs.Add(upper | (uint)(_chainStarts[b] + j));
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
        int from = _chainStarts[b] - 1;
        while (from > _chainStarts[a] && Touch(_curves.Items[from - 1].Packed() - _margin, _chainBoxes[b]))
        {
            from--;
        }
        for (int i = from; i < _chainStarts[b]; i++)
        {
            Vector256<double> box = _curves.Items[i].Packed() - _margin;
            bool touched = false;
            for (int j = _chainStarts[b]; j < _chainStarts[b + 1]; j++)
            {
                if (Touch(box, _curves.Items[j].Packed() - _margin))
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
        if (_isOpen[chain])
        {
            return;
        }
        _isOpen[chain] = true;
        if (IsOne(chain))
        {
            _curveBoxes[_chainStarts[chain]] = _chainBoxes[chain];
            return;
        }
        for (int i = _chainStarts[chain]; i < _chainStarts[chain + 1]; i++)
        {
            _curveBoxes[i] = _curves.Items[i].Packed() - _margin;
        }
    }

    private bool IsOne(int chain) => _chainStarts[chain + 1] - _chainStarts[chain] == 1;
}
