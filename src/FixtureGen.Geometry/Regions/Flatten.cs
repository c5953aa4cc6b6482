using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>Chords in place of arcs, their ends on the arc, for pictures and for libraries that know straight lines only.</summary>
public static class Flatten
{
    /// <summary>Vertices, the first not repeated; no chord leaves its arc by more than <paramref name="chord"/> mm, above 0.</summary>
    public static ImmutableArray<Point2> Points(Contour contour, double chord) =>
        [.. contour.Segments.SelectMany(s => Starts(s, chord))];

    /// <summary>Vertices, start and end among them; no chord leaves its arc by more than <paramref name="chord"/> mm, above 0.</summary>
    public static ImmutableArray<Point2> Points(OpenPath path, double chord) =>
        [.. path.Segments.SelectMany(s => Starts(s, chord)), path.End];

    /// <summary>
    /// The fewest equal chords, 1 or more, of an arc whose sagitta r (1 - cos(a / 2)) stays within <paramref name="chord"/> mm,
    /// above 0; radius in mm, sweep in radians of either sign.
    /// </summary>
    public static int ChordCount(double radius, double sweep, double chord)
    {
        double step = 2 * Math.Acos(1 - Math.Min(1, chord / radius));
        return Math.Max(1, (int)Math.Ceiling(Math.Abs(sweep) / step));
    }

    private static IEnumerable<Point2> Starts(Segment s, double chord)
    {
        yield return s.Start;
        if (!s.IsArc)
        {
            yield break;
        }
        int n = ChordCount(s.Radius, s.Sweep, chord);
        for (int i = 1; i < n; i++)
        {
            yield return Measure.PointAt(s, (double)i / n);
        }
    }
}
