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
        smooth = BoxMean(1.2, new float[z.Length]);
    }

    public float[] Light()
    {
        float[] mean = new float[z.Length];
        float[] light = Sky(mean);
        BoxMean(0.25, mean);
        float[] horizon = new float[grid.Columns + 1];
        Array.Fill(horizon, float.MinValue);
        for (int r = grid.Rows - 1; r >= 0; r--)
        {
            Row(r, light, mean, horizon);
        }
        return light;
    }

    /// <summary>
    /// One row's light over its sky light. Shadows are soft over the last half millimetre: each cell hands its horizon on along
    /// the light, to the row in front and one column on. Edges that stand proud of the mean catch a thin line of light.
    /// </summary>
    private void Row(int r, float[] light, float[] mean, float[] horizon)
    {
        (float lx, float ly, float lz) = Sun;
        int columns = grid.Columns;
        int reach = Reach(0.2);
        float drop = (float)(Math.Tan(SunHeight) * Math.Sqrt(2) * grid.Cell);
        float before = float.MinValue;
        for (int c = 0; c < columns; c++)
        {
            int i = (r * columns) + c;
            float over = before - drop;
            before = horizon[c];
            horizon[c] = Math.Max(z[i], over);
            float sun = Math.Clamp(1 - ((over - z[i]) * 2), 0, 1);
            float dx = Slope(i, c, 1, columns, reach);
            float dy = Slope(i, r, columns, grid.Rows, reach);
            float n = 1 / MathF.Sqrt((dx * dx) + (dy * dy) + 1);
            float lambert = Math.Max(0, ((-dx * lx) + (-dy * ly) + lz) * n);
            float far = 1.02f - (0.05f * (c + (grid.Rows - r)) / (columns + grid.Rows));
            float rim = Math.Clamp((z[i] - mean[i]) * 0.3f, 0, 0.14f);
            float sky = light[i];
            light[i] = (far * ((0.44f * sky) + (0.70f * lambert * sun * (0.6f + (0.4f * sky))))) + (0.9f * rim);
        }
    }

    /// <summary>
    /// Light of the wall that rises behind the cell in front of (<paramref name="c"/>, <paramref name="r"/>): sky as at its foot,
    /// sun by the way it faces.
    /// </summary>
    public float Wall(float[] light, int c, int r)
    {
        int i = (r * grid.Columns) + c;
        float foot = r == 0 ? 0.8f : Math.Min(1, light[i - grid.Columns]);
        float dx = Wide(i, c, 1, grid.Columns);
        float dy = Wide(i, r, grid.Columns, grid.Rows);
        float n = MathF.Sqrt((dx * dx) + (dy * dy));
        float facing = n < 1e-3f ? -0.5f : ((-dx * Sun.X) + (-dy * Sun.Y)) / n;
        return 0.58f + (0.20f * foot) + (0.24f * facing);
    }

    private float Wide(int i, int k, int step, int count)
    {
        int reach = Reach(0.5);
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

    /// <summary>Central slope over 0.2 mm each way, so that walls get a soft edge like a deburred one.</summary>
    private float Slope(int i, int k, int step, int count, int reach)
    {
        int back = Math.Min(reach, k);
        int ahead = Math.Min(reach, count - 1 - k);
        return (z[i + (ahead * step)] - z[i - (back * step)]) / ((back + ahead) * (float)grid.Cell);
    }

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
}
