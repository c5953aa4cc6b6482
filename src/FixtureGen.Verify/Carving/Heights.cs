namespace FixtureGen.Verify.Carving;

/// <summary>
/// A height for every cell of a grid, mm, rows one after another. Cells are kept in runs of 64: while all of a run are alike,
/// one number stands for them and the cells themselves are stale, so that raw faces and flat floors cost next to nothing.
/// </summary>
internal sealed class Heights
{
    /// <summary>Cells in a run, a power of two.</summary>
    public const int Run = 64;

    /// <summary>In Alike: the cells of this run are open, each has its own height.</summary>
    public const float Differ = float.NaN;

    private readonly float[] _cells;
    private readonly float[] _alike;
    private bool _summed = true;

    /// <summary>Eight cells at least, one vector's worth.</summary>
    public Heights(int count, float level)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 8);
        _cells = GC.AllocateUninitializedArray<float>(count);
        _alike = new float[count / Run];
        Array.Fill(_alike, level);
        _cells.AsSpan(_alike.Length * Run).Fill(level);
    }

    public int Count => _cells.Length;

    /// <summary>The cells as they are behind runs that are alike: for those who look at Alike first.</summary>
    public Span<float> Raw => _cells;

    /// <summary>The common height of each whole run, or Differ. Cells after the last whole run are always open.</summary>
    public Span<float> Alike
    {
        get
        {
            _summed = true;
            return _alike;
        }
    }

    /// <summary>All cells with their own height, to read or to write; what was known of runs is forgotten.</summary>
    public float[] Cells()
    {
        if (_summed)
        {
            Open(0, Count);
            _summed = false;
        }
        return _cells;
    }

    public float At(int cell)
    {
        int run = cell / Run;
        return run < _alike.Length && !float.IsNaN(_alike[run]) ? _alike[run] : _cells[cell];
    }

    /// <summary>Gives the cells of every run between start and end their own heights.</summary>
    public void Open(int start, int end)
    {
        int last = Math.Min(_alike.Length, (end + Run - 1) / Run);
        for (int run = start / Run; run < last; run++)
        {
            if (!float.IsNaN(_alike[run]))
            {
                OpenRun(run);
            }
        }
    }

    /// <summary>Says that all cells of the run which begins here have this height.</summary>
    public void Level(int at, float level) => _alike[at / Run] = level;

    public float Highest()
    {
        float highest = float.MinValue;
        for (int cell = 0; cell < Count; cell++)
        {
            highest = Math.Max(highest, At(cell));
            int run = cell / Run;
            cell = run < _alike.Length && !float.IsNaN(_alike[run]) ? (run * Run) + Run - 1 : cell;
        }
        return highest;
    }

    private void OpenRun(int run)
    {
        _cells.AsSpan(run * Run, Run).Fill(_alike[run]);
        _alike[run] = Differ;
    }
}
