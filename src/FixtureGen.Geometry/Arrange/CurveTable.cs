using System.Runtime.CompilerServices;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>Curves with the numbers of the points they run between and of the curve they came from.</summary>
internal sealed class CurveTable
{
    private int[] startIds = [];
    private int[] endIds = [];
    private int[] origins = [];
    private int[] parents = [];

    public CurveList List { get; } = new();

    public int Count => List.Count;

    public Curve[] Items => List.Items;

    public int[] StartIds => startIds;

    public int[] EndIds => endIds;

    /// <summary>The curve, in the caller's counting, that each one is a part of.</summary>
    public int[] Origins => origins;

    /// <summary>The curve of the round before that each one is a part of.</summary>
    public int[] Parents => parents;

    public void Clear() => List.Clear();

    /// <summary>Adds curves of the round before that stay as they are.</summary>
    public void AddRange(CurveTable from, int first, int end)
    {
        int at = List.Count;
        int length = end - first;
        List.AddRange(from.Items.AsSpan(first, length));
        MakeRoom();
        Array.Copy(from.startIds, first, startIds, at, length);
        Array.Copy(from.endIds, first, endIds, at, length);
        Array.Copy(from.origins, first, origins, at, length);
        for (int i = 0; i < length; i++)
        {
            parents[at + i] = first + i;
        }
    }

    public void Add(in Curve c, int start, int end, int origin, int parent)
    {
        int i = List.Count;
        List.Add(c);
        MakeRoom();
        startIds[i] = start;
        endIds[i] = end;
        origins[i] = origin;
        parents[i] = parent;
    }

    /// <summary>Makes room for so many curves more.</summary>
    public void Reserve(int more)
    {
        List.Reserve(List.Count + more);
        MakeRoom();
    }

    /// <summary>Adds a line that nothing was cut from yet.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void AddLine(Point2 a, Point2 b, int start, int end)
    {
        int i = List.Count;
        List.AddLine(a, b);
        MakeRoom();
        startIds[i] = start;
        endIds[i] = end;
        origins[i] = i;
        parents[i] = i;
    }

    private void MakeRoom()
    {
        if (startIds.Length < List.Count)
        {
            Grow();
        }
    }

    private void Grow()
    {
        int size = List.Items.Length;
        Array.Resize(ref startIds, size);
        Array.Resize(ref endIds, size);
        Array.Resize(ref origins, size);
        Array.Resize(ref parents, size);
    }
}
