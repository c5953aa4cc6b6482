namespace FixtureGen.Verify.Carving;

/// <summary>Two grids of heights beside each other, run by run.</summary>
internal static class HeightScan
{
    /// <summary>The greatest high - low that is not over the limit (0 at least), and the cells beyond the limit in order.</summary>
    public static (float Small, List<int> Cells) Above(Heights low, Heights high, float limit)
    {
        float small = 0;
        List<int> beyond = [];
        Span<float> lows = low.Alike;
        Span<float> highs = high.Alike;
        for (int run = 0; run < lows.Length; run++)
        {
            float d = highs[run] - lows[run];
            if (d <= limit)
            {
                small = Math.Max(small, d);
                continue;
            }
            for (int i = run * Heights.Run; i < (run + 1) * Heights.Run; i++)
            {
                See(i);
            }
        }
        for (int i = lows.Length * Heights.Run; i < low.Count; i++)
        {
            See(i);
        }
        return (small, beyond);

        void See(int cell)
        {
            float d = high.At(cell) - low.At(cell);
            if (d > limit)
            {
                beyond.Add(cell);
            }
            else if (d > small)
            {
                small = d;
            }
        }
    }

    /// <summary>The cells, in order, where high - low lies between two figures, ends left out.</summary>
    public static List<int> Within(Heights low, Heights high, float from, float to)
    {
        List<int> within = [];
        Span<float> lows = low.Alike;
        Span<float> highs = high.Alike;
        for (int run = 0; run <= lows.Length; run++)
        {
            float d = run < lows.Length ? highs[run] - lows[run] : Heights.Differ;
            if (d <= from || d >= to)
            {
                continue;
            }
            for (int i = run * Heights.Run; i < Math.Min(low.Count, (run + 1) * Heights.Run); i++)
            {
                float left = high.At(i) - low.At(i);
                if (left > from && left < to)
                {
                    within.Add(i);
                }
            }
        }
        return within;
    }

    /// <summary>The material between two faces, summed over all cells where top is above bottom, mm (times cells).</summary>
    public static double Between(Heights bottom, Heights top)
    {
        double sum = 0;
        Span<float> tops = top.Alike;
        Span<float> bottoms = bottom.Alike;
        for (int run = 0; run < tops.Length; run++)
        {
            float d = tops[run] - bottoms[run];
            sum += float.IsNaN(d)
                ? Cells(bottom, top, run * Heights.Run, (run + 1) * Heights.Run)
                : Heights.Run * (double)Math.Max(0, d);
        }
        return sum + Cells(bottom, top, tops.Length * Heights.Run, top.Count);
    }

    private static double Cells(Heights bottom, Heights top, int from, int to)
    {
        double sum = 0;
        for (int i = from; i < to; i++)
        {
            sum += Math.Max(0, top.At(i) - bottom.At(i));
        }
        return sum;
    }
}
