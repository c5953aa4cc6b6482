using FixtureGen.Model;

namespace FixtureGen.Drawing.Svg;

/// <summary>An elliptical arc between two points by its centre (SVG 2, B.2.3 to B.2.5): radii too small are enlarged until they reach.</summary>
/// <param name="Centre">User units.</param>
/// <param name="U">Half axis at t = 0.</param>
/// <param name="V">Half axis at t = 90 degrees, on the side that the arc turns to.</param>
/// <param name="Start">t at its start, radians.</param>
/// <param name="Sweep">t's way to its end, radians, above 0.</param>
internal readonly record struct SvgArc(Point2 Centre, Point2 U, Point2 V, double Start, double Sweep)
{
    /// <summary>Null where a radius is 0 or the ends are one point: then it is a line or nothing.</summary>
    public static SvgArc? Make(Point2 from, Point2 to, double rx, double ry, double turnDeg, bool large, bool sweep)
    {
        (rx, ry) = (Math.Abs(rx), Math.Abs(ry));
        if (rx == 0 || ry == 0 || from == to)
        {
            return null;
        }
        (double sin, double cos) = Math.SinCos(turnDeg % 360 * Math.PI / 180);
        Point2 half = (from - to) * 0.5;
        double x = (cos * half.X) + (sin * half.Y);
        double y = (cos * half.Y) - (sin * half.X);
        double reach = ((x / rx) * (x / rx)) + ((y / ry) * (y / ry));
        if (reach > 1)
        {
            (rx, ry) = (rx * Math.Sqrt(reach), ry * Math.Sqrt(reach));
        }
        // the centre in circles of radius 1: halfway between the ends, then across
        double k = Math.Sqrt(Math.Max(0, (1 / Math.Min(1, reach > 1 ? 1 : reach)) - 1)) * (large == sweep ? -1 : 1);
        (double cx, double cy) = (k * (y / ry), -k * (x / rx));
        double start = Math.Atan2((y / ry) - cy, (x / rx) - cx);
        double end = Math.Atan2((-y / ry) - cy, (-x / rx) - cx);
        double by = sweep ? end - start : start - end;
        by = by <= 0 ? by + (2 * Math.PI) : by;
        Point2 u = new(rx * cos, rx * sin);
        Point2 v = new Point2(-ry * sin, ry * cos) * (sweep ? 1 : -1);
        Point2 centre = ((from + to) * 0.5) + (cx * u) + (cy * new Point2(-ry * sin, ry * cos));
        return new SvgArc(centre, u, v, sweep ? start : -start, by);
    }
}
