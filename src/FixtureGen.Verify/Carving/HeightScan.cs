using System.Numerics;
using System.Runtime.Intrinsics;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Carving;

/// <summary>Two grids of heights beside each other: what lies between them, high - low, tile by tile and eight cells at a time.</summary>
internal static class HeightScan
{
    /// <summary>The greatest high - low that is not over the limit (0 at least), and the cells beyond the limit in order.</summary>
    public static (float Small, List<int> Cells) Above(Heights low, Heights high, float limit)
    {
        Beyond look = new(limit);
        Visit(low, high, ref look);
        look.Cells.Sort();
        return (look.Small, look.Cells);
    }

    /// <summary>The cells, in order, where high - low lies between two figures, ends left out.</summary>
    public static List<int> Within(Heights low, Heights high, float from, float to)
    {
        Inside look = new(from, to);
        Visit(low, high, ref look);
        look.Cells.Sort();
        return look.Cells;
    }

    /// <summary>The material between two faces, summed over all cells where top is above bottom, mm (times cells).</summary>
    public static double Between(Heights bottom, Heights top)
    {
        Total look = default;
        Visit(bottom, top, ref look);
        return look.Sum;
    }

    private static void Visit<T>(Heights low, Heights high, ref T look)
        where T : struct, ILook
    {
        Span<float> lows = low.Alike;
        Span<float> highs = high.Alike;
        for (int row = 0; row < low.Rows; row += Heights.Tile)
        {
            for (int x = 0; x < low.TileColumns; x++)
            {
                int tile = low.TileAt(row) + x;
                if (row + Heights.Tile > low.Rows || (x + 1) * Heights.Tile > low.Columns)
                {
                    Part(low, high, row, x * Heights.Tile, ref look);
                }
                else if (float.IsNaN(highs[tile] - lows[tile]) || look.Enter(highs[tile] - lows[tile]))
                {
                    for (int i = 0; i < Heights.Tile; i++)
                    {
                        look.Eight(
                            high.Eight(tile, i) - low.Eight(tile, i),
                            ((row + i) * low.Columns) + (x * Heights.Tile)
                        );
                    }
                }
            }
        }
    }

    /// <summary>The cells of a tile that reaches beyond the grid.</summary>
    private static void Part<T>(Heights low, Heights high, int row, int column, ref T look)
        where T : struct, ILook
    {
        for (int r = row; r < Math.Min(low.Rows, row + Heights.Tile); r++)
        {
            for (int i = column; i < Math.Min(low.Columns, column + Heights.Tile); i++)
            {
                look.Look(high.HeightAt(r, i) - low.HeightAt(r, i), (r * low.Columns) + i);
            }
        }
    }

    /// <summary>What is done with the differences; the cell is the first of eight.</summary>
    private interface ILook
    {
        /// <summary>A tile that is alike in both: whether its cells must be looked at all the same.</summary>
        bool Enter(float difference);

        void Eight(Vector256<float> differences, int cell);

        void Look(float difference, int cell);
    }

    private struct Beyond(float limit) : ILook
    {
        private Vector256<float> _small = Vector256<float>.Zero;

        public List<int> Cells { get; } = [];

        public readonly float Small => Lanes.Greatest(_small);

        public bool Enter(float difference)
        {
            if (difference > limit)
            {
                return true;
            }
            _small = Vector256.MaxNative(_small, Vector256.CreateScalar(difference));
            return false;
        }

        public void Eight(Vector256<float> differences, int cell)
        {
            Vector256<float> beyond = Vector256.GreaterThan(differences, Vector256.Create(limit));
            _small = Vector256.MaxNative(_small, Vector256.AndNot(differences, beyond));
            Note(Cells, beyond, cell);
        }

        public void Look(float difference, int cell)
        {
            if (Enter(difference))
            {
                Cells.Add(cell);
            }
        }
    }

    private readonly struct Inside(float from, float to) : ILook
    {
        public List<int> Cells { get; } = [];

        public bool Enter(float difference) => difference > from && difference < to;

        public void Eight(Vector256<float> differences, int cell)
        {
            Vector256<float> inside =
                Vector256.GreaterThan(differences, Vector256.Create(from))
                & Vector256.LessThan(differences, Vector256.Create(to));
            Note(Cells, inside, cell);
        }

        public void Look(float difference, int cell)
        {
            if (Enter(difference))
            {
                Cells.Add(cell);
            }
        }
    }

    private struct Total : ILook
    {
        private Vector256<double> _sum;
        private double _rest;

        public readonly double Sum => Vector256.Sum(_sum) + _rest;

        public bool Enter(float difference)
        {
            _rest += Heights.Tile * Heights.Tile * (double)Math.Max(0, difference);
            return false;
        }

        public void Eight(Vector256<float> differences, int cell)
        {
            (Vector256<double> first, Vector256<double> second) = Vector256.Widen(
                Vector256.MaxNative(differences, Vector256<float>.Zero)
            );
            _sum += first + second;
        }

        public void Look(float difference, int cell) => _rest += Math.Max(0, difference);
    }

    private static void Note(List<int> cells, Vector256<float> which, int cell)
    {
        for (uint bits = which.ExtractMostSignificantBits(); bits != 0; bits &= bits - 1)
        {
            cells.Add(cell + BitOperations.TrailingZeroCount(bits));
        }
    }
}
