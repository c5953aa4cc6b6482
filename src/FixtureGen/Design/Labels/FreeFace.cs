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

    private readonly Box2 _box;
    private readonly int[,] _takenBefore;
    private readonly int _columns;
    private readonly int _rows;

    /// <param name="box">The part of the face that may be written on.</param>
    /// <param name="taken">What is cut or covered, each already outset by the wanted distance.</param>
    public FreeFace(Box2 box, IReadOnlyList<Region> taken, Kernel kernel)
    {
        _box = box;
        _columns = (int)Math.Floor(box.Width / Cell);
        _rows = (int)Math.Floor(box.Height / Cell);
        _takenBefore = new int[_columns + 1, _rows + 1];
        RegionIndex grown = new(kernel.Offset(taken, Cell));
        for (int j = 0; j < _rows; j++)
        {
            bool[] row = Row(j, grown);
            for (int i = 0; i < _columns; i++)
            {
                _takenBefore[i + 1, j + 1] =
                    _takenBefore[i, j + 1] + _takenBefore[i + 1, j] - _takenBefore[i, j] + (row[i] ? 1 : 0);
            }
        }
    }

    /// <summary>A free rectangle of this size, the lowest and then the leftmost; null where there is none.</summary>
    public Box2? Find(double width, double height)
    {
        int w = (int)Math.Ceiling(width / Cell);
        int h = (int)Math.Ceiling(height / Cell);
        for (int j = 0; j + h <= _rows; j++)
        {
            for (int i = 0; i + w <= _columns; i++)
            {
                if (Taken(i, j, w, h) == 0)
                {
                    double x = _box.MinX + (i * Cell);
                    double y = _box.MinY + (j * Cell);
                    return new(x, y, x + width, y + height);
                }
            }
        }
        return null;
    }

    private int Taken(int i, int j, int w, int h) =>
        _takenBefore[i + w, j + h] - _takenBefore[i, j + h] - _takenBefore[i + w, j] + _takenBefore[i, j];

    /// <summary>A cell is taken where its middle line meets what was grown by a cell.</summary>
    private bool[] Row(int j, RegionIndex grown)
    {
        bool[] row = new bool[_columns];
        double y = _box.MinY + ((j + 0.5) * Cell);
        foreach (OpenPath piece in grown.Line(new(_box.MinX - 1, y), new(_box.MaxX + 1, y)))
        {
            int from = Math.Max(0, (int)Math.Floor((piece.Start.X - _box.MinX) / Cell));
            int to = Math.Min(_columns - 1, (int)Math.Floor((piece.End.X - _box.MinX) / Cell));
            for (int i = from; i <= to; i++)
            {
                row[i] = true;
            }
        }
        return row;
    }
}
