using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Carving;

/// <summary>A run of cells in one row.</summary>
internal readonly record struct Span1(int Row, int First, int Count)
{
    public int FirstTile => First / Heights.Tile;

    public int LastTile => (First + Count - 1) / Heights.Tile;
}

/// <summary>
/// Rows of cells one above the other from Row on, each with the first and the last cell that belong to it, none where the first
/// is beyond the last. They begin where a row of tiles begins and are whole rows of tiles; rows beyond the grid are empty.
/// </summary>
internal readonly ref struct Strip(int row, ReadOnlySpan<int> first, ReadOnlySpan<int> last)
{
    public int Row { get; } = row;

    public ReadOnlySpan<int> First { get; } = first;

    public ReadOnlySpan<int> Last { get; } = last;

    public int Rows => First.Length;

    /// <summary>The cells of one row, counted from the strip's first.</summary>
    public Span1 SpanAt(int i) => new(Row + i, First[i], Math.Max(0, Last[i] - First[i] + 1));
}

/// <summary>
/// Cells of a grid as a few strips. The memory is used again after Clear; a row's place in it is the number that Take gave and the
/// row's own.
/// </summary>
internal sealed class Strips(int columns)
{
    private readonly List<(int At, int Row, int Rows)> _shown = [];
    private int[] _first = new int[4096];
    private int[] _last = new int[4096];
    private int _used;

    public int Count => _shown.Count;

    public Strip this[int strip]
    {
        get
        {
            (int at, int row, int rows) = _shown[strip];
            return new Strip(row, _first.AsSpan(at + row, rows), _last.AsSpan(at + row, rows));
        }
    }

    /// <summary>All runs of cells, strip by strip.</summary>
    public IEnumerable<Span1> Spans()
    {
        for (int strip = 0; strip < Count; strip++)
        {
            int rows = _shown[strip].Rows;
            for (int i = 0; i < rows; i++)
            {
                Span1 span = this[strip].SpanAt(i);
                if (span.Count > 0)
                {
                    yield return span;
                }
            }
        }
    }

    public void Clear()
    {
        _shown.Clear();
        _used = 0;
    }

    /// <summary>Room for rows of cells, widened to whole rows of tiles; what it holds is not known yet.</summary>
    public int Take(int firstRow, int lastRow)
    {
        int first = Down(firstRow);
        int rows = Math.Max(0, Up(lastRow) - first);
        int at = _used - first;
        _used += rows;
        if (_used > _first.Length)
        {
            Array.Resize(ref _first, 2 * _used);
            Array.Resize(ref _last, 2 * _used);
        }
        return at;
    }

    /// <summary>Makes a strip of rows in room that was taken for them; the first of its whole rows of tiles, and how many rows.</summary>
    public (int Row, int Rows) Show(int at, int firstRow, int lastRow)
    {
        int row = Down(firstRow);
        int rows = lastRow >= firstRow ? Up(lastRow) - row : 0;
        if (rows > 0)
        {
            _shown.Add((at, row, rows));
        }
        return (row, rows);
    }

    /// <summary>A strip of rows that are empty as yet.</summary>
    public int AddEmpty(int firstRow, int lastRow)
    {
        int at = Take(firstRow, lastRow);
        (int row, int rows) = Show(at, firstRow, lastRow);
        Empty(at, row, row + rows - 1);
        return at;
    }

    /// <summary>Leaves rows without a cell.</summary>
    public void Empty(int at, int firstRow, int lastRow)
    {
        if (lastRow >= firstRow)
        {
            _first.AsSpan(at + firstRow, lastRow - firstRow + 1).Fill(columns);
            _last.AsSpan(at + firstRow, lastRow - firstRow + 1).Fill(-1);
        }
    }

    /// <summary>Gives a row its cells; none when last lies before first.</summary>
    public void Put(int at, int row, int first, int last)
    {
        if (last >= first)
        {
            _first[at + row] = first;
            _last[at + row] = last;
        }
    }

    /// <summary>The first cells of rows, to be written.</summary>
    public Span<int> FirstFrom(int at, int row, int rows) => _first.AsSpan(at + row, rows);

    public Span<int> LastFrom(int at, int row, int rows) => _last.AsSpan(at + row, rows);

    private static int Down(int row) => row / Heights.Tile * Heights.Tile;

    private static int Up(int row) => Down(row + Heights.Tile);
}
