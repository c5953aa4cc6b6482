using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace FixtureGen.Verify.Carving;

/// <summary>
/// Lowers cells and keeps count of what was taken. Runs whose cells are alike go eight runs at a time, other cells eight at a
/// time; what lies beside the wanted cells may be loaded with them but is never changed.
/// </summary>
internal ref struct Lowering
{
    private static readonly Vector256<int> s_lane = Vector256.Create(0, 1, 2, 3, 4, 5, 6, 7);

    /// <summary>Spans of this many cells have enough whole runs in them to be worth looking at run by run.</summary>
    private const int Broad = 5 * Heights.Run;

    private readonly Heights _heights;
    private readonly Span<float> _cells;
    private readonly Span<float> _alike;
    private readonly Vector256<float> _limit;
    private Taken _ofCells;
    private Taken _ofRuns;

    public Lowering(Heights heights, float limit)
    {
        _heights = heights;
        _cells = heights.Raw;
        _alike = heights.Alike;
        _limit = Vector256.Create(limit);
    }

    /// <summary>Lowers the cells of all spans to z where they are higher.</summary>
    public void Flat(ReadOnlySpan<Span1> spans, int columns, float z)
    {
        foreach (Span1 span in spans)
        {
            int start = (span.Row * columns) + span.First;
            if (span.Count >= Broad)
            {
                Wide(start, start + span.Count, z);
            }
            else
            {
                _heights.Open(start, start + span.Count);
            }
        }
        Narrow(spans, columns, z);
    }

    /// <summary>Makes ready to lower the cells from start up to end each to its own height.</summary>
    public readonly void Open(int start, int end) => _heights.Open(start, end);

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
        double area = cell * cell;
        double sum = _ofCells.Sum + (_ofRuns.Sum * Heights.Run);
        long deep = _ofCells.Deep + (_ofRuns.Deep * Heights.Run);
        return new Tally(sum * area, Math.Max(_ofCells.Deepest, _ofRuns.Deepest), deep * area);
    }

    /// <summary>The spans that are not broad, whose cells are open. No call in the loop: it would put the counts out of their registers.</summary>
    private void Narrow(ReadOnlySpan<Span1> spans, int columns, float z)
    {
        Taken taken = _ofCells;
        Vector256<float> floor = Vector256.Create(z);
        foreach (Span1 span in spans)
        {
            int start = (span.Row * columns) + span.First;
            if (span.Count < Broad)
            {
                Cells(start, start + span.Count, floor, ref taken);
            }
        }
        _ofCells = taken;
    }

    /// <summary>One span with whole runs in it: those that are alike, and stay so, by their common height.</summary>
    private void Wide(int at, int end, float z)
    {
        Vector256<float> floor = Vector256.Create(z);
        while (at < end)
        {
            at = Runs(at, end, z);
            int next = Math.Min(end, (at | (Heights.Run - 1)) + 1);
            _heights.Open(at, next);
            Taken taken = _ofCells;
            bool down = Cells(at, next, floor, ref taken);
            _ofCells = taken;
            if (down && next - at == Heights.Run)
            {
                _heights.Level(at, z);
            }
            at = next;
        }
    }

    /// <summary>Lowers whole runs while the cells of each are alike; returns the first cell that was not done.</summary>
    private int Runs(int at, int end, float z)
    {
        int run = at / Heights.Run;
        int last = at % Heights.Run == 0 ? Math.Min(end / Heights.Run, _alike.Length) : 0;
        Taken taken = _ofRuns;
        for (; run <= last - 8; run += 8)
        {
            Vector256<float> old = Vector256.Create<float>(_alike.Slice(run, 8));
            if (!Vector256.EqualsAll(old, old))
            {
                break;
            }
            Vector256<float> now = Vector256.MinNative(old, Vector256.Create(z));
            now.CopyTo(_alike[run..]);
            taken.Add(old - now, _limit);
        }
        for (; run < last && !float.IsNaN(_alike[run]); run++)
        {
            float old = _alike[run];
            _alike[run] = Math.Min(old, z);
            taken.Add(Vector256.CreateScalar(old - _alike[run]), _limit);
        }
        _ofRuns = taken;
        return Math.Max(at, run * Heights.Run);
    }

    /// <summary>Lowers open cells; says whether all whole vectors of them are at the floor now.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private readonly bool Cells(int start, int end, Vector256<float> floor, ref Taken taken)
    {
        ref float cell = ref MemoryMarshal.GetReference(_cells);
        Vector256<float> limit = _limit;
        Vector256<float> lowest = floor;
        int i = start;
        for (; i <= end - 8; i += 8)
        {
            Vector256<float> old = Vector256.LoadUnsafe(ref cell, (nuint)i);
            Vector256<float> now = Vector256.MinNative(old, floor);
            now.StoreUnsafe(ref cell, (nuint)i);
            lowest = Vector256.MinNative(lowest, now);
            taken.Add(old - now, limit);
        }
        if (i < end)
        {
            int at = Math.Min(i, _cells.Length - 8);
            Vector256<int> lane = s_lane + Vector256.Create(at);
            Vector256<int> mine =
                Vector256.GreaterThan(lane, Vector256.Create(i - 1)) & Vector256.LessThan(lane, Vector256.Create(end));
            Vector256<float> old = Vector256.LoadUnsafe(ref cell, (nuint)at);
            Vector256<float> now = Vector256.ConditionalSelect(mine.AsSingle(), Vector256.MinNative(old, floor), old);
            now.StoreUnsafe(ref cell, (nuint)at);
            taken.Add(old - now, limit);
        }
        return Vector256.EqualsAll(lowest, floor);
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
