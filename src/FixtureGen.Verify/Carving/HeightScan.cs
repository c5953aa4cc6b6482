namespace FixtureGen.Verify.Carving;

/// <summary>Two grids of heights beside each other, tile by tile.</summary>
internal static class HeightScan
{
    /// <summary>The greatest high - low that is not over the limit (0 at least), and the cells beyond the limit in order.</summary>
    public static (float Small, List<int> Cells) Above(Heights low, Heights high, float limit)
    {
        float small = 0;
        List<int> beyond = [];
        Visit(
            low,
            tile =>
            {
                float d = high.Alike[tile] - low.Alike[tile];
                small = d <= limit ? Math.Max(small, d) : small;
                return !(d <= limit);
            },
            (row, from, to) =>
            {
                for (int i = from; i < to; i++)
                {
                    float d = high.At(row, i) - low.At(row, i);
                    if (d > limit)
                    {
                        beyond.Add((row * low.Columns) + i);
                    }
                    else if (d > small)
                    {
                        small = d;
                    }
                }
            }
        );
        return (small, beyond);
    }

    /// <summary>The cells, in order, where high - low lies between two figures, ends left out.</summary>
    public static List<int> Within(Heights low, Heights high, float from, float to)
    {
        List<int> within = [];
        Visit(
            low,
            tile =>
            {
                float d = high.Alike[tile] - low.Alike[tile];
                return !(d <= from || d >= to);
            },
            (row, first, end) =>
            {
                for (int i = first; i < end; i++)
                {
                    float left = high.At(row, i) - low.At(row, i);
                    if (left > from && left < to)
                    {
                        within.Add((row * low.Columns) + i);
                    }
                }
            }
        );
        return within;
    }

    /// <summary>The material between two faces, summed over all cells where top is above bottom, mm (times cells).</summary>
    public static double Between(Heights bottom, Heights top)
    {
        double sum = 0;
        Visit(
            bottom,
            tile =>
            {
                float d = top.Alike[tile] - bottom.Alike[tile];
                sum += float.IsNaN(d) ? 0 : Heights.Tile * Heights.Tile * (double)Math.Max(0, d);
                return float.IsNaN(d);
            },
            (row, from, to) =>
            {
                for (int i = from; i < to; i++)
                {
                    sum += Math.Max(0, top.At(row, i) - bottom.At(row, i));
                }
            }
        );
        return sum;
    }

    /// <summary>
    /// Asks of every tile whether its cells must be looked at one by one, which those that differ must; then shows these, and all
    /// cells that belong to no tile, by row, first column and end, in order.
    /// </summary>
    public static void Visit(Heights grid, Func<int, bool> opens, Action<int, int, int> see)
    {
        List<(int First, int End)> open = [];
        for (int row = 0; row < grid.Rows; row++)
        {
            if (row % Heights.Tile == 0)
            {
                open.Clear();
                for (int x = 0; x < grid.TileColumns; x++)
                {
                    if (opens(grid.TileAt(row) + x))
                    {
                        Join(open, x * Heights.Tile, (x + 1) * Heights.Tile);
                    }
                }
                Join(open, grid.TileColumns * Heights.Tile, grid.Columns);
            }
            foreach ((int first, int end) in open)
            {
                see(row, first, end);
            }
        }
    }

    private static void Join(List<(int First, int End)> open, int first, int end)
    {
        if (open.Count > 0 && open[^1].End == first)
        {
            open[^1] = (open[^1].First, end);
        }
        else
        {
            open.Add((first, end));
        }
    }
}
