using System.Numerics;
using FixtureGen.Output.Scenes;

namespace FixtureGen.Output.Pictures;

/// <summary>
/// Light on a height grid, 0..1 per cell of its top face: a low sun from the upper left with cast shadows, plus sky light
/// dimmed in pockets and along walls. Rows run upwards as in the grid.
/// </summary>
internal sealed class ReliefShade : IDisposable
{
    private const double SunTurn = 135 * Math.PI / 180;
    private const double SunHeight = 48 * Math.PI / 180;
    private readonly Heights _grid;
    private readonly HeightSums _sums;
    private readonly (HeightSums.Square About, float Reach)[] _windows;
    private readonly HeightSums.Square _near;
    private readonly HeightSums.Square _wide;

    public ReliefShade(Heights grid)
    {
        _grid = grid;
        _sums = new(grid, Windows[^1]);
        _windows = [.. Windows.Select(radius => (_sums.About(radius), (float)(1 / (radius * 1.6))))];
        _near = _sums.About(0.25);
        _wide = _sums.About(2.4);
    }

    /// <summary>Radii within which a cell's depth below its surroundings takes sky from it, mm, the widest last.</summary>
    private static double[] Windows { get; } = [0.8, 2, 5, 12];

    public void Dispose() => _sums.Dispose();

    public Borrowed<float> Light()
    {
        Borrowed<float> light = new(_grid.Columns * _grid.Rows);
        RowLight row = new(_grid.Columns);
        for (int r = _grid.Rows - 1; r >= 0; r--)
        {
            Row(r, Line(light.Span, r), row);
        }
        return light;
    }

    /// <summary>
    /// One row's light. Shadows are soft over the last half millimetre: each cell hands its horizon on along the light, to
    /// the row in front and one column on. Edges that stand proud of the mean catch a thin line of light.
    /// </summary>
    private void Row(int r, Span<float> light, RowLight row)
    {
        (float lx, float ly, float lz) = Sun;
        Slopes(r, row);
        Line(_grid.Z, r).CopyTo(row.Z);
        Sky(r, row);
        Vector<float> drop = new((float)(Math.Tan(SunHeight) * Math.Sqrt(2) * _grid.Cell));
        for (int c = 0; c < _grid.Columns; c += Vector<float>.Count)
        {
            Vector<float> at = new(row.Z, c);
            Vector<float> over = new Vector<float>(row.Horizon, c) - drop;
            Vector.Max(at, over).CopyTo(row.Next, c + 1);
            Vector<float> sun = Clamped(Vector<float>.One - ((over - at) * 2), 1);
            Vector<float> dx = new(row.Dx, c);
            Vector<float> dy = new(row.Dy, c);
            Vector<float> n = Vector<float>.One / Vector.SquareRoot((dx * dx) + (dy * dy) + Vector<float>.One);
            Vector<float> lambert = Vector.Max(
                Vector<float>.Zero,
                ((-dx * lx) + (-dy * ly) + new Vector<float>(lz)) * n
            );
            Vector<float> along = Vector.CreateSequence<float>(c + (_grid.Rows - r), 1);
            Vector<float> far = new Vector<float>(1.02f) - (along * 0.05f / (_grid.Columns + _grid.Rows));
            Vector<float> rim = Clamped((at - _near.Means(r, c)) * 0.3f, 0.14f);
            Vector<float> sky = new(row.Sky, c);
            Vector<float> direct = lambert * 0.70f * sun * (new Vector<float>(0.6f) + (sky * 0.4f));
            ((far * ((sky * 0.44f) + direct)) + (rim * 0.9f)).CopyTo(row.Sky, c);
        }
        row.Sky.AsSpan(0, _grid.Columns).CopyTo(light);
        row.HandOn();
    }

    private static Vector<float> Clamped(Vector<float> value, float most) =>
        Vector.Min(Vector.Max(value, Vector<float>.Zero), new Vector<float>(most));

    /// <summary>Central slopes over 0.2 mm each way, so that walls get a soft edge like a deburred one.</summary>
    private void Slopes(int r, RowLight row)
    {
        int reach = Reach(0.2);
        int back = Math.Max(0, r - reach);
        int ahead = Math.Min(_grid.Rows - 1, r + reach);
        Difference(Line(_grid.Z, ahead), Line(_grid.Z, back), (ahead - back) * (float)_grid.Cell, row.Dy);
        ReadOnlySpan<float> at = Line(_grid.Z, r);
        int inner = Math.Max(0, at.Length - (2 * reach));
        if (inner > 0)
        {
            Difference(at[(2 * reach)..], at[..inner], 2 * reach * (float)_grid.Cell, row.Dx.AsSpan(reach));
        }
        for (int c = 0; c < at.Length; c = c == reach - 1 ? Math.Max(reach, reach + inner) : c + 1)
        {
            int left = Math.Max(0, c - reach);
            int right = Math.Min(at.Length - 1, c + reach);
            row.Dx[c] = (at[right] - at[left]) / ((right - left) * (float)_grid.Cell);
        }
    }

