using System.Runtime.Intrinsics;
using CsCheck;
using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>Each closed-form sweep against the cutter set down at many points of the way, and against analytic volumes.</summary>
public sealed class CarvingTest
{
    private static readonly Cutter Flat = Cutter.From(TestShop.EndMill(1, 6));
    private static readonly Cutter Ball = Cutter.From(TestShop.Ball(2, 6));
    private static readonly Cutter Cone = Cutter.From(TestShop.Cone(3, ToolKind.Engraver, 6, 60, 0.4));

    private static BlockGrid Grid(double cell = 0.2) => new(new Box2(0, 0, 40, 40), cell, 0, 10);

    private static Motion Line(double x0, double y0, double z0, double x1, double y1, double z1) =>
        new(1, MotionKind.Line, new Point3(x0, y0, z0), new Point3(x1, y1, z1), default, 100, 1);

    private static Motion Arc(double x, double y, double r, double from, double sweep, double z0, double z1)
    {
        Point3 At(double a, double z) => new(x + (r * Math.Cos(a)), y + (r * Math.Sin(a)), z);
        MotionKind kind = sweep > 0 ? MotionKind.ArcCcw : MotionKind.ArcCw;
        bool full = Math.Abs(sweep) > 6.28;
        return new Motion(1, kind, At(from, z0), At(full ? from : from + sweep, z1), new Point2(x, y), 100, 1);
    }

    /// <summary>The cutter stamped at steps of a hundredth: never lower than the sweep by more than the step can tell.</summary>
    private static void Compare(Motion motion, Cutter cutter, double tolerance)
    {
        BlockGrid swept = Grid();
        Tally tally = new Carver(swept).Cut(motion, cutter, 1);
        float[] stamped = Grid().Top();
        Shape.Piece piece = Shape.Piece.From(motion);
        double descent = Math.Abs(motion.To.Z - motion.From.Z);
        int n = Math.Max(1, (int)(Math.Max(piece.Length, descent) / 0.01));
        for (int i = 0; i <= n; i++)
        {
            double t = (double)i / n;
            Point2 p = piece.Length > 0 ? piece.PointAt(t) : motion.From.Xy;
            double z = motion.From.Z + ((motion.To.Z - motion.From.Z) * t);
            Stamp(swept, stamped, p, z, cutter);
        }
        int off = 0;
        double removed = 0;
        float[] top = swept.Top();
        for (int i = 0; i < top.Length; i++)
        {
            removed += 10 - top[i];
            off += Math.Abs(top[i] - stamped[i]) > tolerance ? 1 : 0;
        }
        Assert.True(
            off <= 6,
            FormattableString.Invariant($"{off} cells differ, line {motion.Kind} to {motion.To.X} {motion.To.Y}")
        );
        Assert.Equal(removed * swept.Cell * swept.Cell, tally.Removed, 0.02);
    }

    private static void Stamp(BlockGrid grid, float[] top, Point2 at, double tip, Cutter cutter)
    {
        int x0 = Math.Max(0, (int)((at.X - cutter.Radius) / grid.Cell) - 1);
        int x1 = Math.Min(grid.Columns - 1, (int)((at.X + cutter.Radius) / grid.Cell) + 1);
        int y0 = Math.Max(0, (int)((at.Y - cutter.Radius) / grid.Cell) - 1);
        int y1 = Math.Min(grid.Rows - 1, (int)((at.Y + cutter.Radius) / grid.Cell) + 1);
        for (int y = y0; y <= y1; y++)
        {
            for (int x = x0; x <= x1; x++)
            {
                double d = new Point2((x + 0.5) * grid.Cell, (y + 0.5) * grid.Cell).DistanceTo(at);
                int i = (y * grid.Columns) + x;
                if (d <= cutter.Radius)
                {
                    top[i] = Math.Min(top[i], (float)Math.Max(0, tip + cutter.HeightAt(d)));
                }
            }
        }
    }

    public static TheoryData<int> Cutters => [0, 1, 2];

    private static Cutter Cutter3(int which) =>
        which switch
        {
            0 => Flat,
            1 => Ball,
            _ => Cone,
        };

    [Theory]
    [MemberData(nameof(Cutters))]
    [Trait("Speed", "Slow")]
    public void Level_line_covers_what_the_cutter_passes(int which) =>
        Compare(Line(8.03, 9.1, 4, 30.2, 21.37, 4), Cutter3(which), 0.02);

    [Theory]
    [MemberData(nameof(Cutters))]
    [Trait("Speed", "Slow")]
    public void Ramp_is_exact_both_ways(int which)
    {
        Compare(Line(8.03, 9.1, 8, 30.2, 21.37, 3), Cutter3(which), 0.02);
        Compare(Line(30.2, 21.37, 3, 8.03, 9.1, 8), Cutter3(which), 0.02);
        Compare(Line(8.03, 9.1, 8, 9.2, 9.3, 3), Cutter3(which), 0.06);
    }

