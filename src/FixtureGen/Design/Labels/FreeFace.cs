using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Labels;

/// <summary>
/// The block's face outside the part as cells of a millimetre, free or taken, with running sums so that any rectangle
/// is asked in one step. A free cell is wholly free.
/// </summary>
internal sealed class FreeFace
{
    private const double Cell = 1;

    private readonly Box2 box;
    private readonly int[,] takenBefore;
    private readonly int columns;
    private readonly int rows;

    /// <param name="box">The part of the face that may be written on.</param>
    /// <param name="taken">What is cut or covered, each already outset by the wanted distance.</param>
    public FreeFace(Box2 box, IReadOnlyList<Region> taken, Kernel kernel)
    {
        this.box = box;
        columns = (int)Math.Floor(box.Width / Cell);
        rows = (int)Math.Floor(box.Height / Cell);
        takenBefore = new int[columns + 1, rows + 1];
        RegionIndex grown = new(kernel.Offset(taken, Cell));
        for (int j = 0; j < rows; j++)
        {
            bool[] row = Row(j, grown);
            for (int i = 0; i < columns; i++)
            {
                takenBefore[i + 1, j + 1] =
                    takenBefore[i, j + 1] + takenBefore[i + 1, j] - takenBefore[i, j] + (row[i] ? 1 : 0);
            }
        }
    }

    /// <summary>A free rectangle of this size, the lowest and then the leftmost; null where there is none.</summary>
    public Box2? Find(double width, double height)
    {
        int w = (int)Math.Ceiling(width / Cell);
        int h = (int)Math.Ceiling(height / Cell);
        for (int j = 0; j + h <= rows; j++)
        {
            for (int i = 0; i + w <= columns; i++)
            {
                if (Taken(i, j, w, h) == 0)
                {
                    double x = box.MinX + (i * Cell);
                    double y = box.MinY + (j * Cell);
                    return new(x, y, x + width, y + height);
                }
            }
        }
        return null;
    }

    private int Taken(int i, int j, int w, int h) =>
        takenBefore[i + w, j + h] - takenBefore[i, j + h] - takenBefore[i + w, j] + takenBefore[i, j];

    /// <summary>A cell is taken where its middle line meets what was grown by a cell.</summary>
    private bool[] Row(int j, RegionIndex grown)
    {
        bool[] row = new bool[columns];
        double y = box.MinY + ((j + 0.5) * Cell);
        foreach (OpenPath piece in grown.Line(new(box.MinX - 1, y), new(box.MaxX + 1, y)))
        {
            int from = Math.Max(0, (int)Math.Floor((piece.Start.X - box.MinX) / Cell));
            int to = Math.Min(columns - 1, (int)Math.Floor((piece.End.X - box.MinX) / Cell));
            for (int i = from; i <= to; i++)
            {
                row[i] = true;
            }
        }
        return row;
    }
}
