using System.Runtime.InteropServices;
using FixtureGen.Model;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Carving;

/// <summary>Finds, row by row, the cells whose centre lies in an area. The memory is used again for every area.</summary>
internal sealed class Raster(BlockGrid grid)
{
    private readonly Strips _strips = new(grid.Columns);
    private readonly List<(int Row, double X)> _found = [];

    /// <summary>The crossings, row after row.</summary>
    private readonly List<double> _x = [];

    /// <summary>Where each row's crossings begin, and after the last row the end.</summary>
    private readonly List<int> _from = [];
    private readonly List<int> _next = [];
    private readonly List<int> _taken = [];

    /// <summary>The runs of cells whose centres lie inside, until the next area; the n-th run of every row is in the n-th strip.</summary>
    public Strips StripsOf(Area area)
    {
        _strips.Clear();
        int first = Math.Max(0, (int)Math.Ceiling(((area.Bounds.MinY - grid.Box.MinY) / grid.Cell) - 0.5));
        int last = Math.Min(grid.Rows - 1, (int)Math.Floor(((area.Bounds.MaxY - grid.Box.MinY) / grid.Cell) - 0.5));
        if (last < first)
        {
            return _strips;
        }
        Crossings(area, first, last);
        _taken.Clear();
        for (int row = first; row <= last; row++)
        {
            int begin = _from[row - first];
            Span<double> x = CollectionsMarshal.AsSpan(_x)[begin.._from[row - first + 1]];
            x.Sort();
            for (int run = 0; (2 * run) + 1 < x.Length; run++)
            {
                if (run == _taken.Count)
                {
                    _taken.Add(_strips.AddEmpty(first, last));
                }
                double left = ((x[2 * run] - grid.Box.MinX) / grid.Cell) - 0.5;
                double right = ((x[(2 * run) + 1] - grid.Box.MinX) / grid.Cell) - 0.5;
                int begins = Math.Max(0, (int)Math.Ceiling(left));
                _strips.Put(_taken[run], row, begins, Math.Min(grid.Columns - 1, (int)Math.Floor(right)));
            }
        }
        return _strips;
    }

    /// <summary>Where the area's edge crosses the rows' middles, row after row, and where each row's crossings begin.</summary>
    private void Crossings(Area area, int first, int last)
    {
        _found.Clear();
        Span<int> from = Zeros(_from, last - first + 2);
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
                    _found.Add((row - first, xs[i]));
                }
            }
        }
        for (int row = 1; row < from.Length; row++)
        {
            from[row] += from[row - 1];
        }
        Span<int> next = Zeros(_next, from.Length);
        from.CopyTo(next);
        Span<double> x = Zeros(_x, _found.Count);
        foreach ((int row, double at) in _found)
        {
            x[next[row]++] = at;
        }
    }

    private static Span<T> Zeros<T>(List<T> list, int count)
    {
        list.Clear();
        CollectionsMarshal.SetCount(list, count);
        Span<T> all = CollectionsMarshal.AsSpan(list);
        all.Clear();
        return all;
    }
}
