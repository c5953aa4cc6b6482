namespace FixtureGen.Geometry;

/// <summary>
/// As few levels as stab all of a set of intervals: in order of their upper ends, a new level is needed only where an interval
/// begins above the last one.
/// </summary>
internal sealed class Stabs
{
    private double[] lows = [];
    private double[] highs = [];
    private int count;

    public void Clear() => count = 0;

    /// <summary>An interval, low &lt; high.</summary>
    public void Add(double low, double high)
    {
        if (lows.Length == count)
        {
            int size = Math.Max(64, 2 * count);
            Array.Resize(ref lows, size);
            Array.Resize(ref highs, size);
        }
        lows[count] = low;
        highs[count++] = high;
    }

    /// <summary>Writes the ranges, from low to high, anywhere in which a level stabs all intervals that it stands for.</summary>
    public void Choose(List<(double Low, double High)> ranges)
    {
        ranges.Clear();
        Array.Sort(highs, lows, 0, count);
        for (int i = 0; i < count; )
        {
            double low = lows[i];
            double high = highs[i];
            for (i++; i < count && lows[i] < low + (0.75 * (high - low)); i++)
            {
                low = Math.Max(low, lows[i]);
            }
            ranges.Add((low, high));
        }
    }
}
