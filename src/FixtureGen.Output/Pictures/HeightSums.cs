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
    private readonly Borrowed<int> sums;
    private readonly int pad;
    private readonly int stride;
    private readonly double step;
    private readonly float floor;

    /// <param name="grid">The heights; kept nowhere.</param>
    /// <param name="widest">Radius in mm of the widest square that will be asked for.</param>
    public HeightSums(Heights grid, double widest)
    {
        Cell = grid.Cell;
        pad = Half(widest);
        (floor, float highest) = grid.Ends();
        double side = (2 * pad) + 1;
        step = Math.Max(1e-6, highest - floor) * side * side / (1 << 30);
        stride = grid.Columns + (2 * pad) + 1;
        sums = new((stride * (grid.Rows + (2 * pad) + 1)) + Vector<int>.Count);
        Span<int> all = sums.Span;
        all[..stride].Clear();
        int[] row = new int[stride];
        for (int r = 0; r < grid.Rows + (2 * pad); r++)
        {
            if (r == 0 || (r > pad && r < pad + grid.Rows))
            {
                RunOn(grid.Z.Slice(Math.Max(0, r - pad) * grid.Columns, grid.Columns), row);
            }
            Add(row, all.Slice(r * stride, stride), all.Slice((r + 1) * stride, stride));
        }
    }

    private double Cell { get; }

    public void Dispose() => sums.Dispose();

    /// <summary>Cells that a square of this radius in mm reaches to either side; one at least.</summary>
    private int Half(double radius) => (int)Math.Max(1, radius / Cell);

    /// <summary>The square of this radius in mm, mm.</summary>
    public Square About(double radius) => new(this, Half(radius));

    /// <summary>Sums along a row up to each cell.</summary>
    private void RunOn(ReadOnlySpan<float> z, Span<int> row)
    {
        float perStep = (float)(1 / step);
        int first = Steps(z[0], perStep);
        int sum = 0;
        for (int k = 0; k < pad; k++)
        {
            row[k + 1] = sum += first;
        }
        Span<int> own = row.Slice(pad + 1, z.Length);
        int last = 0;
        for (int c = 0; c < own.Length; c++)
        {
            last = Steps(z[c], perStep);
            own[c] = sum += last;
        }
        for (int k = pad + z.Length; k < row.Length - 1; k++)
        {
            row[k + 1] = sum += last;
        }
    }

    private int Steps(float z, float perStep) => (int)((z - floor) * perStep);

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

    /// <summary>A square of one radius, to be laid about any cell.</summary>
    public readonly struct Square(HeightSums of, int half)
    {
        private readonly int[] sums = of.sums.Array;
        private readonly int side = (2 * half) + 1;
        private readonly int corner = (of.pad - half) * (of.stride + 1);
        private readonly int stride = of.stride;
        private readonly float floor = of.floor;
        private readonly float share = (float)(of.step / (((2 * half) + 1) * ((2 * half) + 1)));

        /// <summary>Mean height about a cell.</summary>
        public float Mean(int row, int column)
        {
            int low = corner + (row * stride) + column;
            int high = low + (side * stride);
            return floor + (share * (sums[high + side] - sums[high] - sums[low + side] + sums[low]));
        }

        /// <summary>Mean heights about as many cells of a row as a vector holds; those past the row's end stand for nothing.</summary>
        public Vector<float> Means(int row, int column)
        {
            int low = corner + (row * stride) + column;
            int high = low + (side * stride);
            Vector<int> sum =
                new Vector<int>(sums, high + side)
                - new Vector<int>(sums, high)
                - new Vector<int>(sums, low + side)
                + new Vector<int>(sums, low);
            return new Vector<float>(floor) + (Vector.ConvertToSingle(sum) * share);
        }
    }
}