    private static void Difference(ReadOnlySpan<float> ahead, ReadOnlySpan<float> back, float apart, Span<float> slope)
    {
        int c = 0;
        for (; c <= back.Length - Vector<float>.Count; c += Vector<float>.Count)
        {
            ((new Vector<float>(ahead[c..]) - new Vector<float>(back[c..])) / apart).CopyTo(slope[c..]);
        }
        for (; c < back.Length; c++)
        {
            slope[c] = (ahead[c] - back[c]) / apart;
        }
    }

    /// <summary>
    /// Light of the wall that rises behind the cell in front of (<paramref name="c"/>, <paramref name="r"/>): sky as at its foot,
    /// sun by the way it faces.
    /// </summary>
    public float Wall(ReadOnlySpan<float> light, int c, int r)
    {
        if (r == 0)
        {
            // the block's own front: nothing before it, nothing behind that turns it
            return WallLight(0.8f, -0.5f);
        }
        int reach = Reach(1);
        float dx = _wide.Mean(r, Math.Min(c + reach, _grid.Columns - 1)) - _wide.Mean(r, Math.Max(0, c - reach));
        float dy = _wide.Mean(Math.Min(r + reach, _grid.Rows - 1), c) - _wide.Mean(Math.Max(0, r - reach), c);
        float n = MathF.Sqrt((dx * dx) + (dy * dy));
        float facing = n < 1e-3f ? -0.5f : ((-dx * Sun.X) + (-dy * Sun.Y)) / n;
        return WallLight(Foot(light, c, ((r - 1) * _grid.Columns) + c), facing);
    }

    private static float WallLight(float foot, float facing) => 0.58f + (0.20f * foot) + (0.24f * facing);

    /// <summary>Light on the ground before a wall, mean over a millimetre along it: a single cell's shadow is no streak up the wall.</summary>
    private float Foot(ReadOnlySpan<float> light, int c, int at)
    {
        int reach = Reach(0.5);
        float sum = 0;
        int count = 0;
        for (int k = Math.Max(-reach, -c); k <= Math.Min(reach, _grid.Columns - 1 - c); k++)
        {
            sum += Math.Min(1, light[at + k]);
            count++;
        }
        return sum / count;
    }

    private static (float X, float Y, float Z) Sun { get; } =
        (
            (float)(Math.Cos(SunTurn) * Math.Cos(SunHeight)),
            (float)(Math.Sin(SunTurn) * Math.Cos(SunHeight)),
            (float)Math.Sin(SunHeight)
        );

    private int Reach(double mm) => Math.Max(1, (int)Math.Round(mm / _grid.Cell));

    /// <summary>How much of the sky each cell of a row sees: its depth below the mean height of wider and wider windows.</summary>
    private void Sky(int r, RowLight row)
    {
        Array.Fill(row.Sky, 1);
        foreach ((HeightSums.Square about, float reach) in _windows)
        {
            for (int c = 0; c < _grid.Columns; c += Vector<float>.Count)
            {
                Vector<float> sunk = Vector.Max(Vector<float>.Zero, about.Means(r, c) - new Vector<float>(row.Z, c));
                (new Vector<float>(row.Sky, c) / (Vector<float>.One + (sunk * reach))).CopyTo(row.Sky, c);
            }
        }
    }

    private Span<float> Line(Span<float> of, int row) => of.Slice(row * _grid.Columns, _grid.Columns);

    /// <summary>What one row needs side by side, with room for a whole vector at its end. Horizon is what the row behind hands on, one column on.</summary>
    private sealed class RowLight
    {
        public RowLight(int columns)
        {
            int room = columns + Vector<float>.Count;
            (Z, Sky, Dx, Dy) = (new float[room], new float[room], new float[room], new float[room]);
            (Horizon, Next) = (new float[room + 1], new float[room + 1]);
            Array.Fill(Horizon, float.MinValue);
            Next[0] = float.MinValue;
        }

        public float[] Z { get; }

        public float[] Sky { get; }

        public float[] Dx { get; }

        public float[] Dy { get; }

        public float[] Horizon { get; private set; }

        public float[] Next { get; private set; }

        public void HandOn() => (Horizon, Next) = (Next, Horizon);
    }
}
