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
}
