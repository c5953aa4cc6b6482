namespace FixtureGen.Holding;

/// <summary>
/// The lower model of a convex function of two variables: the highest of all its tangent planes seen so far, and where that is
/// least, within a square of +-1000. Every plane added moves the least point onto itself, so each costs one linear programme of
/// two variables (Seidel, Discrete Comput. Geom. 6, 1991).
/// </summary>
internal sealed class CutPlanes(int most)
{
    private const double Box = 1000;
    private const double Slack = 1e-12;

    private readonly double[] height = new double[most + 16];
    private readonly double[] slopeX = new double[most + 16];
    private readonly double[] slopeY = new double[most + 16];

    /// <summary>The least value, known from below and from above.</summary>
    public readonly record struct Bracket(double Lower, double Upper);

    public int Count { get; private set; }

    /// <summary>The model's least value; the function is nowhere lower within the square.</summary>
    public double Lower { get; private set; } = double.NegativeInfinity;

    /// <summary>Where the model is least.</summary>
    public (double X, double Y) At { get; private set; }

    /// <summary>The plane that touches the function at a place, with its value and slope there.</summary>
    public void Add(double x, double y, double value, double dx, double dy)
    {
        int k = Count++;
        (height[k], slopeX[k], slopeY[k]) = (value - (dx * x) - (dy * y), dx, dy);
        if (Value(k, At.X, At.Y) > Lower && LeastOn(k) is { } least)
        {
            At = least;
            Lower = Value(k, At.X, At.Y);
        }
    }

    private double Value(int k, double x, double y) => height[k] + (slopeX[k] * x) + (slopeY[k] * y);

    /// <summary>The least point of one plane where it is the highest of all before it.</summary>
    private (double X, double Y)? LeastOn(int k)
    {
        double x = slopeX[k] > 0 ? -Box : Box;
        double y = slopeY[k] > 0 ? -Box : Box;
        for (int j = 0; j < k; j++)
        {
            double a = slopeX[j] - slopeX[k];
            double b = slopeY[j] - slopeY[k];
            double c = height[k] - height[j];
            double scale = Math.Abs(a) + Math.Abs(b);
            if ((a * x) + (b * y) <= c + (Slack * (1 + Math.Abs(c))) || scale < 1e-300)
            {
                continue;
            }
            if (LeastAlong(k, j, a, b, c) is not { } next)
            {
                return null;
            }
            (x, y) = next;
        }
        return (x, y);
    }

    /// <summary>The least point of plane k on the line a x + b y = c, below all planes before j.</summary>
    private (double X, double Y)? LeastAlong(int k, int j, double a, double b, double c)
    {
        double norm = (a * a) + (b * b);
        (double px, double py) = (a * c / norm, b * c / norm);
        double length = Math.Sqrt(norm);
        (double ux, double uy) = (-b / length, a / length);
        double low = double.NegativeInfinity;
        double high = double.PositiveInfinity;
        Narrow(ux, Box - px, ref low, ref high);
        Narrow(-ux, Box + px, ref low, ref high);
        Narrow(uy, Box - py, ref low, ref high);
        Narrow(-uy, Box + py, ref low, ref high);
        for (int i = 0; i < j; i++)
        {
            double ai = slopeX[i] - slopeX[k];
            double bi = slopeY[i] - slopeY[k];
            Narrow((ai * ux) + (bi * uy), height[k] - height[i] - (ai * px) - (bi * py), ref low, ref high);
        }
        if (low > high)
        {
            if (low - high > 1e-7 * (1 + Math.Abs(low)))
            {
                return null;
            }
            low = high = (low + high) / 2;
        }
        double along = (slopeX[k] * ux) + (slopeY[k] * uy) > 0 ? low : high;
        return (px + (along * ux), py + (along * uy));
    }

    /// <summary>Keeps what of an interval satisfies rate t &lt;= most.</summary>
    private static void Narrow(double rate, double most, ref double low, ref double high)
    {
        if (rate > 1e-14)
        {
            high = Math.Min(high, most / rate);
        }
        else if (rate < -1e-14)
        {
            low = Math.Max(low, most / rate);
        }
    }
}