    [Theory]
    [MemberData(nameof(Cutters))]
    [Trait("Speed", "Slow")]
    public void Level_arcs_of_every_sweep(int which)
    {
        Compare(Arc(20.01, 19.97, 9, 0.3, 1.1, 4, 4), Cutter3(which), 0.02);
        Compare(Arc(20.01, 19.97, 9, 0.3, -4.1, 4, 4), Cutter3(which), 0.02);
        Compare(Arc(20.01, 19.97, 1.7, 2.3, 5.9, 4, 4), Cutter3(which), 0.02);
        Compare(Arc(20.01, 19.97, 9, 0.3, 2 * Math.PI, 4, 4), Cutter3(which), 0.02);
    }

    [Theory]
    [MemberData(nameof(Cutters))]
    public void Helices_down_and_up(int which)
    {
        Compare(Arc(20.01, 19.97, 5, 0.3, 2 * Math.PI, 8, 6), Cutter3(which), 0.03);
        Compare(Arc(20.01, 19.97, 2, 0.3, -3.1, 8, 7), Cutter3(which), 0.03);
        Compare(Arc(20.01, 19.97, 2, 0.3, 2.2, 5, 6), Cutter3(which), 0.03);
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void Any_ramp_of_a_flat_cutter_holds() =>
        Gen.Select(Gen.Double[3, 37], Gen.Double[3, 37], Gen.Double[3, 37], Gen.Double[3, 37], Gen.Double[1, 9])
            .Sample(
                (x0, y0, x1, y1, z) => Compare(Line(x0, y0, 6, x1, y1, z), Flat, 0.02),
                iter: 6,
                seed: "0000Zr6YZjJ4"
            );

    [Fact]
    public void Volume_of_a_slot_is_the_stadiums_within_the_grids_bound()
    {
        BlockGrid grid = Grid(0.1);
        double removed = new Carver(grid).Cut(Line(10, 10, 8, 30, 17, 8), Flat, 9).Removed;
        double length = Math.Sqrt((20 * 20) + (7 * 7));
        double exact = 2 * ((6 * length) + (Math.PI * 9));
        double bound = 2 * ((2 * length) + (2 * Math.PI * 3)) * 0.1 / 2;
        Assert.InRange(removed, exact - bound, exact + bound);
    }

    /// <summary>An arc that ends on a cell's own middle, where a row just beyond the disc has its middle at the height of none.</summary>
    [Theory]
    [InlineData(1.0)]
    [InlineData(-1.0)]
    public void An_arc_that_ends_on_a_cells_middle_cuts_just_what_lies_within_the_radius(double sweep)
    {
        BlockGrid grid = Grid();
        Motion motion = Arc(15.1, 20.1, 5, -sweep, sweep, 4, 4);
        Shape.Piece piece = Shape.Piece.From(motion);
        new Carver(grid).Cut(motion, Cutter.From(TestShop.EndMill(1, 5.9)), 9);
        float[] cells = grid.Top();
        for (int i = 0; i < cells.Length; i++)
        {
            Point2 p = new(((i % grid.Columns) + 0.5) * grid.Cell, ((i / grid.Columns) + 0.5) * grid.Cell);
            double off = Shape.Distance.To(piece, p) - 2.95;
            if (Math.Abs(off) > 1e-9)
            {
                Assert.Equal(off < 0 ? 4 : 10, cells[i]);
            }
        }
    }

    /// <summary>Turned over left to right, cell by cell, for widths that end at any place of a tile.</summary>
    [Theory]
    [InlineData(4.0)]
    [InlineData(4.2)]
    [InlineData(5.4)]
    public void A_block_turned_over_has_each_cell_on_the_other_side(double width)
    {
        BlockGrid grid = new(new Box2(0, 0, width, 6.2), 0.2, 0, 10);
        new Carver(grid).Cut(Line(1, 1, 7, 3.1, 5, 7), Cutter.From(TestShop.EndMill(1, 1.5)), 9);
        using Heights turned = grid.TopHeights.Turned(10);
        for (int row = 0; row < grid.Rows; row++)
        {
            for (int column = 0; column < grid.Columns; column++)
            {
                Assert.Equal(
                    10 - grid.TopHeights.HeightAt(row, column),
                    turned.HeightAt(row, grid.Columns - 1 - column)
                );
            }
        }
    }

    /// <summary>A block in memory that another one has used is as one in new memory.</summary>
    [Fact]
    public void Nothing_is_left_of_the_block_before()
    {
        float[] Carved(double z)
        {
            using BlockGrid grid = Grid(0.1);
            new Carver(grid).Cut(Arc(20, 20, 9, 0.3, 5, z, z - 1), Flat, 9);
            new Carver(grid).Cut(Line(5, 30, z, 33, 31, z), Ball, 9);
            return grid.Top();
        }
        float[] before = Carved(6);
        Carved(2);
        Assert.Equal(before, Carved(6));
    }

    [Fact]
    public void Vector_angles_agree_with_the_library()
    {
        for (int i = 0; i < 2000; i++)
        {
            float a = (i * 0.00314f) - MathF.PI;
            Vector256<float> angle = VectorAngle.Atan2(
                Vector256.Create(3 * MathF.Sin(a)),
                Vector256.Create(3 * MathF.Cos(a))
            );
            Assert.Equal(MathF.Atan2(3 * MathF.Sin(a), 3 * MathF.Cos(a)), angle[0], 1e-5f);
            float c = (i / 1000f) - 1;
            Assert.Equal(MathF.Acos(c), VectorAngle.Acos(Vector256.Create(c))[3], 1e-3f);
        }
    }
}
