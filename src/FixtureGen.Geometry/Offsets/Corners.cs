using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>How a shifted curve meets the next one.</summary>
internal enum Joint : byte
{
    Open,
    Tangent,
    Trimmed,
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
    public Joint After;
}

/// <summary>Brings two shifted neighbours to a common corner.</summary>
internal static class Corners
{
    // Curvatures, per mm, nearer than this are the same.
    private const double FlatCurvature = 1e-9;

    /// <summary>
    /// At a cusp the tangents cannot tell left from right, the curvatures can; a path that runs back along itself turns to
    /// the right, so that its end becomes round.
    /// </summary>
    public static bool TurnsBackToTheRight(in Curve before, in Curve after) =>
        Curvature(before) + Curvature(after) > -FlatCurvature;

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
    /// corner then depends on what else is near, and they are cut at both like any other curves.
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
            if (!Crossings.On(a.Curve, q, slack.Near / 10) || !Crossings.On(b.Curve, q, slack.Near / 10))
            {
                continue;
            }
            if (corner is { } other && other.DistanceTo(q) > slack.Stitch)
            {
                return false;
            }
            corner = q;
        }
        if (corner is { } only)
        {
            return SetCorner(ref a, ref b, a.Curve.Fraction(only), b.Curve.Fraction(only), only);
        }
        // Neighbours that miss each other by less than a stitch are joined where the first one ends.
        return a.Curve.B.DistanceTo(b.Curve.A) < slack.Stitch / 2 && SetCorner(ref a, ref b, 1, 0, a.Curve.B);
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
