using System.Buffers;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace FixtureGen.Verify.Verdicts;

/// <summary>
/// A height for every cell of a grid, mm. Cells are kept in square tiles: while all of a tile are alike, one number stands for
/// them; only the others have memory of their own, so that a block takes as much of it as its walls do. The last tiles reach
/// beyond the grid where its sides are no multiple of theirs.
/// </summary>
internal sealed class Heights : IDisposable
{
    /// <summary>Cells along a tile's side: a vector's worth.</summary>
    public const int Tile = 8;

    /// <summary>In Alike: the cells of this tile are open, each has its own height.</summary>
    public const float Differ = float.NaN;

    private const int TileCells = Tile * Tile;

    private float[] _alike;

    /// <summary>Where a tile's own cells begin; 0 for one that never had any.</summary>
    private readonly int[] _own;
    private float[] _cells = ArrayPool<float>.Shared.Rent(128 * TileCells);
    private int _used = TileCells;

    public Heights(int columns, int rows, float level)
    {
        Columns = columns;
        Rows = rows;
        TileColumns = (columns + Tile - 1) / Tile;
        TileRows = (rows + Tile - 1) / Tile;
        _alike = new float[(TileRows * TileColumns) + Tile - 1];
        _alike.AsSpan().Fill(level);
        _own = new int[TileRows * TileColumns];
    }

    public int Columns { get; }

    public int Rows { get; }

    public int TileColumns { get; }

    public int TileRows { get; }

    /// <summary>
    /// The common height of each tile, or Differ, rows one after another; behind the last a few that stand for nothing, so that
    /// a vector may be loaded anywhere.
    /// </summary>
    public Span<float> Alike => _alike;

    /// <summary>The tile of the first column in a row of cells.</summary>
    public int TileAt(int row) => row / Tile * TileColumns;

    /// <summary>A cell by its number, rows one after another.</summary>
    public float HeightAt(int cell)
    {
        (int row, int column) = Math.DivRem(cell, Columns);
        return HeightAt(row, column);
    }

    public float HeightAt(int row, int column)
    {
        int tile = TileAt(row) + (column / Tile);
        float alike = _alike[tile];
        return float.IsNaN(alike) ? _cells[_own[tile] + (row % Tile * Tile) + (column % Tile)] : alike;
    }

    /// <summary>The cells of a tile that is open, row after row.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public ref float Cells(int tile) => ref Unsafe.Add(ref MemoryMarshal.GetArrayDataReference(_cells), _own[tile]);

    /// <summary>The eight cells of a tile's row, alike or not.</summary>
    public Vector256<float> Eight(int tile, int row) =>
        float.IsNaN(_alike[tile])
            ? Vector256.LoadUnsafe(ref Cells(tile), (nuint)(row * Tile))
            : Vector256.Create(_alike[tile]);

    /// <summary>Room for so many tiles more to be opened without moving any cell.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public void Reserve(int tiles)
    {
        if (_used + (tiles * TileCells) > _cells.Length)
        {
            Grow(_used + (tiles * TileCells));
        }
    }

    /// <summary>
    /// Memory for the cells of a tile, for which there must be room; what it holds is not known, and Alike is not set yet.
    /// </summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public ref float Take(int tile)
    {
        if (_own[tile] == 0)
        {
            _own[tile] = _used;
            _used += TileCells;
        }
        return ref Cells(tile);
    }

    /// <summary>The cells of a tile, which get their own heights if they were alike.</summary>
    public ref float Open(int tile)
    {
        float alike = _alike[tile];
        if (float.IsNaN(alike))
        {
            return ref Cells(tile);
        }
        Reserve(1);
        ref float cells = ref Take(tile);
        MemoryMarshal.CreateSpan(ref cells, TileCells).Fill(alike);
        _alike[tile] = Differ;
        return ref cells;
    }

    /// <summary>The cells of one row.</summary>
    public void Row(int row, Span<float> to)
    {
        int tiles = TileAt(row);
        for (int x = 0; x < TileColumns; x++)
        {
            Span<float> part = to[(x * Tile)..Math.Min(Columns, (x + 1) * Tile)];
            float alike = _alike[tiles + x];
            if (float.IsNaN(alike))
            {
                _cells.AsSpan(_own[tiles + x] + (row % Tile * Tile), part.Length).CopyTo(part);
            }
            else
            {
                part.Fill(alike);
            }
        }
    }

    /// <summary>Whether every tile has this common height.</summary>
    public bool IsLevel(float z) => !_alike.AsSpan(0, TileRows * TileColumns).ContainsAnyExcept(z);

    /// <summary>The highest of all cells, mm.</summary>
    public float Highest()
    {
        float highest = float.MinValue;
        for (int row = 0; row < Rows; row++)
        {
            for (int x = 0; x < TileColumns; x++)
            {
                float alike = _alike[TileAt(row) + x];
                for (int i = x * Tile; float.IsNaN(alike) && i < Math.Min(Columns, (x + 1) * Tile); i++)
                {
                    highest = Math.Max(highest, HeightAt(row, i));
                }
                highest = float.IsNaN(alike) ? highest : Math.Max(highest, alike);
            }
        }
        return highest;
    }

    /// <summary>The other face of a block turned over left to right: every height taken from the sum of both faces'.</summary>
    public Heights Turned(float sum)
    {
        Heights turned = new(Columns, Rows, sum);
        for (int row = 0; row < Rows; row += Tile)
        {
            for (int x = 0; x < TileColumns; x++)
            {
                int first = Columns - 1 - (x * Tile);
                int last = Math.Max(0, first - Tile + 1);
                float alike = _alike[TileAt(row) + (first / Tile)];
                if (alike == _alike[TileAt(row) + (last / Tile)])
                {
                    turned._alike[TileAt(row) + x] = sum - alike;
                    continue;
                }
                for (int r = row; r < Math.Min(Rows, row + Tile); r++)
                {
                    for (int i = first; i >= last; i--)
                    {
                        turned.Set(r, Columns - 1 - i, sum - HeightAt(r, i));
                    }
                }
            }
        }
        return turned;
    }

    /// <summary>
    /// Gives the cells' memory back for the next block: new memory costs more than most of what is done with it. No cell may be
    /// asked for after.
    /// </summary>
    public void Dispose()
    {
        if (_alike.Length > 0)
        {
            ArrayPool<float>.Shared.Return(_cells);
            (_alike, _cells) = ([], []);
        }
    }

    private void Grow(int needed)
    {
        float[] more = ArrayPool<float>.Shared.Rent(Math.Max(2 * _cells.Length, needed));
        _cells.AsSpan(0, _used).CopyTo(more);
        ArrayPool<float>.Shared.Return(_cells);
        _cells = more;
    }

    /// <summary>Gives one cell its height.</summary>
    public void Set(int row, int column, float z)
    {
        int tile = TileAt(row) + (column / Tile);
        if (_alike[tile] != z)
        {
            Unsafe.Add(ref Open(tile), (row % Tile * Tile) + (column % Tile)) = z;
        }
    }
}
