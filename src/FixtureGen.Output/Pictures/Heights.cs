using System.Numerics;
using System.Runtime.InteropServices;
using FixtureGen.Output.Scenes;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Output.Pictures;

/// <summary>Heights of a block's top face, mm above the plate's face, row 0 the least Y. Cell is a side in mm.</summary>
internal sealed class Heights(int columns, int rows, double cell) : IDisposable
{
    /// <summary>A picture needs no finer cells, mm.</summary>
    private const double Finest = 0.2;

    private readonly Borrowed<float> _z = new(columns * rows);

    public int Columns => columns;

    public int Rows => rows;

    public double Cell => cell;

    /// <summary>All cells, rows one after another.</summary>
    public Span<float> Z => _z.Span;

    public void Dispose() => _z.Dispose();

    /// <summary>The lowest and the highest cell.</summary>
    public (float Low, float High) Ends()
    {
        ReadOnlySpan<float> all = Z;
        float low = all[0];
        float high = all[0];
        Vector<float> lows = new(low);
        Vector<float> highs = new(high);
        int i = 0;
        for (; i <= all.Length - Vector<float>.Count; i += Vector<float>.Count)
        {
            Vector<float> at = new(all[i..]);
            lows = Vector.Min(lows, at);
            highs = Vector.Max(highs, at);
        }
        for (int k = 0; k < Vector<float>.Count; k++)
        {
            (low, high) = (Math.Min(low, lows[k]), Math.Max(high, highs[k]));
        }
        for (; i < all.Length; i++)
        {
            (low, high) = (Math.Min(low, all[i]), Math.Max(high, all[i]));
        }
        return (low, high);
    }

    /// <summary>
    /// The block's top at the picture's fineness, each cell the mean of those it holds, so that edges are smooth; a cell that
    /// was cut through from either side lies at the block's underside. From below, the block is turned over left to right and
    /// what was the underside is the top.
    /// </summary>
    public static Heights Borrow(BlockGrid block, bool fromBelow)
    {
        int n = Math.Max(1, (int)Math.Round(Finest / block.Cell));
        int columns = (block.Columns + n - 1) / n;
        int rows = (block.Rows + n - 1) / n;
        Heights heights = new(columns, rows, n * block.Cell);
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
            Means(sums, heights.Z.Slice(r * columns, columns), n, last - (r * n), block.Columns);
        }
        return heights;
    }

    /// <summary>Means of <paramref name="n"/> columns' sums over as many rows; the last mean may have fewer columns.</summary>
    private static void Means(ReadOnlySpan<float> sums, Span<float> to, int n, int rows, int columns)
    {
        int c = n == 2 ? Pairs(sums, to, rows, columns / 2) : 0;
        for (; c < to.Length; c++)
        {
            float sum = 0;
            foreach (float height in sums.Slice(c * n, n))
            {
                sum += height;
            }
            to[c] = sum / (rows * (Math.Min(columns, (c + 1) * n) - (c * n)));
        }
    }

    /// <summary>The means of whole pairs of columns, a vector of them at a time; returns how many.</summary>
    private static int Pairs(ReadOnlySpan<float> sums, Span<float> to, int rows, int pairs)
    {
        ReadOnlySpan<ulong> both = MemoryMarshal.Cast<float, ulong>(sums);
        Vector<ulong> first = new(uint.MaxValue);
        int c = 0;
        for (; c <= pairs - Vector<float>.Count; c += Vector<float>.Count)
        {
            Vector<ulong> a = new(both[c..]);
            Vector<ulong> b = new(both[(c + Vector<ulong>.Count)..]);
            Vector<float> even = Vector.AsVectorSingle(Vector.Narrow(a & first, b & first));
            Vector<float> odd = Vector.AsVectorSingle(Vector.Narrow(a >> 32, b >> 32));
            ((even + odd) / (rows * 2)).CopyTo(to[c..]);
        }
        return c;
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
