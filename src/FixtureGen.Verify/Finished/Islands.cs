using System.Buffers;
using FixtureGen.Model;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Finished;

/// <summary>Cells that hang together: one of its points, its area, whether it reaches the grid's edge.</summary>
internal sealed record Island(Point2 At, double AreaMm2, bool TouchesEdge);

/// <summary>The pieces a grid has fallen into; cells hang together by their sides.</summary>
internal sealed class Islands : IDisposable
{
    private const int Gone = -1;
    private readonly BlockGrid _grid;

    /// <summary>The island that each cell belongs to, from 1; 0 not found yet, Gone where nothing stands.</summary>
    private readonly int[] _number;
    private readonly int _cells;
    private readonly List<Island> _all = [];

    public Islands(BlockGrid grid)
    {
        _grid = grid;
        _cells = grid.Columns * grid.Rows;
        _number = ArrayPool<int>.Shared.Rent(_cells);
        float[] top = new float[grid.Columns];
        float[] bottom = new float[grid.Columns];
        for (int row = 0; row < grid.Rows; row++)
        {
            grid.Top(row, top);
            grid.Bottom(row, bottom);
            for (int i = 0; i < top.Length; i++)
            {
                _number[(row * top.Length) + i] = top[i] > bottom[i] + 1e-3f ? 0 : Gone;
            }
        }
        Stack<int> open = new();
        for (int i = 0; i < _cells; i++)
        {
            if (_number[i] == 0)
            {
                _all.Add(Flood(i, _all.Count + 1, open));
            }
        }
    }

    public IReadOnlyList<Island> All => _all;

    /// <summary>Gives the memory back.</summary>
    public void Dispose() => ArrayPool<int>.Shared.Return(_number);

    private Island Flood(int start, int number, Stack<int> open)
    {
        int count = 0;
        bool edge = false;
        open.Push(start);
        _number[start] = number;
        while (open.TryPop(out int cell))
        {
            count++;
            int x = cell % _grid.Columns;
            int y = cell / _grid.Columns;
            edge |= x == 0 || y == 0 || x == _grid.Columns - 1 || y == _grid.Rows - 1;
            Visit(x > 0, cell - 1);
            Visit(x < _grid.Columns - 1, cell + 1);
            Visit(y > 0, cell - _grid.Columns);
            Visit(y < _grid.Rows - 1, cell + _grid.Columns);
        }
        Point2 at = new(
            _grid.Box.MinX + (((start % _grid.Columns) + 0.5) * _grid.Cell),
            _grid.Box.MinY + (((start / _grid.Columns) + 0.5) * _grid.Cell)
        );
        return new Island(at, count * _grid.Cell * _grid.Cell, edge);

        void Visit(bool inside, int cell)
        {
            if (inside && _number[cell] == 0)
            {
                _number[cell] = number;
                open.Push(cell);
            }
        }
    }
}
