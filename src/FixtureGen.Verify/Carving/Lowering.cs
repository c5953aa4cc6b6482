using System.Numerics;
using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Carving;

/// <summary>
/// Lowers cells and keeps count of what was taken. Tiles whose cells are alike go by their common height, other cells eight at a
/// time; what lies beside the wanted cells may be loaded with them but is never changed.
/// </summary>
internal ref struct Lowering
{
    private static readonly Vector256<int> Lane = Vector256.Create(0, 1, 2, 3, 4, 5, 6, 7);

    private readonly Heights _heights;
    private readonly Span<float> _alike;
    private readonly Vector256<float> _limit;
    private Taken _ofCells;
    private Taken _ofTiles;

    public Lowering(Heights heights, float limit)
    {
        _heights = heights;
        _alike = heights.Alike;
        _limit = Vector256.Create(limit);
    }

    /// <summary>Lowers the cells of all strips to z where they are higher.</summary>
    public void Flat(Strips strips, float z)
    {
        for (int i = 0; i < strips.Count; i++)
        {
            Flat(strips[i], z);
        }
    }

    /// <summary>Whether a span's cells in a column of tiles are no higher than z already.</summary>
    public readonly bool IsDown(Span1 span, int x, float z)
    {
        int tile = _heights.TileAt(span.Row) + x;
        float common = _alike[tile];
        return float.IsNaN(common)
            ? Vector256.LessThanOrEqualAll(Eight(ref _heights.Cells(tile), span.Row), Vector256.Create(z))
            : common <= z;
    }

    /// <summary>Lowers a span's cells in a column of tiles, each to its own height; floor is that of the tile's eight cells in the row.</summary>
    public void Each(Span1 span, int x, Vector256<float> floor)
    {
        int tile = _heights.TileAt(span.Row) + x;
        Vector256<int> lane = Lane + Vector256.Create((x * Heights.Tile) - span.First);
        Vector256<float> mine = Vector256.LessThan(lane.AsUInt32(), Vector256.Create((uint)span.Count)).AsSingle();
        float common = _alike[tile];
        Vector256<float> lower = mine & (floor - Vector256.Create(common));
        if (!float.IsNaN(common) && !Vector256.LessThanAny(lower, Vector256<float>.Zero))
        {
            return;
        }
        ref float cells = ref _heights.Open(tile);
        Vector256<float> old = Eight(ref cells, span.Row);
        Vector256<float> now = Vector256.ConditionalSelect(mine, Vector256.MinNative(old, floor), old);
        now.StoreUnsafe(ref cells, (nuint)(span.Row % Heights.Tile * Heights.Tile));
        _ofCells.Add(old - now, _limit);
    }

    /// <summary>Lowers one cell.</summary>
    public void LowerCell(int row, int column, float z)
    {
        int tile = _heights.TileAt(row) + (column / Heights.Tile);
        if (_alike[tile] <= z)
        {
            return;
        }
        ref float cell = ref Unsafe.Add(
            ref _heights.Open(tile),
            (row % Heights.Tile * Heights.Tile) + (column % Heights.Tile)
        );
        float old = cell;
        if (old > z)
        {
            cell = z;
            _ofCells.Add(Vector256.CreateScalar(old - z), _limit);
        }
    }

    /// <summary>Keeps the sums so far in double figures; for long runs of Each and One.</summary>
    public void Settle() => _ofCells.Settle();

    public readonly Tally Result(double cell)
    {
        const int Cells = Heights.Tile * Heights.Tile;
        double area = cell * cell;
        double sum = _ofCells.Sum + (_ofTiles.Sum * Cells);
        long deep = _ofCells.Deep + (_ofTiles.Deep * Cells);
        return new Tally(sum * area, Math.Max(_ofCells.Deepest, _ofTiles.Deepest), deep * area);
    }

    private void Flat(Strip strip, float z)
    {
        ref int firsts = ref MemoryMarshal.GetReference(strip.First);
        ref int lasts = ref MemoryMarshal.GetReference(strip.Last);
        for (int i = 0; i < strip.Rows; i += Heights.Tile)
        {
            _ofCells.Settle();
            _ofTiles.Settle();
            ref int first = ref Unsafe.Add(ref firsts, i);
            ref int last = ref Unsafe.Add(ref lasts, i);
            Band band = Band.Pack(Vector256.LoadUnsafe(ref first), Vector256.LoadUnsafe(ref last));
            if (!band.IsEmpty)
            {
                int row = strip.Row + i;
                Border(row, ref first, ref last, band.First, band.InnerFirst, z);
                Tiles(row, band.InnerFirst, band.InnerEnd, z);
                Border(row, ref first, ref last, band.InnerEnd, band.End, z);
            }
        }
    }

    /// <summary>
    /// Lowers the cells that eight rows have in the tiles from first up to end. A tile that is alike gets its cells their own
    /// heights on the way. No call in the loop: it would put the counts out of their registers.
    /// </summary>
    private void Border(int row, ref int firsts, ref int lasts, int first, int end, float z)
    {
        _heights.Reserve(Math.Max(0, end - first));
        int tiles = _heights.TileAt(row);
        ref float alike = ref _alike[tiles];
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
            Vector256<float> known = Vector256.Create(common);
            Vector256<int> lane = Lane + Vector256.Create(x * Heights.Tile);
            ref float cell = ref _heights.Take(tiles + x);
            for (int i = 0; i < Heights.Tile; i += 2)
            {
                Vector256<float> old0 = open ? Vector256.LoadUnsafe(ref cell) : known;
                Vector256<float> old1 = open ? Vector256.LoadUnsafe(ref cell, Heights.Tile) : known;
                Vector256<float> low0 = Vector256.MinNative(old0, floor);
                Vector256<float> low1 = Vector256.MinNative(old1, floor);
                Vector256<float> beside0 = Beside(lane, ref firsts, ref lasts, i);
                Vector256<float> beside1 = Beside(lane, ref firsts, ref lasts, i + 1);
                Vector256<float> now0 = Vector256.ConditionalSelect(beside0, old0, low0);
                Vector256<float> now1 = Vector256.ConditionalSelect(beside1, old1, low1);
                now0.StoreUnsafe(ref cell);
                now1.StoreUnsafe(ref cell, Heights.Tile);
                taken.Add(old0 - now0, old1 - now1, limit);
                cell = ref Unsafe.Add(ref cell, 2 * Heights.Tile);
            }
            Unsafe.Add(ref alike, x) = Heights.Differ;
        }
        _ofCells = taken;
    }

    /// <summary>A row of a tile.</summary>
    private static Vector256<float> Eight(ref float cells, int row) =>
        Vector256.LoadUnsafe(ref cells, (nuint)(row % Heights.Tile * Heights.Tile));

    /// <summary>Where the lanes' columns lie before a row's first cell or after its last.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<float> Beside(Vector256<int> lane, ref int firsts, ref int lasts, int row)
    {
        Vector256<int> before = Vector256.GreaterThan(Vector256.Create(Unsafe.Add(ref firsts, row)), lane);
        Vector256<int> after = Vector256.GreaterThan(lane, Vector256.Create(Unsafe.Add(ref lasts, row)));
        return (before | after).AsSingle();
    }

    /// <summary>Lowers the tiles from first up to end above a row: eight at once by their common heights, the open ones after.</summary>
    private void Tiles(int row, int first, int end, float z)
    {
        int tiles = _heights.TileAt(row);
        ref float alike = ref _alike[tiles];
        Vector256<float> floor = Vector256.Create(z);
        Taken taken = _ofTiles;
        for (int x = first; x < end; x += 8)
        {
            Vector256<float> old = Vector256.LoadUnsafe(ref alike, (nuint)x);
            Vector256<float> mine = Vector256.LessThan(Lane, Vector256.Create(end - x)).AsSingle();
            Vector256<float> known = mine & Vector256.Equals(old, old);
            Vector256<float> now = Vector256.ConditionalSelect(known, Vector256.MinNative(old, floor), old);
            now.StoreUnsafe(ref alike, (nuint)x);
            taken.Add(known & (old - now), _limit);
            uint open = Vector256.AndNot(mine, known).ExtractMostSignificantBits();
            for (; open != 0; open &= open - 1)
            {
                int at = x + BitOperations.TrailingZeroCount(open);
                if (OpenTile(ref _heights.Cells(tiles + at), floor))
                {
                    Unsafe.Add(ref alike, at) = z;
                }
            }
        }
        _ofTiles = taken;
    }

    /// <summary>Lowers a tile whose cells are open; true when none lies below the floor: the tile is alike then, its cells stale.</summary>
    private bool OpenTile(ref float cells, Vector256<float> floor)
    {
        Vector256<float> lowest = floor;
        Taken taken = _ofCells;
        for (int row = 0; row < Heights.Tile; row += 2)
        {
            Vector256<float> old0 = Eight(ref cells, row);
            Vector256<float> old1 = Eight(ref cells, row + 1);
            Vector256<float> now0 = Vector256.MinNative(old0, floor);
            Vector256<float> now1 = Vector256.MinNative(old1, floor);
            lowest = Vector256.MinNative(lowest, Vector256.MinNative(now0, now1));
            taken.Add(old0 - now0, old1 - now1, _limit);
        }
        _ofCells = taken;
        bool level = Vector256.EqualsAll(lowest, floor);
        for (int row = 0; row < Heights.Tile && !level; row++)
        {
            Vector256.MinNative(Eight(ref cells, row), floor).StoreUnsafe(ref cells, (nuint)(row * Heights.Tile));
        }
        return level;
    }

    /// <summary>Eight counts side by side of heights taken.</summary>
    private struct Taken
    {
        private Vector256<double> _settled;
        private Vector256<float> _sum;
        private Vector256<float> _deepest;
        private Vector256<int> _deep;

        public readonly double Sum => Vector256.Sum(_settled) + Vector256.Sum(_sum);

        public readonly long Deep => Vector256.Sum(_deep);

        public readonly float Deepest => Lanes.Greatest(_deepest);

        /// <summary>Keeps the sum so far in double figures: a float that grows long loses what is added.</summary>
        public void Settle()
        {
            (Vector256<double> first, Vector256<double> second) = Vector256.Widen(_sum);
            _settled += first + second;
            _sum = Vector256<float>.Zero;
        }

        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public void Add(Vector256<float> taken, Vector256<float> limit)
        {
            _sum += taken;
            _deepest = Vector256.MaxNative(_deepest, taken);
            _deep -= Vector256.GreaterThan(taken, limit).AsInt32();
        }

        /// <summary>Two at once, so that the next need not wait twice.</summary>
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        public void Add(Vector256<float> a, Vector256<float> b, Vector256<float> limit)
        {
            _sum += a + b;
            _deepest = Vector256.MaxNative(_deepest, Vector256.MaxNative(a, b));
            _deep -= Vector256.GreaterThan(a, limit).AsInt32() + Vector256.GreaterThan(b, limit).AsInt32();
        }
    }
}
