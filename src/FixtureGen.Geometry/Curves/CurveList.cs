using System.Runtime.CompilerServices;

namespace FixtureGen.Geometry;

/// <summary>A growing array of curves that is written in place: curves are large, and copying them is what costs.</summary>
internal sealed class CurveList
{
    private Curve[] _items = [];

    public int Count { get; private set; }

    /// <summary>The memory behind the list; only the first Count curves mean anything.</summary>
    public Curve[] Items => _items;

    public Span<Curve> Span => _items.AsSpan(0, Count);

    public void Clear() => Count = 0;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public ref Curve Add(in Curve c)
    {
        if (Count == _items.Length)
        {
            Array.Resize(ref _items, Math.Max(64, 2 * Count));
        }
        ref Curve slot = ref _items[Count++];
        slot = c;
        return ref slot;
    }

    /// <summary>Takes curves that were written behind the last one.</summary>
    public void Take(int more) => Count += more;

    public void AddRange(ReadOnlySpan<Curve> more)
    {
        Reserve(Count + more.Length);
        more.CopyTo(_items.AsSpan(Count));
        Count += more.Length;
    }

    public void Reserve(int size)
    {
        if (_items.Length < size)
        {
            Array.Resize(ref _items, Math.Max(Math.Max(64, size), 2 * _items.Length));
        }
    }
}
