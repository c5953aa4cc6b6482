using System.Runtime.Intrinsics;

namespace FixtureGen.Geometry;

/// <summary>Arrays that keep their memory from work to work.</summary>
internal static class Growing
{
    /// <summary>Makes room for <paramref name="size"/> items; what the array held is lost where it had to grow.</summary>
    public static void Reserve<T>(ref T[] items, int size)
    {
        if (items.Length < size)
        {
            items = new T[Math.Max(size, 2 * items.Length)];
        }
    }

    /// <summary>Makes room for one item more at the end; what is there stays.</summary>
    public static void Append<T>(ref T[] items, ref int count, in T item)
    {
        if (items.Length == count)
        {
            Array.Resize(ref items, Math.Max(64, 2 * count));
        }
        items[count++] = item;
    }

    /// <summary>Writes the numbers from a first one on.</summary>
    public static void Number(Span<int> items, int first)
    {
        int i = 0;
        Vector256<int> next = Vector256.Create(first) + Vector256<int>.Indices;
        for (; i + Vector256<int>.Count <= items.Length; i += Vector256<int>.Count)
        {
            next.CopyTo(items[i..]);
            next += Vector256.Create(Vector256<int>.Count);
        }
        for (; i < items.Length; i++)
        {
            items[i] = first + i;
        }
    }
}
