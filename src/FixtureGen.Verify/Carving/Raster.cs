using FixtureGen.Model;
using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Carving;

/// <summary>Finds, row by row, the cells whose centre lies in an area.</summary>
internal static class Raster
{
    /// <summary>The runs of cells whose centres lie inside; the n-th run of every row is in the n-th strip.</summary>
    public static Strips Of(Area area, BlockGrid grid)
    {
        Strips strips = new(grid.Columns);
        int first = Math.Max(0, (int)Math.Ceiling(((area.Bounds.MinY - grid.Box.MinY) / grid.Cell) - 0.5));
        int last = Math.Min(grid.Rows - 1, (int)Math.Floor(((area.Bounds.MaxY - grid.Box.MinY) / grid.Cell) - 0.5));
        if (last < first)
        {
            return strips;
        }
        (int[] from, double[] crossings) = Crossings(area, grid, first, last);
        List<int> taken = [];
        for (int row = first; row <= last; row++)
        {
            int begin = from[row - first];
            Span<double> x = crossings.AsSpan(begin, from[row - first + 1] - begin);
            x.Sort();
            for (int run = 0; (2 * run) + 1 < x.Length; run++)
            {
                if (run == taken.Count)
                {
                    taken.Add(strips.AddEmpty(first, last));
                }
                double left = ((x[2 * run] - grid.Box.MinX) / grid.Cell) - 0.5;
                double right = ((x[(2 * run) + 1] - grid.Box.MinX) / grid.Cell) - 0.5;
                int begins = Math.Max(0, (int)Math.Ceiling(left));
                strips.Put(taken[run], row, begins, Math.Min(grid.Columns - 1, (int)Math.Floor(right)));
            }
        }
        return strips;
    }

    /// <summary>Where the area's edge crosses the rows' middles, row after row, and where each row's crossings begin.</summary>
    private static (int[] From, double[] X) Crossings(Area area, BlockGrid grid, int first, int last)
    {
        List<(int Row, double X)> found = [];
        int[] from = new int[last - first + 2];
        Span<double> xs = stackalloc double[4];
        foreach (Piece piece in area.Pieces)
        {
            Box2 b = piece.Bounds();
            int r0 = Math.Max(first, (int)Math.Floor(((b.MinY - grid.Box.MinY) / grid.Cell) - 0.5));
            int r1 = Math.Min(last, (int)Math.Ceiling(((b.MaxY - grid.Box.MinY) / grid.Cell) - 0.5));
            for (int row = r0; row <= r1; row++)
            {
                int n = Scan.Cross(piece, grid.Box.MinY + ((row + 0.5) * grid.Cell), xs);
                from[row - first + 1] += n;
                for (int i = 0; i < n; i++)
                {
                    found.Add((row - first, xs[i]));
                }
            }
        }
        for (int row = 1; row < from.Length; row++)
        {
            from[row] += from[row - 1];
        }
        int[] next = [.. from];
        double[] x = new double[found.Count];
        foreach ((int row, double at) in found)
        {
            x[next[row]++] = at;
        }
        return (from, x);
    }
}
