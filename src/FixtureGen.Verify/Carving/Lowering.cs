using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace FixtureGen.Verify.Carving;

/// <summary>
/// Lowers runs of cells eight at a time and keeps count of what was taken. Cells beyond a run's end are loaded with the last
/// vector but never changed, so the rest of a run needs no loop of its own; only at the very end of the grid there is one.
/// </summary>
internal ref struct Lowering
{
    private static readonly Vector256<int> s_lane = Vector256.Create(0, 1, 2, 3, 4, 5, 6, 7);

    private readonly Span<float> _cells;
    private readonly Vector256<float> _limit;
    private readonly float _limit1;
    private Vector256<float> _sum;
    private Vector256<float> _deepest;
    private Vector256<int> _deepLanes;
    private double _total;
    private long _deep;

    public Lowering(Span<float> cells, float limit)
    {
        _cells = cells;
        _limit = Vector256.Create(limit);
        _limit1 = limit;
    }

    /// <summary>Lowers count cells from start to z where they are higher.</summary>
    public void Flat(int start, int count, float z)
    {
        ref float cell = ref Unsafe.Add(ref MemoryMarshal.GetReference(_cells), start);
        Vector256<float> floor = Vector256.Create(z);
        // In locals: as fields of this struct they would be stored and loaded again in every round.
        Vector256<float> sum = _sum;
        Vector256<float> deepest = _deepest;
        Vector256<int> deep = _deepLanes;
        int i = 0;
        for (; i <= count - 8; i += 8)
        {
            Vector256<float> old = Vector256.LoadUnsafe(ref cell, (nuint)i);
            Vector256<float> now = Vector256.Min(old, floor);
            now.StoreUnsafe(ref cell, (nuint)i);
            Vector256<float> taken = old - now;
            sum += taken;
            deepest = Vector256.Max(deepest, taken);
            deep -= Vector256.GreaterThan(taken, _limit).AsInt32();
        }
        (_sum, _deepest, _deepLanes) = (sum, deepest, deep);
        if (i < count)
        {
            Rest(start + i, count - i, floor);
        }
    }

    /// <summary>Lowers up to eight cells from start, each to its own height.</summary>
    public void Eight(int start, int count, Vector256<float> floor) => Rest(start, count, floor);

    public void One(int at, float z)
    {
        float old = _cells[at];
        if (old > z)
        {
            _cells[at] = z;
            CountOne(old - z);
        }
    }

    public readonly Tally Result(double cell)
    {
        double sum = _total + Vector256.Sum(_sum);
        float deepest = 0;
        for (int i = 0; i < 8; i++)
        {
            deepest = Math.Max(deepest, _deepest[i]);
        }
        long deep = _deep + Vector256.Sum(_deepLanes);
        return new Tally(sum * cell * cell, deepest, deep * cell * cell);
    }

    private void Rest(int start, int count, Vector256<float> floor)
    {
        if (start + 8 <= _cells.Length)
        {
            ref float cell = ref Unsafe.Add(ref MemoryMarshal.GetReference(_cells), start);
            Vector256<float> old = Vector256.LoadUnsafe(ref cell);
            Vector256<float> mine = Vector256.LessThan(s_lane, Vector256.Create(count)).AsSingle();
            Vector256<float> now = Vector256.ConditionalSelect(mine, Vector256.Min(old, floor), old);
            now.StoreUnsafe(ref cell);
            Count(old - now);
            return;
        }
        for (int i = 0; i < count; i++)
        {
            One(start + i, floor[i]);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private void Count(Vector256<float> taken)
    {
        _sum += taken;
        _deepest = Vector256.Max(_deepest, taken);
        _deepLanes -= Vector256.GreaterThan(taken, _limit).AsInt32();
    }

    private void CountOne(float taken)
    {
        _total += taken;
        _deepest = Vector256.Max(_deepest, Vector256.Create(taken));
        _deep += taken > _limit1 ? 1 : 0;
    }
}
