using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>How a shifted curve meets the next one.</summary>
internal enum Joint : byte
{
    Open,
    Tangent,
    Trimmed,

    /// <summary>A straight step: neither reaches the other, but both ends are nearly as far from the source as asked.</summary>
    Bridged,
    Round,
}

/// <summary>One curve of a source, shifted, with the stretch of it (fractions 0 to 1) that its neighbours leave.</summary>
internal struct Shifted
{
    public Curve Curve;
    public Point2 FromPoint;
    public Point2 ToPoint;
    public double From;
    public double To;
    public bool Alive;
    public bool Consumed;
    public Joint After;
}

/// <summary>Brings two shifted neighbours to a common corner.</summary>
internal static class Corners
{
    // How much nearer than the snapping distance a common point must be to count as on a curve.
    private const double Sharper = 0.1;

    // Times the gap between the ends that a common point may lie away from them.
    private const double FarOff = 1000;

    /// <summary>
    /// At a cusp the tangents cannot tell left from right, the curvatures can; a path that runs back along itself turns to
    /// the right, so that its end becomes round.
    /// </summary>
    public static bool TurnsBackToTheRight(in Curve before, in Curve after, Slack slack) =>
        Curvature(before) + Curvature(after) > -slack.Curvature;

    private static double Curvature(in Curve c) => c.IsArc ? c.Turn / c.R : 0;

    /// <summary>Lengthens two lines to their common corner; false where they have none ahead.</summary>
    public static bool Mitre(ref Shifted a, ref Shifted b)
    {
        if (a.Curve.IsArc || b.Curve.IsArc || !Crossings.Lines(a.Curve, b.Curve, out double t, out double u))
        {
            return false;
        }
        return t >= 1 && u <= 0 && a.From < t && b.To > u && SetCorner(ref a, ref b, t, u, a.Curve.PointAt(t));
    }

    /// <summary>
    /// Shortens two neighbours that overlap to their common point; false where they have none, or two: which of them is the
    /// corner then depends on what else is near, and they are cut at both like any other curves. So are those whose common
    /// point is very far off for how little they overlap: they run along each other.
    /// </summary>
    public static bool TrimToCrossing(ref Shifted a, ref Shifted b, Slack slack)
    {
        if (!a.Curve.IsArc && !b.Curve.IsArc)
        {
            return Crossings.Lines(a.Curve, b.Curve, out double t, out double u)
                && t > 0
                && t <= 1
                && u >= 0
                && u < 1
                && SetCorner(ref a, ref b, t, u, a.Curve.PointAt(t));
        }
        Span<Point2> found = stackalloc Point2[Crossings.Most];
        int count = Crossings.Carriers(a.Curve, b.Curve, slack.Near, found);
        Point2? corner = null;
        for (int k = 0; k < count; k++)
        {
            Point2 q = found[k];
            if (!Crossings.On(a.Curve, q, Sharper * slack.Near) || !Crossings.On(b.Curve, q, Sharper * slack.Near))
            {
                continue;
            }
            if (corner is { } other && other.DistanceTo(q) > slack.Near)
            {
                return false;
            }
            corner = q;
        }
        return corner is { } only
            && only.DistanceTo(a.Curve.B) <= FarOff * a.Curve.B.DistanceTo(b.Curve.A)
            && SetCorner(ref a, ref b, Along(a.Curve, only, slack.Near), Along(b.Curve, only, slack.Near), only);
    }

    /// <summary>Fraction of the curve at a point of it; a point at an end is not taken for one a full turn on.</summary>
    private static double Along(in Curve c, Point2 p, double near)
    {
        double toStart = p.DistanceTo(c.A);
        double toEnd = p.DistanceTo(c.B);
        return Math.Min(toStart, toEnd) > near ? c.Fraction(p)
            : toStart < toEnd ? 0
            : 1;
    }

    private static bool SetCorner(ref Shifted a, ref Shifted b, double t, double u, Point2 corner)
    {
        a.To = t;
        a.ToPoint = corner;
        b.From = u;
        b.FromPoint = corner;
        return true;
    }
}
