namespace FixtureGen.Geometry;

/// <summary>
/// As few levels as stab all of a set of intervals: in order of their upper ends, a new level is needed only where an interval
/// begins above the last one.
/// </summary>
internal sealed class Stabs
{
    private const int Few = 32;

    private double[] _lows = [];
    private double[] _highs = [];
    private int _count;

    public void Clear() => _count = 0;

    /// <summary>An interval, low &lt; high.</summary>
    public void Add(double low, double high)
    {
        if (_lows.Length == _count)
        {
            int size = Math.Max(64, 2 * _count);
            Array.Resize(ref _lows, size);
            Array.Resize(ref _highs, size);
        }
        _lows[_count] = low;
        _highs[_count++] = high;
    }

    /// <summary>Writes the ranges, from low to high, anywhere in which a level stabs all intervals that it stands for.</summary>
    public void Choose(List<(double Low, double High)> ranges)
    {
        ranges.Clear();
        Sort();
        for (int i = 0; i < _count; )
        {
            double low = _lows[i];
            double high = _highs[i];
            for (i++; i < _count && _lows[i] < low + (0.75 * (high - low)); i++)
            {
                low = Math.Max(low, _lows[i]);
            }
            ranges.Add((low, high));
        }
    }

    /// <summary>Writes every interval by itself.</summary>
    public void Each(List<(double Low, double High)> ranges)
    {
        ranges.Clear();
        for (int i = 0; i < _count; i++)
        {
            ranges.Add((_lows[i], _highs[i]));
        }
    }

    /// <summary>By insertion where few: a handful is in order before the library's sort has begun.</summary>
    private void Sort()
    {
        if (_count > Few)
        {
            Array.Sort(_highs, _lows, 0, _count);
            return;
        }
        for (int i = 1; i < _count; i++)
        {
            double high = _highs[i];
            double low = _lows[i];
            int j = i - 1;
            for (; j >= 0 && _highs[j] > high; j--)
            {
                _highs[j + 1] = _highs[j];
                _lows[j + 1] = _lows[j];
            }
            _highs[j + 1] = high;
            _lows[j + 1] = low;
        }
    }
}
