using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// One line (Turn 0) or arc (Turn +1 counter-clockwise, -1 clockwise) packed for the kernel's inner loops, mm. The radius
/// is kept, so that an arc cut into pieces stays on one circle bit for bit.
/// </summary>
internal struct Curve
{
    public Point2 A;
    public Point2 B;
    public Point2 C;
    public double R;
    public int Turn;

    // A rounding error that would turn a sweep of nothing into a full circle.
    private const double AngleNoise = Rounding.Angle;

    public static Curve Line(Point2 a, Point2 b) => new() { A = a, B = b };

    public static Curve Arc(Point2 a, Point2 b, Point2 centre, double radius, int turn) =>
        new()
        {
            A = a,
            B = b,
            C = centre,
            R = radius,
            Turn = turn,
        };

    public static Curve From(in Segment s) =>
        s.Kind switch
        {
            SegmentKind.ArcCcw => Arc(s.Start, s.End, s.Centre, s.Radius, 1),
            SegmentKind.ArcCw => Arc(s.Start, s.End, s.Centre, s.Radius, -1),
            SegmentKind.Line => Line(s.Start, s.End),
        };

    public readonly Segment ToSegment() => Turn == 0 ? Segment.Line(A, B) : Segment.Arc(A, B, C, Turn > 0);

    public readonly Segment ToReversedSegment() => Turn == 0 ? Segment.Line(B, A) : Segment.Arc(B, A, C, Turn < 0);

    public readonly Curve Reversed
    {
        get
        {
            Curve c = this;
            c.Reverse();
            return c;
        }
    }

    /// <summary>Turns it round in place.</summary>
    public void Reverse()
    {
        (A, B) = (B, A);
        Turn = -Turn;
    }

    public readonly bool IsArc => Turn != 0;

    public readonly double Chord2
    {
        [MethodImpl(MethodImplOptions.AggressiveInlining)]
        get
        {
            double x = B.X - A.X;
            double y = B.Y - A.Y;
            return (x * x) + (y * y);
        }
    }

    /// <summary>Signed sweep in radians, within (-2 pi, 2 pi); 0 for a line and for an arc whose ends coincide.</summary>
    public readonly double Sweep => Turn == 0 ? 0 : Turn * Angle;

    /// <summary>Length, mm.</summary>
    public readonly double Length => Turn == 0 ? Math.Sqrt(Chord2) : Angle * R;

    /// <summary>The sweep without its sign; only of an arc.</summary>
    private readonly double Angle
    {
        get
        {
            Point2 a = A - C;
            Point2 b = B - C;
            double s2 = Chord2 / (4 * R * R);
            if (s2 > 0.0025 || Turn * a.Cross(b) < 0 || a.Dot(b) < 0)
            {
                return AngleTo(B);
            }
            // 2 asin(chord / 2R) as a series: exact to rounding for sweeps under 0.1, and quicker than an arc tangent.
            double series = 1 + (s2 * (1.0 / 6 + (s2 * (3.0 / 40 + (s2 * (15.0 / 336 + (s2 * 105.0 / 3456)))))));
            return 2 * Math.Sqrt(s2) * series;
        }
    }

    public readonly Point2 StartTangent => Turn == 0 ? Unit(B - A) : TangentAt(A);

    public readonly Point2 EndTangent => Turn == 0 ? Unit(B - A) : TangentAt(B);

    /// <summary>Direction of travel at a point of the curve; unit length.</summary>
    public readonly Point2 TangentAt(Point2 p)
    {
        if (Turn == 0)
        {
            return Unit(B - A);
        }
        Point2 v = p - C;
        double k = Turn / v.Length;
        return new(-v.Y * k, v.X * k);
    }

    /// <summary>The point half way along.</summary>
    public readonly Point2 Middle
    {
        get
        {
            if (Turn == 0)
            {
                return new((A.X + B.X) * 0.5, (A.Y + B.Y) * 0.5);
            }
            Point2 a = A - C;
            Point2 b = B - C;
            // The bisector is sharp for small sweeps, the chord's normal for large ones.
            bool small = a.Dot(b) > 0 && Turn * a.Cross(b) >= 0;
            Point2 n = small ? a + b : new((b.Y - a.Y) * Turn, (a.X - b.X) * Turn);
            return C + (n * (R / n.Length));
        }
    }

    /// <summary>
    /// A point well between the ends but not half way: drawings are symmetric, and half way is where they touch.
    /// </summary>
    public readonly Point2 Probe
    {
        get
        {
            if (Turn == 0)
            {
                return A + ((B - A) * 0.4375);
            }
            Curve half = this;
            half.B = Middle;
            return half.Middle;
        }
    }

