using FixtureGen.Verify;

namespace FixtureGen.Output;

/// <summary>Heights of a block's top face, mm above the plate's face, row 0 the least Y. Cell is a side in mm.</summary>
internal sealed record Heights(float[] Z, int Columns, int Rows, double Cell)
{
    /// <summary>A picture needs no finer cells, mm.</summary>
    private const double Finest = 0.2;

    /// <summary>
    /// The block's top at the picture's fineness, each cell the mean of those it holds, so that edges are smooth; a cell that
    /// was cut through from either side lies at the block's underside.
    /// </summary>
    public static Heights Of(BlockGrid block)
    {
        int n = Math.Max(1, (int)Math.Round(Finest / block.Cell));
        int columns = (block.Columns + n - 1) / n;
        int rows = (block.Rows + n - 1) / n;
        float[] z = new float[columns * rows];
        float floor = (float)block.RawBottomZ;
        for (int r = 0; r < rows; r++)
        {
            Span<float> row = z.AsSpan(r * columns, columns);
            int last = Math.Min(block.Rows, (r + 1) * n);
            for (int from = r * n; from < last; from++)
            {
                ReadOnlySpan<float> top = block.Top.AsSpan(from * block.Columns, block.Columns);
                ReadOnlySpan<float> bottom = block.Bottom.AsSpan(from * block.Columns, block.Columns);
                for (int c = 0; c < top.Length; c++)
                {
                    row[c / n] += bottom[c] >= top[c] ? floor : top[c];
                }
            }
            for (int c = 0; c < row.Length; c++)
            {
                row[c] /= (last - (r * n)) * (Math.Min(block.Columns, (c + 1) * n) - (c * n));
            }
        }
        return new Heights(z, columns, rows, n * block.Cell);
    }
}
