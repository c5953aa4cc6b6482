using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using FixtureGen.Model;

namespace FixtureGen.Holding.Sliding;

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
internal readonly record struct FrictionPower
{
    public required double Value { get; init; }

    public required Twist Slope { get; init; }

    public required double Xx { get; init; }

    public required double Xy { get; init; }

    public required double Yy { get; init; }

    public required double Xt { get; init; }

    public required double Yt { get; init; }

    public required double Tt { get; init; }

    public required double PerLoad { get; init; }
}

/// <summary>
/// Contact pieces and after them points laid out for one pass in four lanes: always four, so that the sums come out the same on every
/// machine. Places are from the contact's middle in units of Scale, mm.
/// </summary>
internal sealed class FrictionNodes
{
    private const double SharpBelow = 1e-3;
    private const int MostKinks = 24;

    private readonly Node[] _contact;
    private readonly Node[] _points;
    private readonly double _slack;
    private readonly Point2[] _contactKinks;
    private readonly Point2[] _kinks;

    public FrictionNodes(PressureMeasure contact, double friction, IReadOnlyList<PressPoint> points)
        : this(new FrictionNodes(contact, friction), points) { }

    /// <summary>The same contact with other points.</summary>
    public FrictionNodes(FrictionNodes like, IReadOnlyList<PressPoint> points)
    {
        (Scale, Middle, _slack) = (like.Scale, like.Middle, like._slack);
        _contact = like._contact;
        _contactKinks = like._contactKinks;
        Place[] at = new Place[points.Count];
        for (int i = 0; i < at.Length; i++)
        {
            PressPoint p = points[i];
            at[i] = Placed(p.At, p.Spread * p.Spread, p.Grip);
        }
        _points = InLanes(at);
        _kinks = [.. _contactKinks, .. Sharp(at)];
    }

    private FrictionNodes(PressureMeasure contact, double friction)
    {
        Scale = Math.Max(Math.Sqrt(contact.Xx + contact.Yy), 1e-3);
        Middle = contact.Middle;
        _slack = contact.Reach / Scale;
        Place[] at = [.. contact.Pieces.Select(p => Placed(p.At, p.Spread2, friction * p.Share))];
        _contact = InLanes(at);
        _points = [];
        _contactKinks = _kinks = [.. Sharp(at)];
    }

    public double Scale { get; }

    public Point2 Middle { get; }

    /// <summary>Places (in units of Scale) that press at a point and so put a kink into the power there.</summary>
    public ReadOnlySpan<Point2> Kinks => _kinks;

    /// <summary>Work of a load's shear on each part of a twist.</summary>
    public Twist Work(in CutLoad load) => new(load.Shear.X, load.Shear.Y, (load.At - Middle).Cross(load.Shear) / Scale);

    /// <summary>True when the plane pressure force + slope.x is positive over the whole contact.</summary>
    public bool PressesEverywhere(double force, Point2 slope) => force >= slope.Length * _slack;

    /// <summary>The plane pressure's positive part added up: what a contact that cannot pull would carry of it.</summary>
    public double PositivePart(double force, Point2 slope, double friction)
    {
        Vector256<double> sum = Vector256<double>.Zero;
        Vector256<double> vForce = Vector256.Create(force);
        Vector256<double> vSlopeX = Vector256.Create(slope.X);
        Vector256<double> vSlopeY = Vector256.Create(slope.Y);
        foreach (ref readonly Node node in _contact.AsSpan())
        {
            sum += Grip(node, vForce, vSlopeX, vSlopeY);
        }
        return friction > 0 ? Vector256.Sum(sum) / friction : 0;
    }

    /// <summary>How fast each piece of the contact moves at a twist, points left out.</summary>
    public Vector256<double>[] Speeds(Twist w)
    {
        var speeds = new Vector256<double>[_contact.Length];
        for (int i = 0; i < speeds.Length; i++)
        {
            speeds[i] = Speed(w, _contact[i]);
        }
        return speeds;
    }

