using System.Numerics;
using System.Runtime.InteropServices;

namespace FixtureGen.Output;

/// <summary>
/// Light on a height grid, 0..1 per cell of its top face: a low sun from the upper left with cast shadows, plus sky light
/// dimmed in pockets and along walls. Rows run upwards as in the grid.
/// </summary>
internal sealed class ReliefShade
{
    private const double SunTurn = 135 * Math.PI / 180;
    private const double SunHeight = 48 * Math.PI / 180;
    private readonly Heights grid;
    private readonly float[] z;
    private readonly float[] smooth;
    private readonly float[] across;

    public ReliefShade(Heights grid)
    {
        this.grid = grid;
        z = grid.Z;
        across = new float[z.Length];
        smooth = BoxMean(2.4, new float[z.Length]);
    }

    public float[] Light()
    {
        float[] mean = new float[z.Length];
        float[] light = Sky(mean);
        BoxMean(0.25, mean);
        RowLight row = new(grid.Columns);
        for (int r = grid.Rows - 1; r >= 0; r--)
        {
            Row(r, light, mean, row);
        }
        return light;
    }

    /// <summary>
    /// One row's light over its sky light. Shadows are soft over the last half millimetre: each cell hands its horizon on along
    /// the light, to the row in front and one column on. Edges that stand proud of the mean catch a thin line of light.
    /// </summary>
    private void Row(int r, float[] light, float[] mean, RowLight row)
    {
        (float lx, float ly, float lz) = Sun;
        Slopes(r, row);
        Line(z, r).CopyTo(row.Z);
        Line(mean, r).CopyTo(row.Mean);
        Line(light, r).CopyTo(row.Sky);
        Vector<float> drop = new((float)(Math.Tan(SunHeight) * Math.Sqrt(2) * grid.Cell));
        for (int c = 0; c < grid.Columns; c += Vector<float>.Count)
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
            Vector<float> along = Vector.CreateSequence<float>(c + (grid.Rows - r), 1);
            Vector<float> far = new Vector<float>(1.02f) - (along * 0.05f / (grid.Columns + grid.Rows));
            Vector<float> rim = Clamped((at - new Vector<float>(row.Mean, c)) * 0.3f, 0.14f);
            Vector<float> sky = new(row.Sky, c);
            Vector<float> direct = lambert * 0.70f * sun * (new Vector<float>(0.6f) + (sky * 0.4f));
            ((far * ((sky * 0.44f) + direct)) + (rim * 0.9f)).CopyTo(row.Sky, c);
        }
        row.Sky.AsSpan(0, grid.Columns).CopyTo(Line(light, r));
        row.HandOn();
    }

    private static Vector<float> Clamped(Vector<float> value, float most) =>
        Vector.Min(Vector.Max(value, Vector<float>.Zero), new Vector<float>(most));

    /// <summary>Central slopes over 0.2 mm each way, so that walls get a soft edge like a deburred one.</summary>
    private void Slopes(int r, RowLight row)
    {
        int reach = Reach(0.2);
        int back = Math.Max(0, r - reach);
        int ahead = Math.Min(grid.Rows - 1, r + reach);
        Difference(Line(z, ahead), Line(z, back), (ahead - back) * (float)grid.Cell, row.Dy);
        ReadOnlySpan<float> at = Line(z, r);
        int inner = Math.Max(0, at.Length - (2 * reach));
        if (inner > 0)
        {
            Difference(at[(2 * reach)..], at[..inner], 2 * reach * (float)grid.Cell, row.Dx.AsSpan(reach));
        }
        for (int c = 0; c < at.Length; c = c == reach - 1 ? Math.Max(reach, reach + inner) : c + 1)
        {
            int left = Math.Max(0, c - reach);
            int right = Math.Min(at.Length - 1, c + reach);
            row.Dx[c] = (at[right] - at[left]) / ((right - left) * (float)grid.Cell);
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
    public float Wall(float[] light, int c, int r)
    {
        if (r == 0)
        {
            // the block's own front: nothing before it, nothing behind that turns it
            return WallLight(0.8f, -0.5f);
        }
        int i = (r * grid.Columns) + c;
        float dx = Wide(i, c, 1, grid.Columns);
        float dy = Wide(i, r, grid.Columns, grid.Rows);
        float n = MathF.Sqrt((dx * dx) + (dy * dy));
        float facing = n < 1e-3f ? -0.5f : ((-dx * Sun.X) + (-dy * Sun.Y)) / n;
        return WallLight(Foot(light, c, i - grid.Columns), facing);
    }

    private static float WallLight(float foot, float facing) => 0.58f + (0.20f * foot) + (0.24f * facing);

    /// <summary>Light on the ground before a wall, mean over a millimetre along it: a single cell's shadow is no streak up the wall.</summary>
    private float Foot(float[] light, int c, int at)
    {
        int reach = Reach(0.5);
        float sum = 0;
        int count = 0;
        for (int k = Math.Max(-reach, -c); k <= Math.Min(reach, grid.Columns - 1 - c); k++)
        {
            sum += Math.Min(1, light[at + k]);
            count++;
        }
        return sum / count;
    }

    private float Wide(int i, int k, int step, int count)
    {
        int reach = Reach(1);
        int back = Math.Min(reach, k);
        int ahead = Math.Min(reach, count - 1 - k);
        return smooth[i + (ahead * step)] - smooth[i - (back * step)];
    }

    private static (float X, float Y, float Z) Sun { get; } =
        (
            (float)(Math.Cos(SunTurn) * Math.Cos(SunHeight)),
            (float)(Math.Sin(SunTurn) * Math.Cos(SunHeight)),
            (float)Math.Sin(SunHeight)
        );

    private int Reach(double mm) => Math.Max(1, (int)Math.Round(mm / grid.Cell));

    /// <summary>How much of the sky a cell sees: its depth below the mean height of wider and wider windows.</summary>
    private float[] Sky(float[] mean)
    {
        float[] open = new float[z.Length];
        Array.Fill(open, 1f);
        foreach (double radius in (ReadOnlySpan<double>)[0.8, 2, 5, 12])
        {
            BoxMean(radius, mean);
            Vector<float> reach = new((float)(1 / (radius * 1.6)));
            Span<Vector<float>> seen = MemoryMarshal.Cast<float, Vector<float>>(open.AsSpan());
            ReadOnlySpan<Vector<float>> about = MemoryMarshal.Cast<float, Vector<float>>(mean);
            ReadOnlySpan<Vector<float>> at = MemoryMarshal.Cast<float, Vector<float>>(z);
            for (int i = 0; i < seen.Length; i++)
            {
                Vector<float> sunk = Vector.Max(Vector<float>.Zero, about[i] - at[i]) * reach;
                seen[i] /= Vector<float>.One + sunk;
            }
            for (int i = seen.Length * Vector<float>.Count; i < open.Length; i++)
            {
                open[i] /= 1 + (Math.Max(0, mean[i] - z[i]) * reach[0]);
            }
        }
        return open;
    }

    /// <summary>Mean over a square of the radius in mm about each cell, edges repeated; both passes run along the rows, as memory lies.</summary>
    private float[] BoxMean(double radius, float[] mean)
    {
        int half = (int)Math.Max(1, radius / grid.Cell);
        float share = 1f / ((2 * half) + 1);
        for (int r = 0; r < grid.Rows; r++)
        {
            Across(Line(z, r), Line(across, r), half, share);
        }
        float[] sums = new float[grid.Columns];
        for (int k = -half; k <= half; k++)
        {
            ReadOnlySpan<float> line = Line(across, Math.Clamp(k, 0, grid.Rows - 1));
            for (int c = 0; c < sums.Length; c++)
            {
                sums[c] += line[c];
            }
        }
        for (int r = 0; r < grid.Rows; r++)
        {
            Span<float> enters = Line(across, Math.Min(r + half + 1, grid.Rows - 1));
            Down(sums, enters, Line(across, Math.Max(r - half, 0)), Line(mean, r), share);
        }
        return mean;
    }

    private Span<float> Line(float[] of, int row) => of.AsSpan(row * grid.Columns, grid.Columns);

    private static void Across(ReadOnlySpan<float> from, Span<float> to, int half, float share)
    {
        float sum = 0;
        for (int k = -half; k <= half; k++)
        {
            sum += from[Math.Clamp(k, 0, from.Length - 1)];
        }
        for (int k = 0; k < from.Length; k++)
        {
            to[k] = sum * share;
            sum += from[Math.Min(k + half + 1, from.Length - 1)] - from[Math.Max(k - half, 0)];
        }
    }

    /// <summary>Writes one row's means and moves the window a row on.</summary>
    private static void Down(
        Span<float> sums,
        ReadOnlySpan<float> enters,
        ReadOnlySpan<float> leaves,
        Span<float> mean,
        float share
    )
    {
        int c = 0;
        for (; c <= sums.Length - Vector<float>.Count; c += Vector<float>.Count)
        {
            Vector<float> sum = new(sums[c..]);
            (sum * share).CopyTo(mean[c..]);
            (sum + new Vector<float>(enters[c..]) - new Vector<float>(leaves[c..])).CopyTo(sums[c..]);
        }
        for (; c < sums.Length; c++)
        {
            mean[c] = sums[c] * share;
            sums[c] = sums[c] + enters[c] - leaves[c];
        }
    }

    /// <summary>What one row needs side by side, with room for a whole vector at its end. Horizon is what the row behind hands on, one column on.</summary>
    private sealed class RowLight
    {
        public RowLight(int columns)
        {
            int room = columns + Vector<float>.Count;
            (Z, Mean, Sky, Dx, Dy) = (
                new float[room],
                new float[room],
                new float[room],
                new float[room],
                new float[room]
            );
            (Horizon, Next) = (new float[room + 1], new float[room + 1]);
            Array.Fill(Horizon, float.MinValue);
            Next[0] = float.MinValue;
        }

        public float[] Z { get; }

        public float[] Mean { get; }

        public float[] Sky { get; }

        public float[] Dx { get; }

        public float[] Dy { get; }

        public float[] Horizon { get; private set; }

        public float[] Next { get; private set; }

        public void HandOn() => (Horizon, Next) = (Next, Horizon);
    }
}
