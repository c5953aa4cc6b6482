using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Output.Scenes;

/// <summary>Parallel hatch lines inside areas, as true lines: no clipping is asked of the viewer.</summary>
internal static class Hatching
{
    private const double Chord = 0.05;

    /// <summary>
    /// Lines at <paramref name="angleDeg"/>, <paramref name="pitch"/> mm apart, inside <paramref name="areas"/> by the
    /// even-odd rule. Lines are counted from the frame's origin, so that neighbouring areas hatch in step.
    /// </summary>
    public static IEnumerable<Chain> Lines(IEnumerable<Region> areas, double angleDeg, double pitch)
    {
        double turn = angleDeg * Math.PI / 180;
        Point2 along = new(Math.Cos(turn), Math.Sin(turn));
        List<(Point2 A, Point2 B)> sides = [];
        foreach (Contour contour in areas.SelectMany(r => r.Contours))
        {
            IReadOnlyList<Point2> points = [.. Flatten.Points(contour, Chord).Select(p => Turned(p, along))];
            for (int i = 0; i < points.Count; i++)
            {
                sides.Add((points[i], points[(i + 1) % points.Count]));
            }
        }
        if (sides.Count == 0)
        {
            yield break;
        }
        int last = (int)Math.Floor(sides.Max(s => s.A.Y) / pitch);
        for (int k = (int)Math.Ceiling(sides.Min(s => s.A.Y) / pitch); k <= last; k++)
        {
            double y = (k + 1e-7) * pitch;
            double[] crossings = [.. sides.Where(s => s.A.Y > y != s.B.Y > y).Select(s => Cross(s.A, s.B, y)).Order()];
            for (int i = 0; i + 1 < crossings.Length; i += 2)
            {
                yield return Chain.Line(Back(new(crossings[i], y), along), Back(new(crossings[i + 1], y), along));
            }
        }
    }

    private static double Cross(Point2 a, Point2 b, double y) => a.X + ((b.X - a.X) * (y - a.Y) / (b.Y - a.Y));

    private static Point2 Turned(Point2 p, Point2 along) => new(p.Dot(along), along.Cross(p));

    private static Point2 Back(Point2 p, Point2 along) => (along * p.X) + (along.Left * p.Y);
}
