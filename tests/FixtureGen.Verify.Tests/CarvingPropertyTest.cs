using CsCheck;
using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Tests.Support;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>Random motions with every kind of cutter: the sweep against the cutter set down densely, the tally against the block, tiles against cells.</summary>
public sealed class CarvingPropertyTest
{
    private const double Step = 0.02;
    private const double Top = 10;

    /// <summary>Rounding of heights kept as float, and a helix's angle good to 1e-5 rad.</summary>
    private const double Rounding = 2e-4;

    private static readonly Cutter[] s_cutters =
    [
        Cutter.Of(TestShop.EndMill(1, 6)),
        Cutter.Of(TestShop.Ball(2, 5)),
        Cutter.Of(TestShop.Cone(3, ToolKind.Engraver, 6, 60, 0.4)),
        Cutter.Of(TestShop.Cone(4, ToolKind.Drill, 5, 118, 0)),
        Cutter.Of(TestShop.EndMill(5, 1)),
    ];

    private static readonly Gen<Motion> s_line = Gen.Select(
        Gen.Double[-4, 44],
        Gen.Double[-4, 44],
        Gen.Double[-4, 44],
        Gen.Double[-4, 44],
        Heights,
        (x0, y0, x1, y1, z) => new Motion(1, MotionKind.Line, new(x0, y0, z.Z0), new(x1, y1, z.Z1), default, 100, 1)
    );

    private static readonly Gen<Motion> s_arc = Gen.Select(
        Gen.Double[5, 35],
        Gen.Double[5, 35],
        Gen.Double[0.3, 14],
        Gen.Double[0, 6.2],
        Gen.OneOf(Gen.Double[0.1, 6.2], Gen.Double[-6.2, -0.1], Gen.Const(2 * Math.PI)),
        Heights,
        (x, y, r, from, sweep, z) => Arc(x, y, r, from, sweep, z.Z0, z.Z1)
    );

    private static readonly Gen<Motion> s_plunge = Gen.Select(
        Gen.Double[-4, 44],
        Gen.Double[-4, 44],
        Heights,
        (x, y, z) => new Motion(1, MotionKind.Line, new(x, y, z.Z0), new(x, y, z.Z1), default, 100, 1)
    );

    private static Gen<(double Z0, double Z1)> Heights =>
        Gen.Select(Gen.Double[1, 9], Gen.Double[1, 9], Gen.Bool, (a, b, level) => (a, level ? a : b));

    private static Gen<Motion> Any => Gen.Frequency((4, s_line), (4, s_arc), (1, s_plunge));

    private static BlockGrid Grid(double cell, double width = 40) => new(new Box2(0, 0, width, 40), cell, 0, Top);

    private static Motion Arc(double x, double y, double r, double from, double sweep, double z0, double z1)
    {
        Point3 At(double a, double z) => new(x + (r * Math.Cos(a)), y + (r * Math.Sin(a)), z);
        double to = Math.Abs(sweep) > 6.28 ? from : from + sweep;
        MotionKind kind = sweep > 0 ? MotionKind.ArcCcw : MotionKind.ArcCw;
        return new Motion(1, kind, At(from, z0), At(to, z1), new Point2(x, y), 100, 1);
    }

    /// <summary>
    /// Both ways without a cell let off: no lower than what the stamps widened by half a step could reach, no higher than the
    /// stamps themselves. A helix of a round cutter goes by chords within 0.5 um of the arc: its stamps are narrowed by that.
    /// </summary>
    [Fact]
    public void Sweep_lies_between_stamps_and_widened_stamps() =>
        Gen.Select(Any, Gen.Int[0, s_cutters.Length - 1])
            .Sample(
                (motion, which) =>
                {
                    Cutter cutter = s_cutters[which];
                    BlockGrid swept = Grid(0.3);
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
                },
                iter: 100,
                threads: 1,
                seed: "0000Zr6YZjJ4"
            );

