namespace FixtureGen.Holding.Stopping;

/// <summary>
/// The lower model of a convex function of two variables: the highest of all its tangent planes seen so far, and where that is
/// least, within a square of +-1000. Every plane added moves the least point onto itself, so each costs one linear programme of
/// two variables (Seidel, Discrete Comput. Geom. 6, 1991). The bound is proven apart from that: where shares of three planes that add
/// up to 1 are level together, the function is nowhere below the same shares of their heights, whatever was rounded on the way.
/// </summary>
internal sealed class CutPlanes(int most)
{
    private const double Box = 1000;
    private const double Slack = 1e-12;

    private readonly double[] _height = new double[most + 16];
    private readonly double[] _slopeX = new double[most + 16];
    private readonly double[] _slopeY = new double[most + 16];

    /// <summary>The least value, known from below and from above.</summary>
    public readonly record struct Bracket(double Lower, double Upper);

    public int Count { get; private set; }

    /// <summary>The function is nowhere lower; negative infinity until that is proven of any value.</summary>
    public double Lower { get; private set; } = double.NegativeInfinity;

    /// <summary>Where the model is least.</summary>
    public (double X, double Y) At { get; private set; }

    /// <summary>A vertex of the model and the planes that meet there; below 0 where the square's edge takes a plane's place.</summary>
    private readonly record struct Vertex(double X, double Y, int First, int Second);

    /// <summary>The plane that touches the function at a place, with its value and slope there.</summary>
    public void Add(double x, double y, double value, double dx, double dy)
    {
        int k = Count++;
        (_height[k], _slopeX[k], _slopeY[k]) = (value - (dx * x) - (dy * y), dx, dy);
        if (LeastOn(k) is { } least)
        {
            At = (least.X, least.Y);
            Lower = Math.Max(Lower, Proven(k, least.First, least.Second));
        }
    }

    /// <summary>The shares of three planes that are level together, times their heights; negative infinity where there are none.</summary>
    private double Proven(int a, int b, int c)
    {
        if (b < 0 || c < 0)
        {
            return double.NegativeInfinity;
        }
        double ofA = (_slopeX[b] * _slopeY[c]) - (_slopeX[c] * _slopeY[b]);
        double ofB = (_slopeX[c] * _slopeY[a]) - (_slopeX[a] * _slopeY[c]);
        double ofC = (_slopeX[a] * _slopeY[b]) - (_slopeX[b] * _slopeY[a]);
        double sum = ofA + ofB + ofC;
        return ofA / sum >= 0 && ofB / sum >= 0 && ofC / sum >= 0
            ? ((ofA * _height[a]) + (ofB * _height[b]) + (ofC * _height[c])) / sum
            : double.NegativeInfinity;
    }

    /// <summary>The least point of one plane where it is the highest of all before it.</summary>
    private Vertex? LeastOn(int k)
    {
        Vertex at = new(_slopeX[k] > 0 ? -Box : Box, _slopeY[k] > 0 ? -Box : Box, -1, -1);
        for (int j = 0; j < k; j++)
        {
            double a = _slopeX[j] - _slopeX[k];
            double b = _slopeY[j] - _slopeY[k];
            double c = _height[k] - _height[j];
            if ((a * at.X) + (b * at.Y) <= c + (Slack * (1 + Math.Abs(c))) || (a == 0 && b == 0))
            {
                continue;
            }
            if (LeastAlong(k, j, a, b, c) is not { } next)
            {
                return null;
            }
            at = next;
        }
        return at;
    }

    /// <summary>The least point of plane k on the line a x + b y = c where plane j is as high, among all planes before j.</summary>
    private Vertex? LeastAlong(int k, int j, double a, double b, double c)
    {
        double norm = (a * a) + (b * b);
        (double px, double py) = (a * c / norm, b * c / norm);
        double length = Math.Sqrt(norm);
        (double ux, double uy) = (-b / length, a / length);
        Span span = new();
        span.Narrow(ux, Box - px, -1);
        span.Narrow(-ux, Box + px, -1);
        span.Narrow(uy, Box - py, -1);
        span.Narrow(-uy, Box + py, -1);
        for (int i = 0; i < j; i++)
        {
            double ai = _slopeX[i] - _slopeX[k];
            double bi = _slopeY[i] - _slopeY[k];
            span.Narrow((ai * ux) + (bi * uy), _height[k] - _height[i] - (ai * px) - (bi * py), i);
        }
        if (span.Low > span.High + (1e-7 * (1 + Math.Abs(span.Low))))
        {
            return null;
        }
        bool low = (_slopeX[k] * ux) + (_slopeY[k] * uy) > 0;
        double along = low ? span.Low : span.High;
        return new Vertex(px + (along * ux), py + (along * uy), j, low ? span.LowBy : span.HighBy);
    }

    /// <summary>What is left of a line, and which plane ends it either way.</summary>
    private struct Span()
    {
        public double Low { get; private set; } = double.NegativeInfinity;

        public double High { get; private set; } = double.PositiveInfinity;

        public int LowBy { get; private set; } = -1;

        public int HighBy { get; private set; } = -1;

        /// <summary>Keeps what satisfies rate t &lt;= most.</summary>
        public void Narrow(double rate, double most, int by)
        {
            double end = most / rate;
            if (rate > 1e-14 && end < High)
            {
                (High, HighBy) = (end, by);
            }
            else if (rate < -1e-14 && end > Low)
            {
                (Low, LowBy) = (end, by);
            }
        }
    }
}
