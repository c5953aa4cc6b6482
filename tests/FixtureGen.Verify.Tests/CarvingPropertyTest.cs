using CsCheck;
using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>Random motions with every kind of cutter: the sweep against the cutter set down densely, the tally against the block, tiles against cells.</summary>
public sealed class CarvingPropertyTest
{
    private const double Step = 0.02;

    /// <summary>Rounding of heights kept as float, and a helix's angle good to 1e-5 rad.</summary>
    private const double Rounding = 2e-4;

    /// <summary>
    /// Both ways without a cell let off: no lower than what the stamps widened by half a step could reach, no higher than the
    /// stamps themselves. A helix of a round cutter goes by chords within 0.5 um of the arc: its stamps are narrowed by that.
    /// </summary>
    [Fact]
    [Trait("Speed", "Slow")]
    public void Sweep_lies_between_stamps_and_widened_stamps() =>
        Gen.Select(RandomMotions.Any, Gen.Int[0, RandomMotions.Cutters.Count - 1])
            .Sample(LiesBetween, iter: 100, threads: 1, seed: "0000Zr6YZjJ4");

    /// <summary>A ramp of 61 mm whose disc but grazes some cells.</summary>
    [Fact]
    public void A_long_ramp_is_as_true_where_it_grazes_a_cell() =>
        LiesBetween(
            new Motion(
                1,
                MotionKind.Line,
                new(1, 44, 1.8514065059097966),
                new(43.641336973777285, -5.554E-27, 6.031450492575807),
                default,
                100,
                1
            ),
            4
        );

    private static void LiesBetween(Motion motion, int which)
    {
        Cutter cutter = RandomMotions.Cutters[which];
        BlockGrid swept = RandomMotions.Grid(0.3);
        new Carver(swept).Cut(motion, cutter, 1);
        float[] high = Stamped(motion, cutter, OneClosedForm(motion, cutter) ? -1e-9 : -0.0006);
        float[] low = Stamped(motion, cutter, (Step / 2) + 0.0006);
        float[] cells = swept.Top();
        for (int i = 0; i < high.Length; i++)
        {
            if (cells[i] < low[i] - Rounding || cells[i] > high[i] + Rounding)
            {
                Assert.InRange(cells[i], low[i] - Rounding, high[i] + Rounding);
            }
        }
    }

    private static bool OneClosedForm(Motion motion, Cutter cutter) =>
        cutter.Shape == CutterShape.Flat || motion.Kind == MotionKind.Line || motion.From.Z == motion.To.Z;

    /// <summary>The cutter, wider by some mm and lower by what its way falls meanwhile, at every step of the way.</summary>
    private static float[] Stamped(Motion motion, Cutter cutter, double wider)
    {
        BlockGrid grid = RandomMotions.Grid(0.3);
        float[] cells = grid.Top();
        Piece piece = Piece.From(motion);
        int n = Math.Max(1, (int)Math.Ceiling(piece.Length / Step));
        double dz = motion.To.Z - motion.From.Z;
        double fall = wider > 0 && piece.Length > 0 ? Math.Abs(dz) / n : 0;
        for (int i = 0; i <= n; i++)
        {
            Point2 p = piece.Length > 0 ? piece.PointAt((double)i / n) : motion.From.Xy;
            double tip = piece.Length > 0 ? motion.From.Z + (dz * i / n) : Math.Min(motion.From.Z, motion.To.Z);
            double reach = cutter.Radius + wider;
            int x0 = Math.Max(0, (int)Math.Floor((p.X - reach) / grid.Cell));
            int x1 = Math.Min(grid.Columns - 1, (int)Math.Ceiling((p.X + reach) / grid.Cell));
            int y0 = Math.Max(0, (int)Math.Floor((p.Y - reach) / grid.Cell));
            int y1 = Math.Min(grid.Rows - 1, (int)Math.Ceiling((p.Y + reach) / grid.Cell));
            for (int y = y0; y <= y1; y++)
            {
                for (int x = x0; x <= x1; x++)
                {
                    double d = p.DistanceTo(new Point2((x + 0.5) * grid.Cell, (y + 0.5) * grid.Cell));
                    if (d <= reach)
                    {
                        double z = tip - fall + cutter.HeightAt(Math.Clamp(d - wider, 0, cutter.Radius));
                        ref float cell = ref cells[(y * grid.Columns) + x];
                        cell = Math.Min(cell, (float)Math.Max(0, z));
                    }
                }
            }
        }
        return cells;
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void Tally_is_what_the_block_lost() =>
        Gen.Select(RandomMotions.Any.Array[3], Gen.Int[0, RandomMotions.Cutters.Count - 1].Array[3])
            .Sample(
                (motions, which) =>
                {
                    BlockGrid grid = RandomMotions.Grid(0.1, 41.3);
                    Carver carver = new(grid);
                    for (int i = 0; i < motions.Length; i++)
                    {
                        float[] before = grid.Top();
                        Tally tally = carver.Cut(motions[i], RandomMotions.Cutters[which[i]], 1.5);
                        float[] taken = [.. before.Zip(grid.Top(), (a, b) => a - b)];
                        double volume = taken.Sum(t => (double)t) * 0.01;
                        Assert.Equal(volume, tally.Removed, 1e-3 + (volume * 2e-4));
                        Assert.InRange(tally.Deepest, 0, taken.Max() + 1e-5);
                        if (OneClosedForm(motions[i], RandomMotions.Cutters[which[i]]))
                        {
                            Assert.Equal(taken.Max(), (float)tally.Deepest, 1e-5f);
                            Assert.Equal(taken.Count(t => t > 1.5f) * 0.01, tally.DeepMm2, 0.0101);
                        }
                    }
                },
                iter: 20,
                threads: 1,
                seed: "0000Zr6YZjJ4"
            );

    /// <summary>Cells opened before every motion against tiles kept as they come: the same bits, also with cells beyond the last tile.</summary>
    [Theory]
    [InlineData(40)]
    [InlineData(70.3)]
    [Trait("Speed", "Slow")]
    public void Tiles_and_cells_carve_the_same(double width) =>
        Gen.Select(RandomMotions.Any.Array[2, 12], Gen.Int[0, RandomMotions.Cutters.Count - 1].Array[12])
            .Sample(
                (motions, which) =>
                {
                    BlockGrid tiles = RandomMotions.Grid(0.1, width);
                    BlockGrid cells = RandomMotions.Grid(0.1, width);
                    Carver carver = new(tiles);
                    Carver other = new(cells);
                    for (int i = 0; i < motions.Length; i++)
                    {
                        Tally a = carver.Cut(motions[i], RandomMotions.Cutters[which[i]], 1.5);
                        cells.TopHeights.OpenAll();
                        Tally b = other.Cut(motions[i], RandomMotions.Cutters[which[i]], 1.5);
                        Assert.Equal(a.Removed, b.Removed, 1e-4 + (a.Removed * 1e-5));
                        Assert.Equal(a.Deepest, b.Deepest);
                        Assert.Equal(a.DeepMm2, b.DeepMm2, 1e-6);
                        Assert.Equal(
                            carver.Highest(Piece.From(motions[i]), 4),
                            other.Highest(Piece.From(motions[i]), 4)
                        );
                    }
                    Assert.Equal(tiles.TopHeights.Highest(), cells.Top().Max());
                    Assert.True(tiles.Top().AsSpan().SequenceEqual(cells.Top()));
                },
                iter: 20,
                threads: 1,
                seed: "0000Zr6YZjJ4"
            );
}