    /// <summary>The point at the fraction <paramref name="t"/> of the length, 0 to 1.</summary>
    public readonly Point2 PointAt(double t)
    {
        if (Turn == 0)
        {
            return A + ((B - A) * t);
        }
        (double sin, double cos) = Math.SinCos(Sweep * t);
        Point2 a = A - C;
        double k = R / a.Length;
        return new(C.X + (k * ((a.X * cos) - (a.Y * sin))), C.Y + (k * ((a.X * sin) + (a.Y * cos))));
    }

    /// <summary>
    /// Where a point of the curve lies along it: fraction of the chord for a line, radians from the start for an arc.
    /// </summary>
    public readonly double Parameter(Point2 p) => Turn == 0 ? (p - A).Dot(B - A) / Chord2 : AngleTo(p);

    /// <summary>Like <see cref="Parameter"/> but 0 to 1 for both kinds.</summary>
    public readonly double Fraction(Point2 p) => Turn == 0 ? Parameter(p) : AngleTo(p) / AngleTo(B);

    /// <summary>True when the direction from the centre to <paramref name="p"/> lies within the arc's sweep, ends included.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public readonly bool SweepHolds(Point2 p)
    {
        Point2 v = p - C;
        Point2 a = (Turn > 0 ? A : B) - C;
        Point2 b = (Turn > 0 ? B : A) - C;
        double ab = a.Cross(b);
        double av = a.Cross(v);
        double vb = v.Cross(b);
        if (ab > 0 || (ab == 0 && a.Dot(b) < 0))
        {
            return av >= 0 && vb >= 0;
        }
        return ab == 0 ? av == 0 && a.Dot(v) > 0 : av >= 0 || vb >= 0;
    }

    /// <summary>Squared distance of a point from the curve, mm2.</summary>
    public readonly double Distance2(Point2 p)
    {
        if (Turn == 0)
        {
            Point2 d = B - A;
            double len2 = d.Dot(d);
            double t = len2 > 0 ? (p - A).Dot(d) / len2 : 0;
            t = Math.Clamp(t, 0, 1);
            Point2 w = p - (A + (d * t));
            return w.Dot(w);
        }
        if (SweepHolds(p))
        {
            double off = (p - C).Length - R;
            return off * off;
        }
        Point2 u = p - A;
        Point2 v = p - B;
        return Math.Min(u.Dot(u), v.Dot(v));
    }

    /// <summary>The point of the curve nearest to <paramref name="p"/>.</summary>
    public readonly Point2 Closest(Point2 p)
    {
        if (Turn == 0)
        {
            Point2 d = B - A;
            double len2 = d.Dot(d);
            return len2 > 0 ? A + (d * Math.Clamp((p - A).Dot(d) / len2, 0, 1)) : A;
        }
        Point2 v = p - C;
        double length = v.Length;
        if (length > 0 && SweepHolds(p))
        {
            return C + (v * (R / length));
        }
        return p.DistanceTo(A) <= p.DistanceTo(B) ? A : B;
    }

    /// <summary>The smallest axis-parallel box around the curve.</summary>
    public readonly Box2 Box()
    {
        double x0 = Math.Min(A.X, B.X);
        double x1 = Math.Max(A.X, B.X);
        double y0 = Math.Min(A.Y, B.Y);
        double y1 = Math.Max(A.Y, B.Y);
        if (Turn == 0 || StaysInOneQuadrant())
        {
            return new(x0, y0, x1, y1);
        }
        x1 = SweepHolds(new(C.X + R, C.Y)) ? Math.Max(x1, C.X + R) : x1;
        x0 = SweepHolds(new(C.X - R, C.Y)) ? Math.Min(x0, C.X - R) : x0;
        y1 = SweepHolds(new(C.X, C.Y + R)) ? Math.Max(y1, C.Y + R) : y1;
        y0 = SweepHolds(new(C.X, C.Y - R)) ? Math.Min(y0, C.Y - R) : y0;
        return new(x0, y0, x1, y1);
    }

    /// <summary>The same box, packed.</summary>
    public readonly Vector256<double> Packed() =>
        Turn == 0 || StaysInOneQuadrant() ? PackedBox.Packed(A, B) : PackedBox.Packed(Box());

    /// <summary>True for an arc that lies in one quadrant of its circle; it then runs on into one quadrant.</summary>
    public readonly bool StaysInOneQuadrant()
    {
        Point2 a = A - C;
        Point2 b = B - C;
        return a.X * b.X >= 0 && a.Y * b.Y >= 0 && Turn * a.Cross(b) > 0;
    }

    private readonly double AngleTo(Point2 p)
    {
        Point2 a = A - C;
        Point2 v = p - C;
        double angle = Turn * Math.Atan2(a.Cross(v), a.Dot(v));
        return angle >= 0 ? angle
            : angle < -AngleNoise ? angle + (2 * Math.PI)
            : 0;
    }

    private static Point2 Unit(Point2 v) => v * (1 / v.Length);
}
