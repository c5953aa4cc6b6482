using System.Runtime.CompilerServices;

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

    /// <summary>Takes curves that were written behind the last one.</summary>
    public void Take(int more) => Count += more;

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
