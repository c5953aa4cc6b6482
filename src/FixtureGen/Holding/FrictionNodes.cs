using System.Runtime.Intrinsics;
using FixtureGen.Model;

namespace FixtureGen.Holding;

/// <summary>A rigid velocity in the plane: of the contact's middle, and turning times the contact's own length.</summary>
internal readonly record struct Twist(double X, double Y, double Turn)
{
    public static Twist operator *(Twist t, double k) => new(t.X * k, t.Y * k, t.Turn * k);

    public static Twist operator +(Twist a, Twist b) => new(a.X + b.X, a.Y + b.Y, a.Turn + b.Turn);

    public double Dot(Twist o) => (X * o.X) + (Y * o.Y) + (Turn * o.Turn);

    public double Length => Math.Sqrt(Dot(this));

    public Twist Cross(Twist o) => new((Y * o.Turn) - (Turn * o.Y), (Turn * o.X) - (X * o.Turn), (X * o.Y) - (Y * o.X));
}

/// <summary>Friction's power at a twist with its slope and curvature, and how the power changes per unit of load.</summary>
internal readonly record struct FrictionPower(
    double Value,
    Twist Slope,
    double Xx,
    double Xy,
    double Yy,
    double Xt,
    double Yt,
    double Tt,
    double PerLoad
);

/// <summary>
/// Contact pieces and points laid out for one pass in four lanes: always four, so that the sums come out the same on every
/// machine. Places are from the contact's middle in units of Scale, mm.
/// </summary>
internal sealed class FrictionNodes
{
    private const double SharpBelow = 1e-3;
    private const int MostKinks = 24;

    private readonly double[] x;
    private readonly double[] y;
    private readonly double[] spread2;
    private readonly double[] share;
    private readonly double[] px;
    private readonly double[] py;
    private readonly double[] pSpread2;
    private readonly double[] pGrip;
    private readonly double slack;
    private readonly Point2[] contactKinks;
    private readonly Point2[] kinks;

    public FrictionNodes(PressureMeasure contact, double friction, IReadOnlyList<PressPoint> points)
        : this(new FrictionNodes(contact, friction), points) { }

    /// <summary>The same contact with other points.</summary>
    public FrictionNodes(FrictionNodes like, IReadOnlyList<PressPoint> points)
    {
        (Scale, Middle, slack) = (like.Scale, like.Middle, like.slack);
        (x, y, spread2, share) = (like.x, like.y, like.spread2, like.share);
        contactKinks = like.contactKinks;
        int m = Padded(points.Count);
        (px, py, pSpread2, pGrip) = (new double[m], new double[m], Ones(m), new double[m]);
        for (int i = 0; i < points.Count; i++)
        {
            px[i] = (points[i].At.X - Middle.X) / Scale;
            py[i] = (points[i].At.Y - Middle.Y) / Scale;
            pSpread2[i] = Math.Max(points[i].Spread * points[i].Spread / (Scale * Scale), 1e-12);
            pGrip[i] = points[i].Grip;
        }
        kinks = [.. contactKinks, .. Sharp(px, py, pSpread2, points.Count)];
    }

    private FrictionNodes(PressureMeasure contact, double friction)
    {
        Scale = Math.Max(Math.Sqrt(contact.Xx + contact.Yy), 1e-3);
        Middle = contact.Middle;
        slack = contact.Reach / Scale;
        int n = Padded(contact.Pieces.Length);
        (x, y, spread2, share) = (new double[n], new double[n], Ones(n), new double[n]);
        for (int i = 0; i < contact.Pieces.Length; i++)
        {
            ContactPiece piece = contact.Pieces[i];
            x[i] = (piece.At.X - Middle.X) / Scale;
            y[i] = (piece.At.Y - Middle.Y) / Scale;
            spread2[i] = Math.Max(piece.Spread2 / (Scale * Scale), 1e-12);
            share[i] = friction * piece.Share;
        }
        (px, py, pSpread2, pGrip) = ([], [], [], []);
        contactKinks = kinks = [.. Sharp(x, y, spread2, contact.Pieces.Length)];
    }

    public double Scale { get; }

    public Point2 Middle { get; }

    /// <summary>Places (in units of Scale) that press at a point and so put a kink into the power there.</summary>
    public ReadOnlySpan<Point2> Kinks => kinks;

    /// <summary>Work of a load's shear on each part of a twist.</summary>
    public Twist Work(in CutLoad load) => new(load.Shear.X, load.Shear.Y, (load.At - Middle).Cross(load.Shear) / Scale);

    /// <summary>True when the plane pressure force + slope.x is positive over the whole contact.</summary>
    public bool PressesEverywhere(double force, Point2 slope) => force >= slope.Length * slack;

    /// <summary>The plane pressure's positive part added up: what a contact that cannot pull would carry of it.</summary>
    public double PositivePart(double force, Point2 slope, double friction)
    {
        Vector256<double> sum = Vector256<double>.Zero;
        Vector256<double> vForce = Vector256.Create(force);
        Vector256<double> vSlopeX = Vector256.Create(slope.X);
        Vector256<double> vSlopeY = Vector256.Create(slope.Y);
        for (int i = 0; i < x.Length; i += 4)
        {
            sum += Grip(i, vForce, vSlopeX, vSlopeY);
        }
        return friction > 0 ? Vector256.Sum(sum) / friction : 0;
    }

