using System.Numerics;
using FixtureGen.Verify;

namespace FixtureGen.Output;

/// <summary>Heights of a block's top face, mm above the plate's face, row 0 the least Y. Cell is a side in mm.</summary>
internal sealed record Heights(float[] Z, int Columns, int Rows, double Cell)
{
    /// <summary>A picture needs no finer cells, mm.</summary>
    private const double Finest = 0.2;

    /// <summary>
    /// The block's top at the picture's fineness, each cell the mean of those it holds, so that edges are smooth; a cell that
    /// was cut through from either side lies at the block's underside. From below, the block is turned over left to right and
    /// what was the underside is the top.
    /// </summary>
    public static Heights Of(BlockGrid block, bool fromBelow)
    {
        int n = Math.Max(1, (int)Math.Round(Finest / block.Cell));
        int columns = (block.Columns + n - 1) / n;
        int rows = (block.Rows + n - 1) / n;
        float[] z = new float[columns * rows];
        float[] top = new float[block.Columns];
        float[] bottom = new float[block.Columns];
        float[] sums = new float[columns * n];
        for (int r = 0; r < rows; r++)
        {
            Array.Clear(sums);
            int last = Math.Min(block.Rows, (r + 1) * n);
            for (int from = r * n; from < last; from++)
            {
                block.Top(from, top);
                block.Bottom(from, bottom);
                if (fromBelow)
                {
                    Turn(top, bottom, (float)(block.RawBottomZ + block.RawTopZ));
                }
                Add(sums, top, bottom, (float)block.RawBottomZ);
            }
            Span<float> row = z.AsSpan(r * columns, columns);
            for (int c = 0; c < row.Length; c++)
            {
                float sum = 0;
                foreach (float height in sums.AsSpan(c * n, n))
                {
                    sum += height;
                }
                row[c] = sum / ((last - (r * n)) * (Math.Min(block.Columns, (c + 1) * n) - (c * n)));
            }
        }
        return new Heights(z, columns, rows, n * block.Cell);
    }

    private static void Turn(Span<float> top, Span<float> bottom, float sum)
    {
        top.Reverse();
        bottom.Reverse();
        for (int i = 0; i < top.Length; i++)
        {
            (top[i], bottom[i]) = (sum - bottom[i], sum - top[i]);
        }
    }

    /// <summary>Adds one row of cells.</summary>
    private static void Add(Span<float> sums, ReadOnlySpan<float> top, ReadOnlySpan<float> bottom, float floor)
    {
        int c = 0;
        for (; c <= top.Length - Vector<float>.Count; c += Vector<float>.Count)
        {
            Vector<float> high = new(top[c..]);
            Vector<int> empty = Vector.GreaterThanOrEqual(new Vector<float>(bottom[c..]), high);
            Vector<float> sum = new Vector<float>(sums[c..]) + Vector.ConditionalSelect(empty, new(floor), high);
            sum.CopyTo(sums[c..]);
        }
        for (; c < top.Length; c++)
        {
            sums[c] += bottom[c] >= top[c] ? floor : top[c];
        }
    }
}
