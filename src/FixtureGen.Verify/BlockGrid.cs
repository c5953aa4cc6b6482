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

    public int Columns { get; } = Cells(box.Width, cell);

    public int Rows { get; } = Cells(box.Height, cell);

    public float[] Top => TopHeights.Cells();

    public float[] Bottom => BottomHeights.Cells();

    internal Heights TopHeights { get; } = New(box, cell, topZ);

    internal Heights BottomHeights { get; } = New(box, cell, bottomZ);

    private static Heights New(Box2 box, double cell, double z) =>
        new(Cells(box.Width, cell), Cells(box.Height, cell), (float)z);

    private static int Cells(double length, double cell) => (int)Math.Ceiling((length / cell) - 1e-9);
}
