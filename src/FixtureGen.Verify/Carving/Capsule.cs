using System.Runtime.Intrinsics;

namespace FixtureGen.Verify.Carving;

/// <summary>
/// The outline of a disc that goes along a line, row by row, in cells: a row's leftmost and rightmost point, and the same of the
/// disc at the start alone. Four rows at a time; a row that the shape does not meet gets Left above Right.
/// </summary>
internal sealed class Capsule
{
    private const double Far = 1e12;
    private static readonly Vector256<double> s_rows = Vector256.Create(0.0, 1, 2, 3);

    private double[] _left = new double[512];
    private double[] _right = new double[512];
    private double[] _startLeft = new double[512];
    private double[] _startRight = new double[512];

    public ReadOnlySpan<double> Left => _left;

    public ReadOnlySpan<double> Right => _right;

    public ReadOnlySpan<double> StartLeft => _startLeft;

    public ReadOnlySpan<double> StartRight => _startRight;

    /// <summary>Bounds of count rows from the first for a disc of radius r from a to b.</summary>
    public void Go(double ax, double ay, double bx, double by, double r, int first, int count)
    {
        Reserve(count + 4);
        double dx = bx - ax;
        double dy = by - ay;
        double length = Math.Sqrt((dx * dx) + (dy * dy));
        double nx = length > 1e-9 ? -dy / length * r : 0;
        double ny = length > 1e-9 ? dx / length * r : 0;
        bool sloped = Math.Abs(dy) > 1e-12 && length > 1e-9;
        double perY = sloped ? 1 / dy : 0;
        Vector256<double> r2 = Vector256.Create(r * r);
        for (int i = 0; i < count; i += 4)
        {
            Vector256<double> y = Vector256.Create((double)(first + i)) + s_rows;
            (Vector256<double> startLeft, Vector256<double> startRight) = Disc(y - Vector256.Create(ay), ax, r2);
            (Vector256<double> left, Vector256<double> right) = Disc(y - Vector256.Create(by), bx, r2);
            left = Vector256.MinNative(left, startLeft);
            right = Vector256.MaxNative(right, startRight);
            if (sloped)
            {
                Flank((y - Vector256.Create(ay + ny)) * perY, ax + nx, dx, ref left, ref right);
                Flank((y - Vector256.Create(ay - ny)) * perY, ax - nx, dx, ref left, ref right);
            }
            left.CopyTo(_left, i);
            right.CopyTo(_right, i);
            startLeft.CopyTo(_startLeft, i);
            startRight.CopyTo(_startRight, i);
        }
    }

    private static (Vector256<double> Left, Vector256<double> Right) Disc(
        Vector256<double> h,
        double x,
        Vector256<double> r2
    )
    {
        Vector256<double> q = r2 - (h * h);
        Vector256<double> met = Vector256.GreaterThanOrEqual(q, Vector256<double>.Zero);
        q = Vector256.Sqrt(q);
        Vector256<double> centre = Vector256.Create(x);
        return (
            Vector256.ConditionalSelect(met, centre - q, Vector256.Create(Far)),
            Vector256.ConditionalSelect(met, centre + q, Vector256.Create(-Far))
        );
    }

    private static void Flank(
        Vector256<double> t,
        double x0,
        double dx,
        ref Vector256<double> left,
        ref Vector256<double> right
    )
    {
        Vector256<double> met =
            Vector256.GreaterThanOrEqual(t, Vector256<double>.Zero)
            & Vector256.LessThanOrEqual(t, Vector256<double>.One);
        Vector256<double> x = Vector256.Create(x0) + (t * dx);
        left = Vector256.ConditionalSelect(met, Vector256.MinNative(left, x), left);
        right = Vector256.ConditionalSelect(met, Vector256.MaxNative(right, x), right);
    }

    private void Reserve(int rows)
    {
        if (rows > _left.Length)
        {
            int size = Math.Max(rows, 2 * _left.Length);
            (_left, _right, _startLeft, _startRight) = (
                new double[size],
                new double[size],
                new double[size],
                new double[size]
            );
        }
    }
}
