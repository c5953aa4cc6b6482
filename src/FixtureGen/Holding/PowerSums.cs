using System.Runtime.Intrinsics;

namespace FixtureGen.Holding;

/// <summary>
/// Running sums of friction's power |v + turn x r| and its derivatives. For s = sqrt(w'Qw) the slope is Qw/s and the
/// curvature Q/s - (Qw/s)(Qw/s)'/s, with Q of the rows (1, 0, -y), (0, 1, x), (-y, x, x2 + y2 + spread2).
/// </summary>
internal ref struct PowerSums
{
    private readonly Vector256<double> wx;
    private readonly Vector256<double> wy;
    private readonly Vector256<double> wt;
    private Vector256<double> value;
    private Vector256<double> perLoad;
    private Vector256<double> gx;
    private Vector256<double> gy;
    private Vector256<double> gt;
    private Vector256<double> xx;
    private Vector256<double> xy;
    private Vector256<double> yy;
    private Vector256<double> xt;
    private Vector256<double> yt;
    private Vector256<double> tt;

    public PowerSums(Twist w)
    {
        wx = Vector256.Create(w.X);
        wy = Vector256.Create(w.Y);
        wt = Vector256.Create(w.Turn);
    }

    public readonly FrictionPower Result =>
        new(
            Vector256.Sum(value),
            new Twist(Vector256.Sum(gx), Vector256.Sum(gy), Vector256.Sum(gt)),
            Vector256.Sum(xx),
            Vector256.Sum(xy),
            Vector256.Sum(yy),
            Vector256.Sum(xt),
            Vector256.Sum(yt),
            Vector256.Sum(tt),
            Vector256.Sum(perLoad)
        );

    public void Add(
        Vector256<double> x,
        Vector256<double> y,
        Vector256<double> spread2,
        Vector256<double> grip,
        Vector256<double> change
    )
    {
        Vector256<double> u = wx - (wt * y);
        Vector256<double> v = wy + (wt * x);
        Vector256<double> own = wt * spread2;
        Vector256<double> s = Vector256.Sqrt((u * u) + (v * v) + (wt * own) + Vector256.Create(1e-30));
        Vector256<double> inverse = Vector256<double>.One / s;
        Vector256<double> ux = u * inverse;
        Vector256<double> vy = v * inverse;
        Vector256<double> turn = (vy * x) - (ux * y) + (own * inverse);
        value += grip * s;
        perLoad += change * s;
        gx += grip * ux;
        gy += grip * vy;
        gt += grip * turn;
        Vector256<double> bend = grip * inverse;
        xx += bend * (Vector256<double>.One - (ux * ux));
        xy -= bend * ux * vy;
        yy += bend * (Vector256<double>.One - (vy * vy));
        xt -= bend * (y + (ux * turn));
        yt += bend * (x - (vy * turn));
        tt += bend * ((x * x) + (y * y) + spread2 - (turn * turn));
    }
}
