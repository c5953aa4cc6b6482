using System.Runtime.Intrinsics;

namespace FixtureGen.Verify.Carving;

/// <summary>
/// The cells of a grid under a disc that goes along a line, row by row: the first and the last of each row, and the last before
/// and the first after those under the disc at the start. Whole numbers, kept as they are computed, four rows at a time; where
/// there is none the first is beyond the last.
/// </summary>
internal sealed class Capsule(int columns)
{
    private const double Far = 1e12;
    private static readonly Vector256<double> s_rows = Vector256.Create(0.0, 1, 2, 3);

    private double[] _first = new double[512];
    private double[] _last = new double[512];
    private double[] _before = new double[512];
    private double[] _after = new double[512];

    public ReadOnlySpan<double> First => _first;

    public ReadOnlySpan<double> Last => _last;

    public ReadOnlySpan<double> Before => _before;

    public ReadOnlySpan<double> After => _after;

    /// <summary>Count rows from a first one for a disc of radius r from a to b, all in cells; a cell's centre has whole coordinates.</summary>
    public void Go(double ax, double ay, double bx, double by, double r, int row, int count)
    {
        Reserve(count + 4);
        double dx = bx - ax;
        double dy = by - ay;
        double length = Math.Sqrt((dx * dx) + (dy * dy));
        double nx = length > 1e-9 ? -dy / length * r : 0;
        double ny = length > 1e-9 ? dx / length * r : 0;
        bool sloped = Math.Abs(dy) > 1e-12 && length > 1e-9;
        double perY = sloped ? 1 / dy : 0;
        for (int i = 0; i < count; i += 4)
        {
            Vector256<double> y = Vector256.Create((double)(row + i)) + s_rows;
            (Vector256<double> startLeft, Vector256<double> startRight) = Disc(y - Vector256.Create(ay), ax, r);
            (Vector256<double> left, Vector256<double> right) = Disc(y - Vector256.Create(by), bx, r);
            left = Vector256.MinNative(left, startLeft);
            right = Vector256.MaxNative(right, startRight);
            if (sloped)
            {
                Flank((y - Vector256.Create(ay + ny)) * perY, ax + nx, dx, ref left, ref right);
                Flank((y - Vector256.Create(ay - ny)) * perY, ax - nx, dx, ref left, ref right);
            }
            Vector256<double> end = Vector256.Create((double)columns);
            Vector256<double> one = Vector256<double>.One;
            Vector256<double> met = Vector256.LessThanOrEqual(startLeft, startRight);
            Vector256<double> first = Vector256.Ceiling(Vector256.MaxNative(left, Vector256<double>.Zero));
            Vector256<double> last = Vector256.Floor(Vector256.MinNative(right, end - one));
            Vector256<double> before = Vector256.MinNative(last, Vector256.Ceiling(startLeft) - one);
            Vector256<double> after = Vector256.MaxNative(first, Vector256.Floor(startRight) + one);
            after = Vector256.ConditionalSelect(met, after, end);
            Vector256.MinNative(first, end).CopyTo(_first, i);
            Vector256.MaxNative(last, -one).CopyTo(_last, i);
            Vector256.MaxNative(before, -one).CopyTo(_before, i);
            Vector256.MinNative(after, end).CopyTo(_after, i);
        }
    }

    private static (Vector256<double> Left, Vector256<double> Right) Disc(Vector256<double> h, double x, double r)
    {
        Vector256<double> q = Vector256.Create(r * r) - (h * h);
        Vector256<double> met = Vector256.GreaterThanOrEqual(q, Vector256<double>.Zero);
        if (met == Vector256<double>.Zero)
        {
            return (Vector256.Create(Far), Vector256.Create(-Far));
        }
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
        if (rows > _first.Length)
        {
            int size = Math.Max(rows, 2 * _first.Length);
            (_first, _last, _before, _after) = (new double[size], new double[size], new double[size], new double[size]);
        }
    }
}
