namespace FixtureGen.Verify.Carving;

/// <summary>
/// A height for every cell of a grid, mm, rows one after another. Cells are kept in square tiles: while all of a tile are alike,
/// one number stands for them and the cells themselves are stale, so that raw faces and flat floors cost next to nothing.
/// </summary>
internal sealed class Heights
{
    /// <summary>Cells along a tile's side: a vector's worth.</summary>
    public const int Tile = 8;

    /// <summary>In Alike: the cells of this tile are open, each has its own height.</summary>
    public const float Differ = float.NaN;

    private readonly float[] _cells;
    private readonly float[] _alike;
    private bool _summed = true;

    /// <summary>Eight cells at least, one vector's worth.</summary>
    public Heights(int columns, int rows, float level)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(columns * rows, Tile);
        Columns = columns;
        Rows = rows;
        TileColumns = columns / Tile;
        TileRows = (rows + Tile - 1) / Tile;
        _cells = GC.AllocateUninitializedArray<float>(columns * rows);
        _alike = new float[(TileRows * TileColumns) + Tile - 1];
        int whole = rows / Tile * TileColumns;
        _alike.AsSpan(0, whole).Fill(level);
        _alike.AsSpan(whole).Fill(Differ);
        for (int row = 0; row < rows; row++)
        {
            int open = row < rows / Tile * Tile ? TileColumns * Tile : 0;
            _cells.AsSpan(row * columns, columns)[open..].Fill(level);
        }
    }

    public int Columns { get; }

    public int Rows { get; }

    public int Count => _cells.Length;

    /// <summary>Tiles in a row of them; the cells to the right of the last whole one belong to none and are always open.</summary>
    public int TileColumns { get; }

    /// <summary>Rows of tiles; when the last is not a whole one, its tiles are always open.</summary>
    public int TileRows { get; }

    /// <summary>The cells as they are behind tiles that are alike: for those who look at Alike first.</summary>
    public Span<float> Raw => _cells;

    /// <summary>
    /// The common height of each tile, or Differ, rows one after another; behind the last a few that stand for nothing, so that
    /// a vector may be loaded anywhere.
    /// </summary>
    public Span<float> Alike
    {
        get
        {
            _summed = true;
            return _alike;
        }
    }

    /// <summary>All cells with their own height, to read or to write; what was known of tiles is forgotten.</summary>
    public float[] Cells()
    {
        if (_summed)
        {
            for (int row = 0; row < TileRows; row++)
            {
                Open(row * Tile, 0, Columns);
            }
            _summed = false;
        }
        return _cells;
    }

    public float At(int cell)
    {
        (int row, int column) = Math.DivRem(cell, Columns);
        return At(row, column);
    }

    /// <summary>Where in Alike the tiles of a row of cells begin.</summary>
    public int TileAt(int row) => row / Tile * TileColumns;

    public float At(int row, int column)
    {
        int x = column / Tile;
        float alike = x < TileColumns ? _alike[TileAt(row) + x] : Differ;
        return float.IsNaN(alike) ? _cells[(row * Columns) + column] : alike;
    }

    /// <summary>Gives the cells of every tile that these cells of a row touch their own heights.</summary>
    public void Open(int row, int first, int end)
    {
        int last = Math.Min(TileColumns, (end + Tile - 1) / Tile);
        for (int x = first / Tile; x < last; x++)
        {
            ref float alike = ref _alike[TileAt(row) + x];
            if (!float.IsNaN(alike))
            {
                Fill(row / Tile * Tile, x * Tile, alike);
                alike = Differ;
            }
        }
    }

    /// <summary>The highest of all cells, mm.</summary>
    public float Highest()
    {
        float highest = float.MinValue;
        foreach (float alike in _alike.AsSpan(0, TileRows * TileColumns))
        {
            highest = float.IsNaN(alike) ? highest : Math.Max(highest, alike);
        }
        for (int row = 0; row < Rows; row++)
        {
            ReadOnlySpan<float> alike = _alike.AsSpan(TileAt(row), TileColumns);
            for (int i = 0; i < Columns; i++)
            {
                int x = i / Tile;
                if (x < TileColumns && !float.IsNaN(alike[x]))
                {
                    i = (x * Tile) + Tile - 1;
                    continue;
                }
                highest = Math.Max(highest, _cells[(row * Columns) + i]);
            }
        }
        return highest;
    }

    private void Fill(int row, int column, float level)
    {
        for (int i = row; i < row + Tile; i++)
        {
            _cells.AsSpan((i * Columns) + column, Tile).Fill(level);
        }
    }
}
