using CsCheck;
using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>An end mill on one level, cell by cell against the distance from its line.</summary>
public sealed class FlatMovesTest
{
    /// <summary>The grid's last cells have no eight cells behind them to be loaded with.</summary>
    [Fact]
    public void The_very_last_cells_are_carved_like_any_other()
    {
        Cutter cutter = RandomMotions.Cutters[4];
        for (int k = 1; k <= 20; k++)
        {
            BlockGrid grid = RandomMotions.Grid(0.3);
            double x = (grid.Columns - k + 0.5) * grid.Cell;
            double y = (grid.Rows - 0.5) * grid.Cell;
            Motion motion = new(1, MotionKind.Line, new(x, y, 5), new(x + 20, y, 5), default, 100, 1);

            Tally tally = new Carver(grid).Cut(motion, cutter, 1);

            int lowered = 0;
            float[] cells = grid.Top();
            for (int i = 0; i < cells.Length; i++)
            {
                Point2 at = new(((i % grid.Columns) + 0.5) * grid.Cell, ((i / grid.Columns) + 0.5) * grid.Cell);
                double d = at.DistanceTo(new Point2(Math.Max(at.X, x), y));
                bool cut = d < cutter.Radius;
                Assert.Equal(cut ? 5 : RandomMotions.Top, cells[i]);
                lowered += cut ? 1 : 0;
            }
            Assert.True(lowered >= k);
            Assert.Equal(lowered * 5 * grid.Cell * grid.Cell, tally.Removed, 1e-3);
        }
    }

    /// <summary>
    /// Chains of long flat moves in any direction, on levels that come again, against the definition: a cell has the lowest level of
    /// the moves whose line passes its centre within the radius. Only centres within 1e-7 mm of a rim may be either
    /// way; the points stand a hair off round numbers, or a rim would run through a whole row of centres.
    /// </summary>
    [Theory]
    [InlineData(64, 48)]
    [InlineData(61.3, 47.7)]
    [Trait("Speed", "Slow")]
    public void Flat_moves_carve_by_the_distance_from_their_line(double width, double height) =>
        Gen.Select(
                Gen.Select(
                    Gen.Double[-4, 68],
                    Gen.Double[-4, 52],
                    (x, y) => new Point2(x + 0.00314159, y + 0.00271828)
                ).Array[13],
                Gen.Int[3, 6].Array[12],
                Gen.Double[0.4, 6]
            )
            .Sample(
                (points, levels, radius) =>
                {
                    BlockGrid grid = new(new Box2(0, 0, width, height), 0.1, 0, RandomMotions.Top);
                    Cutter cutter = new(RandomMotions.Cutters[0].Tool, CutterShape.Flat, radius, 0, 0);
                    Carver carver = new(grid);
                    float[] low = new float[grid.Rows * grid.Columns];
                    float[] high = new float[low.Length];
                    Array.Fill(low, (float)RandomMotions.Top);
                    Array.Fill(high, (float)RandomMotions.Top);
                    for (int i = 0; i < levels.Length; i++)
                    {
                        Point3 from = new(points[i].X, points[i].Y, levels[i]);
                        Point3 to = new(points[i + 1].X, points[i + 1].Y, levels[i]);
                        double before = low.Sum(z => (double)z);
                        float[] old = [.. low];
                        Tally tally = carver.Cut(new(1, MotionKind.Line, from, to, default, 100, 1), cutter, 4.5);
                        Pass(grid, low, from, to, radius + 1e-7);
                        Pass(grid, high, from, to, radius - 1e-7);
                        Assert.Equal(
                            (before - low.Sum(z => (double)z)) * 0.01,
                            tally.Removed,
                            0.1 + (tally.Removed * 1e-5)
                        );
                        Assert.Equal(old.Zip(low, (a, b) => a - b).Max(), tally.Deepest);
                        Assert.Equal(old.Zip(low, (a, b) => a - b).Count(t => t > 4.5f) * 0.01, tally.DeepMm2, 0.021);
                    }
                    float[] cells = grid.Top();
                    Assert.DoesNotContain(cells.Zip(low), c => c.First < c.Second);
                    Assert.DoesNotContain(cells.Zip(high), c => c.First > c.Second);
                    Assert.True(low.Zip(high).Count(c => c.First < c.Second) < 10);
                },
                iter: 20,
                threads: 1,
                seed: "0000Zr6YZjJ4"
            );

    private static void Pass(BlockGrid grid, float[] cells, Point3 from, Point3 to, double radius)
    {
        Point2 way = to.Xy - from.Xy;
        for (int i = 0; i < cells.Length; i++)
        {
            Point2 at = new(((i % grid.Columns) + 0.5) * grid.Cell, ((i / grid.Columns) + 0.5) * grid.Cell);
            double along = way.Dot(way) > 0 ? Math.Clamp((at - from.Xy).Dot(way) / way.Dot(way), 0, 1) : 0;
            if (at.DistanceTo(from.Xy + (way * along)) <= radius)
            {
                cells[i] = Math.Min(cells[i], (float)from.Z);
            }
        }
    }
}
