using FixtureGen.Model;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Shape;

/// <summary>
/// One line or arc of the judge's own geometry, mm. An arc starts at angle A0 (radians) and sweeps Sweep (signed, at most a
/// full turn) about C at radius R; R is 0 for a line.
/// </summary>
internal readonly record struct Piece(Point2 A, Point2 B, Point2 C, double R, double A0, double Sweep)
{
    public bool IsArc => R > 0;

    public static Piece Line(Point2 a, Point2 b) => new(a, b, default, 0, 0, 0);

    public static Piece Arc(Point2 a, Point2 b, Point2 c, double sweep)
    {
        double r = (a.DistanceTo(c) + b.DistanceTo(c)) / 2;
        return new Piece(a, b, c, r, Math.Atan2(a.Y - c.Y, a.X - c.X), sweep);
    }

    public static Piece From(Segment s) => s.IsArc ? Arc(s.Start, s.End, s.Centre, s.Sweep) : Line(s.Start, s.End);

    /// <summary>The tip's way in the plane; a vertical motion is a line of length zero.</summary>
    public static Piece From(Motion m)
    {
        if (m.Kind is MotionKind.Rapid or MotionKind.Line)
        {
            return Line(m.From.Xy, m.To.Xy);
        }
        double sweep = FixtureGen.Verify.Shape.ArcSolver.Sweep(
            m.From.Xy,
            m.To.Xy,
            m.Centre,
            m.Kind == MotionKind.ArcCcw
        );
        return Arc(m.From.Xy, m.To.Xy, m.Centre, sweep);
    }

    public double Length => IsArc ? Math.Abs(Sweep) * R : A.DistanceTo(B);

    /// <summary>The point at 0 (start) to 1 (end).</summary>
    public Point2 PointAt(double t)
    {
        if (!IsArc)
        {
            return A + ((B - A) * t);
        }
        (double sin, double cos) = Math.SinCos(A0 + (Sweep * t));
        return new Point2(C.X + (R * cos), C.Y + (R * sin));
    }

    /// <summary>Direction of travel at t, length 1 (zero for a piece without length).</summary>
    public Point2 Tangent(double t)
    {
        if (!IsArc)
        {
            double l = Length;
            return l > 0 ? (B - A) * (1 / l) : default;
        }
        (double sin, double cos) = Math.SinCos(A0 + (Sweep * t));
        return Sweep > 0 ? new Point2(-sin, cos) : new Point2(sin, -cos);
    }

    /// <summary>The part between two parameters, t0 &lt; t1.</summary>
    public Piece Part(double t0, double t1)
    {
        Point2 a = PointAt(t0);
        Point2 b = PointAt(t1);
        return IsArc ? new Piece(a, b, C, R, A0 + (Sweep * t0), Sweep * (t1 - t0)) : Line(a, b);
    }

    /// <summary>Parameter of the direction from C towards p; outside 0..1 when the arc does not reach that way.</summary>
    public double TurnTo(Point2 p)
    {
        double angle = Math.Atan2(p.Y - C.Y, p.X - C.X) - A0;
        double turn = 2 * Math.PI;
        angle -= Math.Floor(angle / turn) * turn;
        return Sweep > 0 ? angle / Sweep : (angle == 0 ? 0 : (turn - angle) / -Sweep);
    }

    public Box2 Bounds()
    {
        double x0 = Math.Min(A.X, B.X);
        double x1 = Math.Max(A.X, B.X);
        double y0 = Math.Min(A.Y, B.Y);
        double y1 = Math.Max(A.Y, B.Y);
        if (IsArc)
        {
            Reach(new Point2(C.X + R, C.Y), ref x0, ref y0, ref x1, ref y1);
            Reach(new Point2(C.X - R, C.Y), ref x0, ref y0, ref x1, ref y1);
            Reach(new Point2(C.X, C.Y + R), ref x0, ref y0, ref x1, ref y1);
            Reach(new Point2(C.X, C.Y - R), ref x0, ref y0, ref x1, ref y1);
        }
        return new Box2(x0, y0, x1, y1);
    }

    private void Reach(Point2 p, ref double x0, ref double y0, ref double x1, ref double y1)
    {
        if (TurnTo(p) is >= 0 and <= 1)
        {
            x0 = Math.Min(x0, p.X);
            x1 = Math.Max(x1, p.X);
            y0 = Math.Min(y0, p.Y);
            y1 = Math.Max(y1, p.Y);
        }
    }
}