    /// <summary>How fast each piece of the contact moves at a twist, points left out.</summary>
    public double[] Speeds(Twist w)
    {
        double[] speeds = new double[x.Length];
        SpeedsAt(w, x, y, spread2, speeds);
        return speeds;
    }

    /// <summary>
    /// The value of <see cref="At"/> alone, for a twist whose <see cref="Speeds"/> are known; they do not depend on the points.
    /// </summary>
    public double Power(
        Twist w,
        ReadOnlySpan<double> speeds,
        double force,
        Point2 slope,
        double rescale,
        double pointScale
    )
    {
        Vector256<double> sum = Vector256<double>.Zero;
        Vector256<double> vForce = Vector256.Create(force * rescale);
        Vector256<double> vSlopeX = Vector256.Create(slope.X * rescale);
        Vector256<double> vSlopeY = Vector256.Create(slope.Y * rescale);
        for (int i = 0; i < x.Length; i += 4)
        {
            sum += Grip(i, vForce, vSlopeX, vSlopeY) * Vector256.Create(speeds[i..]);
        }
        Span<double> atPoints = stackalloc double[px.Length];
        SpeedsAt(w, px, py, pSpread2, atPoints);
        Vector256<double> scale = Vector256.Create(pointScale);
        for (int i = 0; i < px.Length; i += 4)
        {
            sum += scale * Vector256.LoadUnsafe(ref pGrip[i]) * Vector256.Create<double>(atPoints[i..]);
        }
        return Vector256.Sum(sum);
    }

    private Vector256<double> Grip(int i, Vector256<double> force, Vector256<double> slopeX, Vector256<double> slopeY)
    {
        Vector256<double> pressure =
            force + (slopeX * Vector256.LoadUnsafe(ref x[i])) + (slopeY * Vector256.LoadUnsafe(ref y[i]));
        return Vector256.LoadUnsafe(ref share[i]) * Vector256.Max(pressure, Vector256<double>.Zero);
    }

    private static void SpeedsAt(Twist w, double[] x, double[] y, double[] spread2, Span<double> speeds)
    {
        for (int i = 0; i < x.Length; i += 4)
        {
            Vector256<double> u = Vector256.Create(w.X) - (w.Turn * Vector256.LoadUnsafe(ref y[i]));
            Vector256<double> v = Vector256.Create(w.Y) + (w.Turn * Vector256.LoadUnsafe(ref x[i]));
            Vector256<double> own = w.Turn * w.Turn * Vector256.LoadUnsafe(ref spread2[i]);
            Vector256.Sqrt((u * u) + (v * v) + own).CopyTo(speeds[i..]);
        }
    }

    /// <summary>
    /// Power of friction at a twist under the pressure (force + slope.x) * rescale, never below 0, and the points' forces
    /// times pointScale; perForce and perSlope are the pressure's change per unit of load. Slopes are per Scale.
    /// </summary>
    public FrictionPower At(
        Twist w,
        double force,
        Point2 slope,
        double rescale,
        double pointScale,
        double perForce,
        Point2 perSlope
    )
    {
        var sums = new PowerSums(w);
        Vector256<double> vForce = Vector256.Create(force * rescale);
        Vector256<double> vSlopeX = Vector256.Create(slope.X * rescale);
        Vector256<double> vSlopeY = Vector256.Create(slope.Y * rescale);
        Vector256<double> vPer = Vector256.Create(perForce);
        Vector256<double> vPerX = Vector256.Create(perSlope.X);
        Vector256<double> vPerY = Vector256.Create(perSlope.Y);
        for (int i = 0; i < x.Length; i += 4)
        {
            Vector256<double> vx = Vector256.LoadUnsafe(ref x[i]);
            Vector256<double> vy = Vector256.LoadUnsafe(ref y[i]);
            Vector256<double> part = Vector256.LoadUnsafe(ref share[i]);
            Vector256<double> grip = Grip(i, vForce, vSlopeX, vSlopeY);
            Vector256<double> change = part * (vPer + (vPerX * vx) + (vPerY * vy));
            sums.Add(vx, vy, Vector256.LoadUnsafe(ref spread2[i]), grip, change);
        }
        Vector256<double> scale = Vector256.Create(pointScale);
        for (int i = 0; i < px.Length; i += 4)
        {
            sums.Add(
                Vector256.LoadUnsafe(ref px[i]),
                Vector256.LoadUnsafe(ref py[i]),
                Vector256.LoadUnsafe(ref pSpread2[i]),
                scale * Vector256.LoadUnsafe(ref pGrip[i]),
                Vector256<double>.Zero
            );
        }
        return sums.Result;
    }

    private static IEnumerable<Point2> Sharp(double[] x, double[] y, double[] spread2, int count) =>
        Enumerable
            .Range(0, count)
            .Where(i => spread2[i] < SharpBelow)
            .Take(MostKinks)
            .Select(i => new Point2(x[i], y[i]));

    private static int Padded(int n) => (n + 3) / 4 * 4;

    private static double[] Ones(int n)
    {
        double[] ones = new double[n];
        Array.Fill(ones, 1);
        return ones;
    }
}
