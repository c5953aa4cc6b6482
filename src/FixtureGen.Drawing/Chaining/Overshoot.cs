using FixtureGen.Model;

namespace FixtureGen.Drawing.Chaining;

/// <summary>Two straight ends of one open chain that cross and run on: a corner drawn past itself.</summary>
/// <param name="At">Where they cross, drawing frame.</param>
/// <param name="First">How far the start runs past it, in the drawing's lengths.</param>
/// <param name="Last">How far the end runs past it.</param>
internal readonly record struct Overshoot(Point2 At, double First, double Last)
{
    /// <summary>Null where an end is an arc, or the two do not cross.</summary>
    public static Overshoot? Find(OpenPath path)
    {
        (Segment first, Segment last) = (path.Segments[0], path.Segments[^1]);
        if (path.Segments.Length < 3 || first.IsArc || last.IsArc)
        {
            return null;
        }
        (Point2 a, Point2 b) = (first.End - first.Start, last.End - last.Start);
        double cross = (a.X * b.Y) - (a.Y * b.X);
        if (Math.Abs(cross) < 1e-9 * first.Start.DistanceTo(first.End) * last.Start.DistanceTo(last.End))
        {
            return null;
        }
        Point2 between = last.Start - first.Start;
        double s = ((between.X * b.Y) - (between.Y * b.X)) / cross;
        double t = ((between.X * a.Y) - (between.Y * a.X)) / cross;
        if (s is < 0 or > 1 || t is < 0 or > 1)
        {
            return null;
        }
        Point2 at = first.Start + (a * s);
        return new Overshoot(at, first.Start.DistanceTo(at), last.End.DistanceTo(at));
    }
}
