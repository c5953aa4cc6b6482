using System.Numerics;
using FixtureGen.Output.Scenes;

namespace FixtureGen.Output.Pictures;

/// <summary>
/// Means of heights over squares about a cell, any radius at the cost of four additions: sums over the rectangle from the first
/// cell to each (Crow, SIGGRAPH 1984, doi 10.1145/800031.808600). Edges are repeated outwards. Whole numbers that wrap round
/// make them exact: only a square's own sum must fit, so the heights' step is chosen for the widest square.
/// </summary>
internal sealed class HeightSums : IDisposable
{
    private readonly Borrowed<int> _sums;
    private readonly int _pad;
    private readonly int _stride;
    private readonly double _step;
    private readonly float _floor;

    /// <param name="grid">The heights; kept nowhere.</param>
    /// <param name="widest">Radius in mm of the widest square that will be asked for.</param>
    public HeightSums(Heights grid, double widest)
    {
        Cell = grid.Cell;
        _pad = Half(widest);
        (_floor, float highest) = grid.Ends();
        double side = (2 * _pad) + 1;
        _step = Math.Max(1e-6, highest - _floor) * side * side / (1 << 30);
        _stride = grid.Columns + (2 * _pad) + 1;
        _sums = new((_stride * (grid.Rows + (2 * _pad) + 1)) + Vector<int>.Count);
        Span<int> all = _sums.Span;
        all[.._stride].Clear();
        int[] row = new int[_stride];
        for (int r = 0; r < grid.Rows + (2 * _pad); r++)
        {
            if (r == 0 || (r > _pad && r < _pad + grid.Rows))
            {
                RunOn(grid.Z.Slice(Math.Max(0, r - _pad) * grid.Columns, grid.Columns), row);
            }
            Add(row, all.Slice(r * _stride, _stride), all.Slice((r + 1) * _stride, _stride));
        }
    }

    private double Cell { get; }

    public void Dispose() => _sums.Dispose();

    /// <summary>Cells that a square of this radius in mm reaches to either side; one at least.</summary>
    private int Half(double radius) => (int)Math.Max(1, radius / Cell);

    /// <summary>The square of this radius in mm, mm.</summary>
    public Square About(double radius) => new(this, Half(radius));

    /// <summary>Sums along a row up to each cell.</summary>
    private void RunOn(ReadOnlySpan<float> z, Span<int> row)
    {
        float perStep = (float)(1 / _step);
        int first = Steps(z[0], perStep);
        int sum = 0;
        for (int k = 0; k < _pad; k++)
        {
            row[k + 1] = sum += first;
        }
        Span<int> own = row.Slice(_pad + 1, z.Length);
        int last = 0;
        for (int c = 0; c < own.Length; c++)
        {
            last = Steps(z[c], perStep);
            own[c] = sum += last;
        }
        for (int k = _pad + z.Length; k < row.Length - 1; k++)
        {
            row[k + 1] = sum += last;
        }
    }

    private int Steps(float z, float perStep) => (int)((z - _floor) * perStep);

    private static void Add(ReadOnlySpan<int> row, ReadOnlySpan<int> before, Span<int> to)
    {
        int c = 0;
        for (; c <= row.Length - Vector<int>.Count; c += Vector<int>.Count)
        {
            (new Vector<int>(row[c..]) + new Vector<int>(before[c..])).CopyTo(to[c..]);
        }
        for (; c < row.Length; c++)
        {
            to[c] = row[c] + before[c];
        }
    }

    /// <summary>A square of one radius, to be placed about any cell.</summary>
    public readonly struct Square(HeightSums of, int half)
    {
        private readonly int[] _sums = of._sums.Array;
        private readonly int _side = (2 * half) + 1;
        private readonly int _corner = (of._pad - half) * (of._stride + 1);
        private readonly int _stride = of._stride;
        private readonly float _floor = of._floor;
        private readonly float _share = (float)(of._step / (((2 * half) + 1) * ((2 * half) + 1)));

        /// <summary>Mean height about a cell.</summary>
        public float Mean(int row, int column)
        {
            int low = _corner + (row * _stride) + column;
            int high = low + (_side * _stride);
            return _floor + (_share * (_sums[high + _side] - _sums[high] - _sums[low + _side] + _sums[low]));
        }

        /// <summary>Mean heights about as many cells of a row as a vector holds; those past the row's end stand for nothing.</summary>
        public Vector<float> Means(int row, int column)
        {
            int low = _corner + (row * _stride) + column;
            int high = low + (_side * _stride);
            Vector<int> sum =
                new Vector<int>(_sums, high + _side)
                - new Vector<int>(_sums, high)
                - new Vector<int>(_sums, low + _side)
                + new Vector<int>(_sums, low);
            return new Vector<float>(_floor) + (Vector.ConvertToSingle(sum) * _share);
        }
    }
}
