using FixtureGen.Model;

namespace FixtureGen.Verify.Shape;

/// <summary>Arc geometry as NISTIR 6556 section 3.5.3 defines it, in the selected plane's own two axes, mm.</summary>
internal static class ArcSolver
{
    /// <summary>How far the end lies off the circle through the start, mm.</summary>
    public static double Mismatch(Point2 start, Point2 end, Point2 centre) =>
        Math.Abs(start.DistanceTo(centre) - end.DistanceTo(centre));

    /// <summary>
    /// Centre of a radius-format arc; a positive radius turns at most half a circle, a negative one more. Null where the radius
    /// cannot reach the end; by less than <paramref name="slack"/> mm it is taken as a half circle.
    /// </summary>
    public static Point2? CentreByRadius(Point2 start, Point2 end, double radius, bool ccw, double slack)
    {
        Point2 chord = end - start;
        double half = chord.Length / 2;
        double r = Math.Abs(radius);
        if (half <= 0 || half - r > slack)
        {
            return null;
        }
        double height = Math.Sqrt(Math.Max(0, (r * r) - (half * half)));
        Point2 left = chord.Left * (1 / chord.Length);
        bool centreOnLeft = ccw == radius > 0;
        return start + (chord * 0.5) + (left * (centreOnLeft ? height : -height));
    }

    /// <summary>Signed sweep, radians; a full turn where start and end are the same to within 1e-9 mm.</summary>
    public static double Sweep(Point2 start, Point2 end, Point2 centre, bool ccw)
    {
        Point2 a = start - centre;
        Point2 b = end - centre;
        if (start.DistanceTo(end) < 1e-9)
        {
            return ccw ? 2 * Math.PI : -2 * Math.PI;
        }
        double angle = Math.Atan2(a.Cross(b), a.Dot(b));
        if (ccw)
        {
            return angle <= 0 ? angle + (2 * Math.PI) : angle;
        }
        return angle >= 0 ? angle - (2 * Math.PI) : angle;
    }
}
