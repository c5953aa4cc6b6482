using CsCheck;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>Two grids of heights beside each other against a look at every cell, for sides that end anywhere in a tile.</summary>
public sealed class HeightScanTest
{
    /// <summary>A few heights, so that whole tiles may be alike, one tile of its own besides.</summary>
    private static readonly Gen<(int Columns, int Rows, int[] Low, int[] High)> Pair =
        from columns in Gen.Int[1, 27]
        from rows in Gen.Int[1, 27]
        from low in Gen.Int[0, 3].Array[27 * 27]
        from high in Gen.Int[0, 5].Array[27 * 27]
        select (columns, rows, low, high);

    private static (Heights Low, Heights High, float[] Apart) Made((int Columns, int Rows, int[] Low, int[] High) pair)
    {
        Heights low = new(pair.Columns, pair.Rows, 1);
        Heights high = new(pair.Columns, pair.Rows, 4);
        float[] apart = new float[pair.Columns * pair.Rows];
        for (int cell = 0; cell < apart.Length; cell++)
        {
            (int row, int column) = Math.DivRem(cell, pair.Columns);
            // Only the odd tiles get heights of their own.
            bool own = ((row / Heights.Tile) + (column / Heights.Tile)) % 2 == 1;
            if (own || row > 20 || column > 20)
            {
                low.Set(row, column, pair.Low[cell]);
                high.Set(row, column, pair.High[cell]);
            }
            apart[cell] = high.HeightAt(row, column) - low.HeightAt(row, column);
        }
        return (low, high, apart);
    }

    [Fact]
    public void Cells_beyond_a_limit_are_told_in_order_with_the_greatest_of_the_rest() =>
        Pair.Sample(
            pair =>
            {
                (Heights low, Heights high, float[] apart) = Made(pair);
                (float small, List<int> cells) = HeightScan.Above(low, high, 2);
                Assert.Equal(Enumerable.Range(0, apart.Length).Where(i => apart[i] > 2), cells);
                Assert.Equal(apart.Where(a => a <= 2).Append(0).Max(), small);
            },
            iter: 100
        );

    [Fact]
    public void Cells_between_two_figures_are_told_in_order_without_the_ends() =>
        Pair.Sample(
            pair =>
            {
                (Heights low, Heights high, float[] apart) = Made(pair);
                Assert.Equal(
                    Enumerable.Range(0, apart.Length).Where(i => apart[i] > 0 && apart[i] < 4),
                    HeightScan.Within(low, high, 0, 4)
                );
            },
            iter: 100
        );

    [Fact]
    public void The_material_between_is_the_sum_of_what_is_above() =>
        Pair.Sample(
            pair =>
            {
                (Heights low, Heights high, float[] apart) = Made(pair);
                Assert.Equal(apart.Sum(a => Math.Max(0, (double)a)), HeightScan.Between(low, high));
            },
            iter: 100
        );

    [Fact]
    public void Rows_the_highest_and_the_other_face_are_those_of_the_cells() =>
        Pair.Sample(
            pair =>
            {
                (_, Heights high, _) = Made(pair);
                using Heights turned = high.Turned(10);
                float[] row = new float[pair.Columns];
                float highest = float.MinValue;
                for (int r = 0; r < pair.Rows; r++)
                {
                    high.Row(r, row);
                    for (int i = 0; i < pair.Columns; i++)
                    {
                        Assert.Equal(high.HeightAt(r, i), row[i]);
                        Assert.Equal(high.HeightAt(r, i), high.HeightAt((r * pair.Columns) + i));
                        Assert.Equal(10 - row[i], turned.HeightAt(r, pair.Columns - 1 - i));
                        highest = Math.Max(highest, row[i]);
                    }
                }
                Assert.Equal(highest, high.Highest());
                Assert.Equal(
                    Enumerable.Range(0, pair.Rows * pair.Columns).All(c => high.HeightAt(c) == 4),
                    high.IsLevel(4)
                );
            },
            iter: 100
        );
}
