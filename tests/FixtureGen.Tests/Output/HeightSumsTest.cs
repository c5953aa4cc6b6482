using System.Numerics;
using FixtureGen.Output.Pictures;
using Xunit;

namespace FixtureGen.Tests.Output;

public sealed class HeightSumsTest
{
    /// <summary>Against heights added up one by one, edges repeated, for every cell and radius; a height's step is a millionth of the range here.</summary>
    [Fact]
    public void Means_are_those_of_adding_up_every_cell()
    {
        Random random = new(20261126);
        using Heights grid = new(37, 23, 0.2);
        foreach (ref float z in grid.Z)
        {
            z = 3 + (20 * random.NextSingle());
        }
        using HeightSums sums = new(grid, 4);
        foreach (int half in (int[])[1, 5, 20])
        {
            HeightSums.Square square = sums.About(half * 0.2000001);
            for (int r = 0; r < grid.Rows; r++)
            {
                for (int c = 0; c < grid.Columns; c++)
                {
                    float plain = (float)Plain(grid, r, c, half);
                    Assert.Equal(plain, square.Mean(r, c), 1e-4f);
                    Vector<float> means = square.Means(r, c);
                    int last = Math.Min(Vector<float>.Count, grid.Columns - c) - 1;
                    Assert.Equal(square.Mean(r, c + last), means[last]);
                }
            }
        }
    }

    private static double Plain(Heights grid, int row, int column, int half)
    {
        double sum = 0;
        for (int r = row - half; r <= row + half; r++)
        {
            for (int c = column - half; c <= column + half; c++)
            {
                int at = Math.Clamp(r, 0, grid.Rows - 1) * grid.Columns;
                sum += grid.Z[at + Math.Clamp(c, 0, grid.Columns - 1)];
            }
        }
        return sum / ((2 * half) + 1) / ((2 * half) + 1);
    }
}