    private static bool OneClosedForm(Motion motion, Cutter cutter) =>
        cutter.Shape == CutterShape.Flat || motion.Kind == MotionKind.Line || motion.From.Z == motion.To.Z;

    /// <summary>The cutter, wider by some mm and lower by what its way falls meanwhile, at every step of the way.</summary>
    private static float[] Stamped(Motion motion, Cutter cutter, double wider)
    {
        BlockGrid grid = Grid(0.3);
        float[] cells = grid.Top();
        Piece piece = Piece.Of(motion);
        int n = Math.Max(1, (int)Math.Ceiling(piece.Length / Step));
        double dz = motion.To.Z - motion.From.Z;
        double fall = wider > 0 && piece.Length > 0 ? Math.Abs(dz) / n : 0;
        for (int i = 0; i <= n; i++)
        {
            Point2 p = piece.Length > 0 ? piece.At((double)i / n) : motion.From.Xy;
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

    /// <summary>The grid's last cells have no eight cells behind them to be loaded with.</summary>
    [Fact]
    public void The_very_last_cells_are_carved_like_any_other()
    {
        Cutter cutter = s_cutters[4];
        for (int k = 1; k <= 20; k++)
        {
            BlockGrid grid = Grid(0.3);
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
                Assert.Equal(cut ? 5 : Top, cells[i]);
                lowered += cut ? 1 : 0;
            }
            Assert.True(lowered >= k);
            Assert.Equal(lowered * 5 * grid.Cell * grid.Cell, tally.Removed, 1e-3);
        }
    }

    [Fact]
    public void Tally_is_what_the_block_lost() =>
        Gen.Select(Any.Array[3], Gen.Int[0, s_cutters.Length - 1].Array[3])
            .Sample(
                (motions, which) =>
                {
                    BlockGrid grid = Grid(0.1, 41.3);
                    Carver carver = new(grid);
                    for (int i = 0; i < motions.Length; i++)
                    {
                        float[] before = grid.Top();
                        Tally tally = carver.Cut(motions[i], s_cutters[which[i]], 1.5);
                        float[] taken = [.. before.Zip(grid.Top(), (a, b) => a - b)];
                        double volume = taken.Sum(t => (double)t) * 0.01;
                        Assert.Equal(volume, tally.Removed, 1e-3 + (volume * 2e-4));
                        Assert.InRange(tally.Deepest, 0, taken.Max() + 1e-5);
                        if (OneClosedForm(motions[i], s_cutters[which[i]]))
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

    /// <summary>
    /// Chains of long flat moves in any direction, on levels that come again, against the definition: a cell has the lowest level of
    /// the moves whose line passes its centre within the radius. Only centres within 1e-7 mm of a rim may be either
    /// way; the points stand a hair off round numbers, or a rim would run through a whole row of centres.
    /// </summary>
    [Theory]
    [InlineData(64, 48)]
    [InlineData(61.3, 47.7)]
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
                    BlockGrid grid = new(new Box2(0, 0, width, height), 0.1, 0, Top);
                    Cutter cutter = new(s_cutters[0].Tool, CutterShape.Flat, radius, 0, 0);
                    Carver carver = new(grid);
                    float[] low = new float[grid.Rows * grid.Columns];
                    float[] high = new float[low.Length];
                    Array.Fill(low, (float)Top);
                    Array.Fill(high, (float)Top);
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

    /// <summary>Cells opened before every motion against tiles kept as they come: the same bits, also with cells beyond the last tile.</summary>
    [Theory]
    [InlineData(40)]
    [InlineData(70.3)]
    public void Tiles_and_cells_carve_the_same(double width) =>
        Gen.Select(Any.Array[2, 12], Gen.Int[0, s_cutters.Length - 1].Array[12])
            .Sample(
                (motions, which) =>
                {
                    BlockGrid tiles = Grid(0.1, width);
                    BlockGrid cells = Grid(0.1, width);
                    Carver carver = new(tiles);
                    Carver other = new(cells);
                    for (int i = 0; i < motions.Length; i++)
                    {
                        Tally a = carver.Cut(motions[i], s_cutters[which[i]], 1.5);
                        cells.TopHeights.OpenAll();
                        Tally b = other.Cut(motions[i], s_cutters[which[i]], 1.5);
                        Assert.Equal(a.Removed, b.Removed, 1e-4 + (a.Removed * 1e-5));
                        Assert.Equal(a.Deepest, b.Deepest);
                        Assert.Equal(a.DeepMm2, b.DeepMm2, 1e-6);
                        Assert.Equal(carver.Highest(Piece.Of(motions[i]), 4), other.Highest(Piece.Of(motions[i]), 4));
                    }
                    Assert.Equal(tiles.TopHeights.Highest(), cells.Top().Max());
                    Assert.True(tiles.Top().AsSpan().SequenceEqual(cells.Top()));
                },
                iter: 20,
                threads: 1,
                seed: "0000Zr6YZjJ4"
            );

    /// <summary>Volumes from the solids' own formulas (cone, sphere's half, cylinder), within half a cell round the rim.</summary>
    [Fact]
    public void Volumes_are_the_solids_own_within_the_grids_bound()
    {
        double Removed(Cutter cutter, params Motion[] motions)
        {
            BlockGrid grid = Grid(0.05);
            Carver carver = new(grid);
            return motions.Sum(m => carver.Cut(m, cutter, 9).Removed);
        }
        Motion down = new(1, MotionKind.Line, new(20.013, 20.027, 12), new(20.013, 20.027, 7.5), default, 100, 1);
        double ball = Math.PI * 2.5 * 2.5 * 2.5 * 2 / 3;
        Assert.Equal(ball, Removed(s_cutters[1], down), 2 * Math.PI * 2.5 * 2.5 * 0.05 / 2);
        double tip = 2.5 / Math.Tan(59 * Math.PI / 180);
        double drill = Math.PI * 2.5 * 2.5 * ((tip / 3) + (2.5 - tip));
        Assert.Equal(drill, Removed(s_cutters[3], down), 2 * Math.PI * 2.5 * 2.5 * 0.05 / 2);
        double bore = Math.PI * 4.5 * 4.5 * 3;
        Motion[] helix =
        [
            .. Enumerable.Range(0, 3).Select(i => Arc(20.013, 20.027, 1.5, 0.4, 2 * Math.PI, 10 - i, 9 - i)),
            Arc(20.013, 20.027, 1.5, 0.4, 2 * Math.PI, 7, 7),
        ];
        Assert.Equal(bore, Removed(s_cutters[0], helix), 2 * Math.PI * 4.5 * 3 * 0.05 / 2);
    }

    /// <summary>Good stays good and every spoiled pocket stays refused for the same reasons, whatever the grid.</summary>
    [Theory]
    [InlineData("", "", "")]
    [InlineData("G1 X40. Z17.", "G1 X40. Z16.9", "gouge")]
    [InlineData("G1 X66.\n", "G1 X66.3\n", "gouge-side")]
    [InlineData("G3 X34. Y43. I1. J0.", "G2 X34. Y43. I1. J0.", "left-over")]
    public void Refined_grid_keeps_the_verdict(string good, string bad, string code)
    {
        string text = TestShop.Program(
            good.Length > 0 ? PocketTest.Rings.Replace(good, bad, StringComparison.Ordinal) : PocketTest.Rings
        );
        foreach (double cell in (double[])[0.2, 0.1, 0.07, 0.05])
        {
            VerifyResult result = Verifier.Judge(
                new VerifyRequest(
                    PocketTest.Job,
                    PocketTest.Design,
                    [new ProgramText(Setup.Top, 1001, "test.top.nc", text)],
                    Limits.House with
                    {
                        Cell = cell,
                    }
                )
            );
            Assert.Equal(code.Length == 0, result.Ok);
            Assert.True(
                code.Length == 0 || result.Findings.Any(f => f.Code == code),
                string.Join(' ', result.Findings.Select(f => f.Code))
            );
        }
    }
}
