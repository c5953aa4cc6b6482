using FixtureGen.Model;

namespace FixtureGen.Verify.Verdicts;

/// <summary>
/// The block as carved: for each cell the Z of its top face and of its underside, mm, plate frame, as single floats. A cell
/// with Bottom &gt;= Top is empty. Row 0 is the least Y, column 0 the least X; cell i's centre lies (i + 0.5) Cell from the box's
/// least corner.
/// </summary>
/// <param name="box">The nominal blank, mm.</param>
/// <param name="cell">Side of a square cell, mm, above 0.</param>
/// <param name="bottomZ">Z of the uncut underside, mm.</param>
/// <param name="topZ">Z of the uncut top, mm, above <paramref name="bottomZ"/>.</param>
public sealed class BlockGrid(Box2 box, double cell, double bottomZ, double topZ) : IDisposable
{
    private Heights _bottom = New(box, cell, bottomZ);

    /// <summary>The design's blank before its first cut, from Z0 to its raw thickness; cell in mm.</summary>
    public static BlockGrid Raw(FixtureDesign design, double cell) =>
        new(design.Placement.BlankBox, cell, 0, design.RawThickness);

    /// <summary>The nominal blank, plate frame, mm. The last row and column of cells may reach past it.</summary>
    public Box2 Box { get; } = box;

    /// <summary>Side of a square cell, mm, above 0.</summary>
    public double Cell { get; } = cell;

    /// <summary>Z of every cell's underside before the first cut, mm.</summary>
    public double RawBottomZ { get; } = bottomZ;

    /// <summary>Z of every cell's top before the first cut, mm.</summary>
    public double RawTopZ { get; } = topZ;

    /// <summary>Cells along X: what covers the box, rounded up.</summary>
    public int Columns { get; } = Cells(box.Width, cell);

    /// <summary>Cells along Y: what covers the box, rounded up.</summary>
    public int Rows { get; } = Cells(box.Height, cell);

    /// <summary>The middle of a cell that is counted row by row from the lower left, mm.</summary>
    internal Point2 Centre(int cell) =>
        new(Box.MinX + (((cell % Columns) + 0.5) * Cell), Box.MinY + (((cell / Columns) + 0.5) * Cell));

    internal Heights TopHeights { get; } = New(box, cell, topZ);

    /// <summary>True while every cell's underside is as high as before the first cut.</summary>
    public bool IsBottomRaw => _bottom.IsLevel((float)RawBottomZ);

    /// <summary>The grid keeps those that it is given, and disposes of them.</summary>
    internal Heights BottomHeights
    {
        get => _bottom;
        set
        {
            _bottom.Dispose();
            _bottom = value;
        }
    }

    /// <summary>Gives the memory back for the next block; the grid may not be looked at after. A grid that is merely forgotten costs time only.</summary>
    public void Dispose()
    {
        TopHeights.Dispose();
        _bottom.Dispose();
    }

    /// <summary>Writes the top of every cell of a row (from 0), mm; there must be room for Columns of them.</summary>
    public void Top(int row, Span<float> to) => TopHeights.Row(row, to);

    /// <summary>Writes the underside of every cell of a row (from 0), mm; there must be room for Columns of them.</summary>
    public void Bottom(int row, Span<float> to) => BottomHeights.Row(row, to);

    private static Heights New(Box2 box, double cell, double z) =>
        new(Cells(box.Width, cell), Cells(box.Height, cell), (float)z);

    private static int Cells(double length, double cell) => (int)Math.Ceiling((length / cell) - 1e-9);
}
