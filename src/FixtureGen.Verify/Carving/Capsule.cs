using System.Runtime.Intrinsics;

namespace FixtureGen.Verify.Carving;

/// <summary>
/// The cells of a grid's rows under a disc that goes along a line: the first and the last of each row. All lengths in cells; a
/// cell's centre has whole coordinates. Eight rows at a time; in a row without cells the first lies beyond the last.
/// </summary>
internal readonly struct Capsule
{
    private const double Far = 1e12;

    /// <summary>Added to a whole number of up to 31 bits it leaves that number in the low bits.</summary>
    private const double Shift = 6755399441055744;

    private static readonly Vector256<double> Rows = Vector256.Create(0.0, 1, 2, 3);
    private readonly double _ax;
    private readonly double _ay;
    private readonly double _bx;
    private readonly double _by;
    private readonly double _r;
    private readonly double _nx;
    private readonly double _ny;
    private readonly double _perY;
    private readonly bool _sloped;
    private readonly Vector256<double> _columns;

    public Capsule(double ax, double ay, double bx, double by, double r, int columns)
    {
        (_ax, _ay, _bx, _by, _r) = (ax, ay, bx, by, r);
        double dx = bx - ax;
        double dy = by - ay;
        double length = Math.Sqrt((dx * dx) + (dy * dy));
        _nx = length > 1e-9 ? -dy / length * r : 0;
        _ny = length > 1e-9 ? dx / length * r : 0;
        _sloped = Math.Abs(dy) > 1e-12 && length > 1e-9;
        _perY = _sloped ? 1 / dy : 0;
        _columns = Vector256.Create((double)columns);
    }

    /// <summary>The cells of as many rows from the first on as there is room for, a multiple of eight.</summary>
    public void Whole(int row, Span<int> first, Span<int> last)
    {
        for (int i = 0; i < first.Length; i += 8)
        {
            (Vector256<double> first0, Vector256<double> last0) = Four(row + i);
            (Vector256<double> first4, Vector256<double> last4) = Four(row + i + 4);
            Whole(first0, first4).CopyTo(first[i..]);
            Whole(last0, last4).CopyTo(last[i..]);
        }
    }

    private static Vector256<int> Whole(Vector256<double> low, Vector256<double> high)
    {
        Vector256<double> shift = Vector256.Create(Shift);
        return Vector256.Narrow((low + shift).AsInt64(), (high + shift).AsInt64());
    }

    private (Vector256<double> First, Vector256<double> Last) Four(int row)
    {
        Vector256<double> y = Vector256.Create((double)row) + Rows;
        (Vector256<double> left, Vector256<double> right) = Disc(y - Vector256.Create(_ay), _ax);
        (Vector256<double> endLeft, Vector256<double> endRight) = Disc(y - Vector256.Create(_by), _bx);
        left = Vector256.MinNative(left, endLeft);
        right = Vector256.MaxNative(right, endRight);
        if (_sloped)
        {
            Flank((y - Vector256.Create(_ay + _ny)) * _perY, _ax + _nx, ref left, ref right);
            Flank((y - Vector256.Create(_ay - _ny)) * _perY, _ax - _nx, ref left, ref right);
        }
        Vector256<double> one = Vector256<double>.One;
        Vector256<double> first = Vector256.Ceiling(Vector256.MaxNative(left, Vector256<double>.Zero));
        Vector256<double> last = Vector256.Floor(Vector256.MinNative(right, _columns - one));
        return (Vector256.MinNative(first, _columns), Vector256.MaxNative(last, -one));
    }

    private (Vector256<double> Left, Vector256<double> Right) Disc(Vector256<double> h, double x)
    {
        Vector256<double> q = Vector256.Create(_r * _r) - (h * h);
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

    private void Flank(Vector256<double> t, double x0, ref Vector256<double> left, ref Vector256<double> right)
    {
        Vector256<double> met =
            Vector256.GreaterThanOrEqual(t, Vector256<double>.Zero)
            & Vector256.LessThanOrEqual(t, Vector256<double>.One);
        Vector256<double> x = Vector256.Create(x0) + (t * (_bx - _ax));
        left = Vector256.ConditionalSelect(met, Vector256.MinNative(left, x), left);
        right = Vector256.ConditionalSelect(met, Vector256.MaxNative(right, x), right);
    }
}
