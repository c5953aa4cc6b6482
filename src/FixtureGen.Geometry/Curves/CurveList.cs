using System.Runtime.CompilerServices;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>A growing array of curves that is written in place: curves are large, and copying them is what costs.</summary>
internal sealed class CurveList
{
    private Curve[] items = [];

    public int Count { get; private set; }

    /// <summary>The memory behind the list; only the first Count curves mean anything.</summary>
    public Curve[] Items => items;

    public Span<Curve> Span => items.AsSpan(0, Count);

    public void Clear() => Count = 0;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public ref Curve Add(in Curve c)
    {
        if (Count == items.Length)
        {
            Array.Resize(ref items, Math.Max(64, 2 * Count));
        }
        ref Curve slot = ref items[Count++];
        slot = c;
        return ref slot;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void AddLine(Point2 a, Point2 b)
    {
        if (Count == items.Length)
        {
            Reserve(Count + 1);
        }
        ref Curve slot = ref items[Count++];
        slot.A = a;
        slot.B = b;
        slot.C = default;
        slot.R = 0;
        slot.Turn = 0;
    }

    public void AddRange(ReadOnlySpan<Curve> more)
    {
        Reserve(Count + more.Length);
        more.CopyTo(items.AsSpan(Count));
        Count += more.Length;
    }

    public void Reserve(int size)
    {
        if (items.Length < size)
        {
            Array.Resize(ref items, Math.Max(Math.Max(64, size), 2 * items.Length));
        }
    }
}
