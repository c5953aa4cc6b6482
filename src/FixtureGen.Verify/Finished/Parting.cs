using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Finished;

/// <summary>
/// When each piece of a cut sheet came loose. The sheet is cut once and every cell remembers the motion that went through it; then the
/// cells are put back, the last first, and what grows together again had parted there. Time goes with the cells cut, however many
/// pieces there are.
/// </summary>
internal sealed class Parting
{
    private const int Standing = int.MaxValue;
    private readonly BlockGrid _grid;
    private readonly int[] _cutAt;
    private readonly int[] _parent;
    private readonly int[] _size;
    private readonly bool[] _edge;
    private readonly Dictionary<int, List<int>> _waiting = [];

    /// <summary>Cuts a fresh grid by all motions in their order.</summary>
    public Parting(BlockGrid grid, IReadOnlyList<(Motion Motion, Cutter Cutter)> cuts)
    {
        _grid = grid;
        int cells = grid.Columns * grid.Rows;
        _cutAt = new int[cells];
        _parent = new int[cells];
        _size = new int[cells];
        _edge = new bool[cells];
        Array.Fill(_cutAt, Standing);
        Carver carver = new(grid);
        Footprint footprint = new(grid);
        for (int i = 0; i < cuts.Count; i++)
        {
            (Motion motion, Cutter cutter) = cuts[i];
            if (carver.Cut(motion, cutter, double.MaxValue).Removed > 0)
            {
                footprint.Sweep(Piece.From(motion), cutter.Radius);
                Note(footprint, i);
            }
        }
    }

    /// <summary>
    /// For each piece, given by its cell and area in cells, the number of the motion before which it still hung on to half as much
    /// again or to the sheet's edge.
    /// </summary>
    public int[] PartedBy(IReadOnlyList<(int Cell, double Cells)> pieces)
    {
        int[] parted = new int[pieces.Count];
        Array.Fill(_parent, -1);
        int[] order = [.. Enumerable.Range(0, _cutAt.Length).Where(c => _cutAt[c] == Standing)];
        foreach (int cell in order)
        {
            Put(cell);
        }
        for (int i = 0; i < pieces.Count; i++)
        {
            Wait(Find(pieces[i].Cell)).Add(i);
        }
        int[] gone = [.. Enumerable.Range(0, _cutAt.Length).Where(c => _cutAt[c] != Standing)];
        Array.Sort([.. gone.Select(c => -_cutAt[c])], gone);
        for (int k = 0; k < gone.Length; )
        {
            int at = _cutAt[gone[k]];
            int from = k;
            while (k < gone.Length && _cutAt[gone[k]] == at)
            {
                Put(gone[k++]);
            }
            for (int c = from; c < k && _waiting.Count > 0; c++)
            {
                Settle(Find(gone[c]), pieces, parted, at);
            }
        }
        return parted;
    }

    private void Settle(int root, IReadOnlyList<(int Cell, double Cells)> pieces, int[] parted, int at)
    {
        if (!_waiting.TryGetValue(root, out List<int>? here))
        {
            return;
        }
        foreach (int piece in here.Where(p => Joined(root, pieces[p].Cells)))
        {
            parted[piece] = at;
        }
        here.RemoveAll(p => Joined(root, pieces[p].Cells));
        if (here.Count == 0)
        {
            _waiting.Remove(root);
        }
    }

    private bool Joined(int root, double cells) => _edge[root] || _size[root] >= 1.5 * cells;

    private void Note(Footprint footprint, int motion)
    {
        foreach (Span1 span in footprint.Strips.Spans())
        {
            for (int x = span.First; x < span.First + span.Count; x++)
            {
                int cell = (span.Row * _grid.Columns) + x;
                bool through =
                    _grid.TopHeights.HeightAt(span.Row, x) <= _grid.BottomHeights.HeightAt(span.Row, x) + 1e-3f;
                if (_cutAt[cell] == Standing && through)
                {
                    _cutAt[cell] = motion;
                }
            }
        }
    }

    /// <summary>Puts a cell back and joins it with those beside it.</summary>
    private void Put(int cell)
    {
        int x = cell % _grid.Columns;
        int y = cell / _grid.Columns;
        _parent[cell] = cell;
        _size[cell] = 1;
        _edge[cell] = x == 0 || y == 0 || x == _grid.Columns - 1 || y == _grid.Rows - 1;
        Join(x > 0, cell, cell - 1);
        Join(x < _grid.Columns - 1, cell, cell + 1);
        Join(y > 0, cell, cell - _grid.Columns);
        Join(y < _grid.Rows - 1, cell, cell + _grid.Columns);
    }

    private void Join(bool inside, int cell, int other)
    {
        if (!inside || _parent[other] < 0)
        {
            return;
        }
        int a = Find(cell);
        int b = Find(other);
        if (a == b)
        {
            return;
        }
        (int big, int small) = _size[a] >= _size[b] ? (a, b) : (b, a);
        _parent[small] = big;
        _size[big] += _size[small];
        _edge[big] |= _edge[small];
        if (_waiting.Remove(small, out List<int>? moved))
        {
            Wait(big).AddRange(moved);
        }
    }

    private List<int> Wait(int root) => _waiting.TryGetValue(root, out List<int>? list) ? list : _waiting[root] = [];

    private int Find(int cell)
    {
        while (_parent[cell] != cell)
        {
            _parent[cell] = _parent[_parent[cell]];
            cell = _parent[cell];
        }
        return cell;
    }
}