    /// <summary>
    /// The value of <see cref="PowerAt"/> alone, for a twist whose <see cref="Speeds"/> are known; they do not depend on the points.
    /// </summary>
    public double Power(
        Twist w,
        ReadOnlySpan<Vector256<double>> speeds,
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
        for (int i = 0; i < speeds.Length; i++)
        {
            sum += Grip(_contact[i], vForce, vSlopeX, vSlopeY) * speeds[i];
        }
        Vector256<double> scale = Vector256.Create(pointScale);
        foreach (ref readonly Node node in _points.AsSpan())
        {
            sum += scale * node.Grip * Speed(w, node);
        }
        return Vector256.Sum(sum);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Grip(
        in Node node,
        Vector256<double> force,
        Vector256<double> slopeX,
        Vector256<double> slopeY
    ) => node.Grip * Vector256.Max(force + (slopeX * node.X) + (slopeY * node.Y), Vector256<double>.Zero);

    private static Vector256<double> Speed(Twist w, in Node node)
    {
        Vector256<double> u = Vector256.Create(w.X) - (w.Turn * node.Y);
        Vector256<double> v = Vector256.Create(w.Y) + (w.Turn * node.X);
        Vector256<double> own = w.Turn * w.Turn * node.Spread2;
        return Vector256.Sqrt((u * u) + (v * v) + own);
    }

    /// <summary>
    /// Power of friction at a twist under the pressure (force + slope.x) * rescale, never below 0, and the points' forces
    /// times pointScale; perForce and perSlope are the pressure's change per unit of load. Slopes are per Scale. For
    /// s = sqrt(w'Qw) the slope is Qw/s and the curvature Q/s - (Qw/s)(Qw/s)'/s, with Q of the rows (1, 0, -y), (0, 1, x),
    /// (-y, x, x2 + y2 + spread2).
    /// </summary>
    public FrictionPower PowerAt(
        Twist w,
        double force,
        Point2 slope,
        double rescale,
        double pointScale,
        double perForce,
        Point2 perSlope
    )
    {
        // The sums are variables of their own and not a struct's fields: only so are they kept in registers.
        Vector256<double> wx = Vector256.Create(w.X);
        Vector256<double> wy = Vector256.Create(w.Y);
        Vector256<double> wt = Vector256.Create(w.Turn);
        Vector256<double> back = -wt;
        Vector256<double> vForce = Vector256.Create(force * rescale);
        Vector256<double> vSlopeX = Vector256.Create(slope.X * rescale);
        Vector256<double> vSlopeY = Vector256.Create(slope.Y * rescale);
        Vector256<double> vPer = Vector256.Create(perForce);
        Vector256<double> vPerX = Vector256.Create(perSlope.X);
        Vector256<double> vPerY = Vector256.Create(perSlope.Y);
        Vector256<double> scale = Vector256.Create(pointScale);
        Vector256<double> least = Vector256.Create(1e-30);
        Vector256<double> value = Vector256<double>.Zero;
        Vector256<double> perLoad = Vector256<double>.Zero;
        Vector256<double> gx = Vector256<double>.Zero;
        Vector256<double> gy = Vector256<double>.Zero;
        Vector256<double> gt = Vector256<double>.Zero;
        Vector256<double> xx = Vector256<double>.Zero;
        Vector256<double> xy = Vector256<double>.Zero;
        Vector256<double> yy = Vector256<double>.Zero;
        Vector256<double> xt = Vector256<double>.Zero;
        Vector256<double> yt = Vector256<double>.Zero;
        Vector256<double> tt = Vector256<double>.Zero;
        int contacts = _contact.Length;
        ref Node first = ref MemoryMarshal.GetArrayDataReference(_contact);
        ref Node point = ref MemoryMarshal.GetArrayDataReference(_points);
        for (int i = 0; i < contacts + _points.Length; i++)
        {
            ref Node node = ref (i < contacts ? ref Unsafe.Add(ref first, i) : ref Unsafe.Add(ref point, i - contacts));
            Vector256<double> x = node.X;
            Vector256<double> y = node.Y;
            Vector256<double> spread2 = node.Spread2;
            Vector256<double> grip;
            Vector256<double> u = Sum(back, y, wx);
            Vector256<double> v = Sum(wt, x, wy);
            Vector256<double> own = wt * spread2;
            Vector256<double> s = Vector256.Sqrt(Sum(u, u, Sum(v, v, Sum(wt, own, least))));
            if (i < contacts)
            {
                Vector256<double> pressure = Sum(vSlopeX, x, Sum(vSlopeY, y, vForce));
                grip = node.Grip * Vector256.Max(pressure, Vector256<double>.Zero);
                perLoad = Sum(node.Grip * Sum(vPerX, x, Sum(vPerY, y, vPer)), s, perLoad);
            }
            else
            {
                grip = scale * node.Grip;
            }
            Vector256<double> inverse = Vector256<double>.One / s;
            Vector256<double> ux = u * inverse;
            Vector256<double> vy = v * inverse;
            Vector256<double> turn = Sum(vy, x, Sum(-ux, y, own * inverse));
            value = Sum(grip, s, value);
            gx = Sum(grip, ux, gx);
            gy = Sum(grip, vy, gy);
            gt = Sum(grip, turn, gt);
            Vector256<double> bend = grip * inverse;
            xx = Sum(bend, Sum(-ux, ux, Vector256<double>.One), xx);
            xy = Sum(bend, -ux * vy, xy);
            yy = Sum(bend, Sum(-vy, vy, Vector256<double>.One), yy);
            xt = Sum(-bend, Sum(ux, turn, y), xt);
            yt = Sum(bend, Sum(-vy, turn, x), yt);
            tt = Sum(bend, Sum(x, x, Sum(y, y, Sum(-turn, turn, spread2))), tt);
        }
        return new()
        {
            Value = Vector256.Sum(value),
            Slope = new Twist(Vector256.Sum(gx), Vector256.Sum(gy), Vector256.Sum(gt)),
            Xx = Vector256.Sum(xx),
            Xy = Vector256.Sum(xy),
            Yy = Vector256.Sum(yy),
            Xt = Vector256.Sum(xt),
            Yt = Vector256.Sum(yt),
            Tt = Vector256.Sum(tt),
            PerLoad = Vector256.Sum(perLoad),
        };
    }

    /// <summary>a b + c, rounded once, which every machine does alike.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Sum(Vector256<double> a, Vector256<double> b, Vector256<double> c) =>
        Vector256.FusedMultiplyAdd(a, b, c);

    /// <summary>From the contact's middle in units of Scale, with friction's share or force there.</summary>
    private readonly record struct Place(double X, double Y, double Spread2, double Grip);

    /// <summary>Four places; Grip is friction times share for pieces of the contact and the friction force for points.</summary>
    private readonly record struct Node(
        Vector256<double> X,
        Vector256<double> Y,
        Vector256<double> Spread2,
        Vector256<double> Grip
    );

    private Place Placed(Point2 at, double spread2, double grip) =>
        new((at.X - Middle.X) / Scale, (at.Y - Middle.Y) / Scale, Math.Max(spread2 / (Scale * Scale), 1e-12), grip);

    /// <summary>Four at a time; the last lanes are filled up with places that grip nothing.</summary>
    private static Node[] InLanes(Place[] at)
    {
        Place none = new(0, 0, 1, 0);
        var lanes = new Node[(at.Length + 3) / 4];
        for (int i = 0; i < lanes.Length; i++)
        {
            Place Lane(int n) => (4 * i) + n < at.Length ? at[(4 * i) + n] : none;
            (Place a, Place b, Place c, Place d) = (Lane(0), Lane(1), Lane(2), Lane(3));
            lanes[i] = new Node(
                Vector256.Create(a.X, b.X, c.X, d.X),
                Vector256.Create(a.Y, b.Y, c.Y, d.Y),
                Vector256.Create(a.Spread2, b.Spread2, c.Spread2, d.Spread2),
                Vector256.Create(a.Grip, b.Grip, c.Grip, d.Grip)
            );
        }
        return lanes;
    }

    private static IEnumerable<Point2> Sharp(IEnumerable<Place> at) =>
        at.Where(p => p.Spread2 < SharpBelow).Take(MostKinks).Select(p => new Point2(p.X, p.Y));
}
