using System.Runtime.InteropServices;
using FixtureGen.Model;

namespace FixtureGen.Verify.Shape;

/// <summary>Finds, row by row, the cells whose centre lies in an area.</summary>
internal static class Raster
{
    /// <summary>Calls span(row, first, count) for every run of cells whose centres lie inside; rows and cells as in the grid.</summary>
    public static void Spans(Area area, BlockGrid grid, Action<int, int, int> span)
    {
        int first = Math.Max(0, (int)Math.Ceiling(((area.Bounds.MinY - grid.Box.MinY) / grid.Cell) - 0.5));
        int last = Math.Min(grid.Rows - 1, (int)Math.Floor(((area.Bounds.MaxY - grid.Box.MinY) / grid.Cell) - 0.5));
        if (last < first)
        {
            return;
        }
        List<double>[] crossings = new List<double>[last - first + 1];
        Span<double> xs = stackalloc double[4];
        foreach (Piece piece in area.Pieces)
        {
            Box2 b = piece.Bounds();
            int r0 = Math.Max(first, (int)Math.Floor(((b.MinY - grid.Box.MinY) / grid.Cell) - 0.5));
            int r1 = Math.Min(last, (int)Math.Ceiling(((b.MaxY - grid.Box.MinY) / grid.Cell) - 0.5));
            for (int row = r0; row <= r1; row++)
            {
                int n = Scan.Cross(piece, grid.Box.MinY + ((row + 0.5) * grid.Cell), xs);
                for (int i = 0; i < n; i++)
                {
                    (crossings[row - first] ??= []).Add(xs[i]);
                }
            }
        }
        for (int row = first; row <= last; row++)
        {
            if (crossings[row - first] is { } list)
            {
                Row(list, grid, row, span);
            }
        }
    }

    private static void Row(List<double> list, BlockGrid grid, int row, Action<int, int, int> span)
    {
        Span<double> x = CollectionsMarshal.AsSpan(list);
        x.Sort();
        for (int i = 0; i + 1 < x.Length; i += 2)
        {
            int c0 = Math.Max(0, (int)Math.Ceiling(((x[i] - grid.Box.MinX) / grid.Cell) - 0.5));
            int c1 = Math.Min(grid.Columns - 1, (int)Math.Floor(((x[i + 1] - grid.Box.MinX) / grid.Cell) - 0.5));
            if (c1 >= c0)
            {
                span(row, c0, c1 - c0 + 1);
            }
        }
    }
}
