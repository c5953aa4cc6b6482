namespace FixtureGen.Output;

/// <summary>
/// Light on a height grid, 0..1 per cell of its top face: a low sun from the upper left with cast shadows, plus sky light
/// dimmed in pockets and along walls. Rows run upwards as in the grid.
/// </summary>
internal sealed class ReliefShade
{
    private const double SunTurn = 135 * Math.PI / 180;
    private const double SunHeight = 48 * Math.PI / 180;
    private readonly int columns;
    private readonly int rows;
    private readonly float cell;
    private readonly float[] z;
    private readonly float[] smooth;

    public ReliefShade(float[] heights, int columns, int rows, double cell)
    {
        z = heights;
        this.columns = columns;
        this.rows = rows;
        this.cell = (float)cell;
        smooth = BoxMean((int)Math.Max(1, 1.2 / cell));
    }

    public float[] Light()
    {
        float[] sky = Sky();
        float[] sun = Shadows();
        float[] rim = Rims();
        float[] light = new float[z.Length];
        (float lx, float ly, float lz) = Sun;
        for (int r = 0; r < rows; r++)
        {
            for (int c = 0; c < columns; c++)
            {
                int i = (r * columns) + c;
                float dx = Slope(i, c, 1, columns);
                float dy = Slope(i, r, columns, rows);
                float n = 1 / MathF.Sqrt((dx * dx) + (dy * dy) + 1);
                float lambert = Math.Max(0, ((-dx * lx) + (-dy * ly) + lz) * n);
                float far = 1.02f - (0.05f * (c + (rows - r)) / (columns + rows));
                light[i] =
                    (far * ((0.44f * sky[i]) + (0.70f * lambert * sun[i] * (0.6f + (0.4f * sky[i])))))
                    + (0.9f * rim[i]);
            }
        }
        return light;
    }

    /// <summary>
    /// Light of the wall that rises behind the cell in front of (<paramref name="c"/>, <paramref name="r"/>): sky as at its foot,
    /// sun by the way it faces.
    /// </summary>
    public float Wall(float[] light, int c, int r)
    {
        int i = (r * columns) + c;
        float foot = r == 0 ? 0.8f : Math.Min(1, light[i - columns]);
        float dx = Wide(i, c, 1, columns);
        float dy = Wide(i, r, columns, rows);
        float n = MathF.Sqrt((dx * dx) + (dy * dy));
        float facing = n < 1e-3f ? -0.5f : ((-dx * Sun.X) + (-dy * Sun.Y)) / n;
        return 0.58f + (0.20f * foot) + (0.24f * facing);
    }

    private float Wide(int i, int k, int step, int count)
    {
        int back = Math.Min(5, k);
        int ahead = Math.Min(5, count - 1 - k);
        return smooth[i + (ahead * step)] - smooth[i - (back * step)];
    }

    private static (float X, float Y, float Z) Sun =>
        (
            (float)(Math.Cos(SunTurn) * Math.Cos(SunHeight)),
            (float)(Math.Sin(SunTurn) * Math.Cos(SunHeight)),
            (float)Math.Sin(SunHeight)
        );

    /// <summary>Central slope over two cells each way, so that walls get a soft edge like a deburred one.</summary>
    private float Slope(int i, int k, int step, int count)
    {
        int back = Math.Min(2, k);
        int ahead = Math.Min(2, count - 1 - k);
        return (z[i + (ahead * step)] - z[i - (back * step)]) / ((back + ahead) * cell);
    }

    /// <summary>How much of the sky a cell sees: its depth below the mean height of wider and wider windows.</summary>
    private float[] Sky()
    {
        float[] open = new float[z.Length];
        Array.Fill(open, 1f);
        foreach (double radius in (ReadOnlySpan<double>)[0.8, 2, 5, 12])
        {
            float[] mean = BoxMean((int)Math.Max(1, radius / cell));
            float reach = (float)(radius * 1.6);
            for (int i = 0; i < open.Length; i++)
            {
                float sunk = Math.Max(0, mean[i] - z[i]) / reach;
                open[i] *= 1 / (1 + sunk);
            }
        }
        return open;
    }

    /// <summary>Edges that stand proud catch a thin line of light, as a deburred edge does.</summary>
    private float[] Rims()
    {
        float[] mean = BoxMean((int)Math.Max(1, 0.25 / cell));
        for (int i = 0; i < mean.Length; i++)
        {
            mean[i] = Math.Clamp((z[i] - mean[i]) * 0.3f, 0, 0.14f);
        }
        return mean;
    }

    /// <summary>Mean over a square of 2 half + 1 cells, edges repeated; both passes run along the rows, as memory lies.</summary>
    private float[] BoxMean(int half)
    {
        float[] across = new float[z.Length];
        double share = 1.0 / ((2 * half) + 1);
        for (int r = 0; r < rows; r++)
        {
            Across(z.AsSpan(r * columns, columns), across.AsSpan(r * columns, columns), half, share);
        }
        float[] both = new float[z.Length];
        double[] sums = new double[columns];
        for (int k = -half; k <= half; k++)
        {
            Add(sums, across, Math.Clamp(k, 0, rows - 1), 1);
        }
        for (int r = 0; r < rows; r++)
        {
            Span<float> row = both.AsSpan(r * columns, columns);
            for (int c = 0; c < row.Length; c++)
            {
                row[c] = (float)(sums[c] * share);
            }
            Add(sums, across, Math.Min(r + half + 1, rows - 1), 1);
            Add(sums, across, Math.Max(r - half, 0), -1);
        }
        return both;
    }

    private void Add(double[] sums, float[] from, int row, int sign)
    {
        ReadOnlySpan<float> values = from.AsSpan(row * columns, columns);
        for (int c = 0; c < sums.Length; c++)
        {
            sums[c] += sign * values[c];
        }
    }

    private static void Across(ReadOnlySpan<float> from, Span<float> to, int half, double share)
    {
        double sum = 0;
        for (int k = -half; k <= half; k++)
        {
            sum += from[Math.Clamp(k, 0, from.Length - 1)];
        }
        for (int k = 0; k < from.Length; k++)
        {
            to[k] = (float)(sum * share);
            sum += from[Math.Min(k + half + 1, from.Length - 1)] - from[Math.Max(k - half, 0)];
        }
    }

    /// <summary>1 in the sun, 0 in shadow, soft over the last half millimetre: each cell hands its horizon on along the light.</summary>
    private float[] Shadows()
    {
        float[] lit = new float[z.Length];
        float[] horizon = new float[z.Length];
        float drop = (float)(Math.Tan(SunHeight) * Math.Sqrt(2) * cell);
        for (int r = rows - 1; r >= 0; r--)
        {
            for (int c = 0; c < columns; c++)
            {
                int i = (r * columns) + c;
                float over = r < rows - 1 && c > 0 ? horizon[i + columns - 1] - drop : float.MinValue;
                lit[i] = Math.Clamp(1 - ((over - z[i]) / 0.5f), 0, 1);
                horizon[i] = Math.Max(z[i], over);
            }
        }
        return lit;
    }
}
