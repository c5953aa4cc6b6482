using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace FixtureGen.Verify.Carving;

/// <summary>
/// Lowers cells and keeps count of what was taken. Tiles whose cells are alike go by their common height, other cells eight at a
/// time; what lies beside the wanted cells may be loaded with them but is never changed.
/// </summary>
internal ref struct Lowering
{
    private static readonly Vector256<int> s_lane = Vector256.Create(0, 1, 2, 3, 4, 5, 6, 7);

    private readonly Heights _heights;
    private readonly Span<float> _cells;
    private readonly Span<float> _alike;
    private readonly Vector256<float> _limit;
    private Taken _ofCells;
    private Taken _ofTiles;

    public Lowering(Heights heights, float limit)
    {
        _heights = heights;
        _cells = heights.Raw;
        _alike = heights.Alike;
        _limit = Vector256.Create(limit);
    }

    /// <summary>Lowers the cells of all spans to z where they are higher.</summary>
    public void Flat(ReadOnlySpan<Span1> spans, float z)
    {
        while (!spans.IsEmpty)
        {
            Band band = Band.Of(spans);
            ReadOnlySpan<Span1> rows = spans[..band.Spans];
            int end = Math.Min(band.End, _heights.TileColumns);
            Border(rows, band.First, Math.Min(band.InnerFirst, end), z);
            if (band.InnerFirst < end)
            {
                Tiles(rows[0].Row, band.InnerFirst, band.InnerEnd, z);
                Border(rows, band.InnerEnd, end, z);
            }
            if (end < band.End)
            {
                Edge(rows, end * Heights.Tile, z);
            }
            spans = spans[band.Spans..];
        }
    }

    /// <summary>Makes ready to lower the cells of a span each to its own height.</summary>
    public readonly void Open(Span1 span) => _heights.Open(span.Row, span.First, span.First + span.Count);

    /// <summary>Whether the eight open cells from start are no higher than z already.</summary>
    public readonly bool IsDown(int start, float z) =>
        start + 8 <= _cells.Length
        && Vector256.LessThanOrEqualAll(Vector256.Create<float>(_cells.Slice(start, 8)), Vector256.Create(z));

    /// <summary>Lowers up to eight cells from start, each to its own height; they must be open.</summary>
    public void Each(int start, int count, Vector256<float> floor)
    {
        if (start + 8 <= _cells.Length)
        {
            ref float cell = ref Unsafe.Add(ref MemoryMarshal.GetReference(_cells), start);
            Vector256<float> mine = Vector256.LessThan(s_lane, Vector256.Create(count)).AsSingle();
            Vector256<float> old = Vector256.LoadUnsafe(ref cell);
            Vector256<float> now = Vector256.ConditionalSelect(mine, Vector256.MinNative(old, floor), old);
            now.StoreUnsafe(ref cell);
            _ofCells.Add(old - now, _limit);
            return;
        }
        for (int i = 0; i < count; i++)
        {
            One(start + i, floor[i]);
        }
    }

    /// <summary>Lowers one open cell.</summary>
    public void One(int at, float z)
    {
        float old = _cells[at];
        if (old > z)
        {
            _cells[at] = z;
            _ofCells.Add(Vector256.CreateScalar(old - z), _limit);
        }
    }

    public readonly Tally Result(double cell)
    {
        const int Cells = Heights.Tile * Heights.Tile;
        double area = cell * cell;
        double sum = _ofCells.Sum + (_ofTiles.Sum * Cells);
        long deep = _ofCells.Deep + (_ofTiles.Deep * Cells);
        return new Tally(sum * area, Math.Max(_ofCells.Deepest, _ofTiles.Deepest), deep * area);
    }

    /// <summary>Lowers the spans' cells in the tiles first up to end of a row of them.</summary>
    /// <summary>
    /// Lowers the cells that spans of one row of tiles have in the tiles from first up to end. A tile that is alike gets its cells
    /// their own heights on the way. No call in the loops: it would put the counts out of their registers.
    /// </summary>
    private void Border(ReadOnlySpan<Span1> rows, int first, int end, float z)
    {
        if (rows.Length < Heights.Tile)
        {
            _heights.Open(rows[0].Row, first * Heights.Tile, end * Heights.Tile);
        }
        int columns = _heights.Columns;
        ref float alike = ref _alike[_heights.TileAt(rows[0].Row)];
        ref float cells = ref _cells[rows[0].Row * columns];
        Vector256<float> floor = Vector256.Create(z);
        Vector256<float> limit = _limit;
        Taken taken = _ofCells;
        for (int x = first; x < end; x++)
        {
            float common = Unsafe.Add(ref alike, x);
            if (common <= z)
            {
                continue;
            }
            bool open = float.IsNaN(common);
            Vector256<int> lane = s_lane + Vector256.Create(x * Heights.Tile);
            ref float cell = ref Unsafe.Add(ref cells, x * Heights.Tile);
            for (int i = 0; i < rows.Length; i++)
            {
                ref readonly Span1 span = ref rows[i];
                Vector256<uint> beyond = (lane - Vector256.Create(span.First)).AsUInt32();
                Vector256<float> mine = Vector256.LessThan(beyond, Vector256.Create((uint)span.Count)).AsSingle();
                Vector256<float> old = open ? Vector256.LoadUnsafe(ref cell) : Vector256.Create(common);
                Vector256<float> now = Vector256.ConditionalSelect(mine, Vector256.MinNative(old, floor), old);
                now.StoreUnsafe(ref cell);
                taken.Add(old - now, limit);
                cell = ref Unsafe.Add(ref cell, columns);
            }
            Unsafe.Add(ref alike, x) = Heights.Differ;
        }
        _ofCells = taken;
    }

    /// <summary>Lowers the tiles from first up to end above a row: eight at once by their common heights, the open ones after.</summary>
    private void Tiles(int row, int first, int end, float z)
    {
        ref float alike = ref _alike[_heights.TileAt(row)];
        Vector256<float> floor = Vector256.Create(z);
        Taken taken = _ofTiles;
        for (int x = first; x < end; x += 8)
        {
            Vector256<float> old = Vector256.LoadUnsafe(ref alike, (nuint)x);
            Vector256<float> mine = Vector256.LessThan(s_lane, Vector256.Create(end - x)).AsSingle();
            Vector256<float> known = mine & Vector256.Equals(old, old);
            Vector256<float> now = Vector256.ConditionalSelect(known, Vector256.MinNative(old, floor), old);
            now.StoreUnsafe(ref alike, (nuint)x);
            taken.Add(known & (old - now), _limit);
            uint open = Vector256.AndNot(mine, known).ExtractMostSignificantBits();
            for (; open != 0; open &= open - 1)
            {
                int at = x + BitOperations.TrailingZeroCount(open);
                if (OpenTile((row * _heights.Columns) + (at * Heights.Tile), floor))
                {
                    Unsafe.Add(ref alike, at) = z;
                }
            }
        }
        _ofTiles = taken;
    }

    /// <summary>Lowers a tile whose cells are open; true when none lies below the floor: the tile is alike then, its cells stale.</summary>
    private bool OpenTile(int at, Vector256<float> floor)
    {
        int columns = _heights.Columns;
        ref float cells = ref _cells[at];
        Vector256<float> lowest = floor;
        Taken taken = _ofCells;
        for (int row = 0; row < Heights.Tile; row++)
        {
            Vector256<float> old = Vector256.LoadUnsafe(ref cells, (nuint)(row * columns));
            Vector256<float> now = Vector256.MinNative(old, floor);
            lowest = Vector256.MinNative(lowest, now);
            taken.Add(old - now, _limit);
        }
        _ofCells = taken;
        bool level = Vector256.EqualsAll(lowest, floor);
        for (int row = 0; row < Heights.Tile && !level; row++)
        {
            ref float cell = ref Unsafe.Add(ref cells, row * columns);
            Vector256.MinNative(Vector256.LoadUnsafe(ref cell), floor).StoreUnsafe(ref cell);
        }
        return level;
    }

    /// <summary>Lowers the spans' cells from a column on, beyond the last whole tile.</summary>
    private void Edge(ReadOnlySpan<Span1> rows, int column, float z)
    {
        foreach (Span1 span in rows)
        {
            for (int i = Math.Max(column, span.First); i < span.First + span.Count; i++)
            {
                One((span.Row * _heights.Columns) + i, z);
            }
        }
    }

    /// <summary>Eight counts side by side of heights taken.</summary>
    private struct Taken
    {
        private Vector256<float> _sum;
        private Vector256<float> _deepest;
        private Vector256<int> _deep;

        public readonly double Sum => Vector256.Sum(_sum);

        public readonly long Deep => Vector256.Sum(_deep);

        public readonly float Deepest
        {
            get
            {
                float deepest = 0;
                for (int i = 0; i < 8; i++)
                {
                    deepest = Math.Max(deepest, _deepest[i]);
                }
                return deepest;
            }
        }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public void Add(Vector256<float> taken, Vector256<float> limit)
        {
            _sum += taken;
            _deepest = Vector256.MaxNative(_deepest, taken);
            _deep -= Vector256.GreaterThan(taken, limit).AsInt32();
        }
    }
}
