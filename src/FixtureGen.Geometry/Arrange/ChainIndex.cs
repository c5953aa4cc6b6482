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
    private const int MostInChain = 12;

    private readonly BoxTree tree = new();
    private readonly List<long> chainPairs = [];
    private readonly List<int> chainsFound = [];
    private Vector256<double>[] curveBoxes = [];
    private Vector256<double>[] chainBoxes = [];
    private int[] chainStarts = [];
    private int chains;

    /// <summary>Curves whose ends are no farther apart than the snapping distance.</summary>
    public List<int> Short { get; } = [];

    public void Build(CurveList curves, int[] startIds, int[] endIds, double near, bool sorted)
    {
        int count = curves.Count;
        Growing.Reserve(ref curveBoxes, count);
        Growing.Reserve(ref chainBoxes, count);
        Growing.Reserve(ref chainStarts, count + 1);
        chains = 0;
        Short.Clear();
        var margin = Vector256.Create(near);
        int signX = 0;
        int signY = 0;
        for (int i = 0; i < count; i++)
        {
            ref readonly Curve c = ref curves.Items[i];
            Vector256<double> box = Packed(c.Box()) - margin;
            curveBoxes[i] = box;
            int x = Math.Sign(c.B.X - c.A.X);
            int y = Math.Sign(c.B.Y - c.A.Y);
            bool isShort = c.Chord2 <= near * near;
            if (isShort)
            {
                Short.Add(i);
            }
            bool steady = !isShort && (c.Turn == 0 || c.StaysInOneQuadrant());
            bool goesOn =
                steady
                && i > 0
                && signX != 2
                && endIds[i - 1] == startIds[i]
                && i - chainStarts[chains - 1] < MostInChain
                && x * signX >= 0
                && y * signY >= 0;
            if (goesOn)
            {
                chainBoxes[chains - 1] = Vector256.Min(chainBoxes[chains - 1], box);
                signX = signX == 0 ? x : signX;
                signY = signY == 0 ? y : signY;
                continue;
            }
            chainStarts[chains] = i;
            chainBoxes[chains++] = box;
            (signX, signY) = steady ? (x, y) : (2, 2);
        }
        chainStarts[chains] = count;
        tree.Build(chainBoxes.AsSpan(0, chains), sorted);
    }

    /// <summary>Adds all curves of every chain that one of the lines may cross.</summary>
    public void AddCrossed(CurveList curves, int countA, ScanLines lines)
    {
        for (int chain = 0; chain < chains; chain++)
        {
            if (!lines.MayCross(Unpacked(chainBoxes[chain])))
            {
                continue;
            }
            for (int i = chainStarts[chain]; i < chainStarts[chain + 1]; i++)
            {
                lines.Add(curves.Items[i], i < countA ? 0 : 1);
            }
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
        int endB = chainStarts[b + 1];
        for (int i = chainStarts[a]; i < chainStarts[a + 1]; i++)
        {
            Vector256<double> box = curveBoxes[i];
            if (!Touch(box, chainBoxes[b]))
            {
                continue;
            }
            for (int j = chainStarts[b]; j < endB; j++)
            {
                if (Touch(box, curveBoxes[j]))
                {
                    pairs.Add(((long)i << 32) | (uint)j);
                }
            }
        }
    }
}
