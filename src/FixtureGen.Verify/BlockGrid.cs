using FixtureGen.Model;
using FixtureGen.Verify.Carving;

namespace FixtureGen.Verify;

/// <summary>
/// The block as carved: for each cell the Z of its top face and of its underside, mm, plate frame. A cell with
/// Bottom &gt;= Top is empty. Row 0 is the least Y, column 0 the least X; a cell's centre is Origin + (i + 0.5) Cell.
/// </summary>
public sealed class BlockGrid(Box2 box, double cell, double bottomZ, double topZ)
{
    public Box2 Box { get; } = box;

    public double Cell { get; } = cell;

    public double RawBottomZ { get; } = bottomZ;

    public double RawTopZ { get; } = topZ;

    public int Columns { get; } = (int)Math.Ceiling((box.Width / cell) - 1e-9);

    public int Rows { get; } = (int)Math.Ceiling((box.Height / cell) - 1e-9);

    public float[] Top => TopHeights.Cells();

    public float[] Bottom => BottomHeights.Cells();

    internal Heights TopHeights { get; } = new(Cells(box, cell), (float)topZ);

    internal Heights BottomHeights { get; } = new(Cells(box, cell), (float)bottomZ);

    private static int Cells(Box2 box, double cell) =>
        (int)Math.Ceiling((box.Width / cell) - 1e-9) * (int)Math.Ceiling((box.Height / cell) - 1e-9);
}
