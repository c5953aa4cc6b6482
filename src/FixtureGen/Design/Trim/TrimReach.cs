using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Trim;

/// <summary>
/// What a round cutter leaves standing at a finished edge: each point of the edge that the cutter's rim does not touch, by
/// its distance from the centre line less the cutter's radius. One finding for each corner, at its worst point.
/// </summary>
internal static class TrimReach
{
    /// <summary>Less than this is no corner but rounding, mm.</summary>
    private const double Noise = 0.02;

    private const double SampleStep = 0.5;

    /// <param name="allowed">More than this, mm, is refused: the part would not be the drawing's.</param>
    public static IEnumerable<Finding> Standing(string name, Contour edge, Contour line, Tool tool, double allowed)
    {
        List<(Point2 At, double Left)> samples =
        [
            .. Samples(edge).Select(p => (p, Measure.Distance(p, line) - tool.Radius)),
        ];
        int first = samples.FindIndex(s => s.Left <= Noise);
        if (first < 0)
        {
            yield return TrimFindings.Standing(name, samples.MaxBy(s => s.Left), tool, Math.Min(allowed, Noise));
            yield break;
        }
        (Point2 At, double Left) worst = default;
        for (int k = 1; k <= samples.Count; k++)
        {
            (Point2 At, double Left) s = samples[(first + k) % samples.Count];
            if (s.Left > Noise)
            {
                worst = s.Left > worst.Left ? s : worst;
            }
            else if (worst.Left > 0)
            {
                yield return TrimFindings.Standing(name, worst, tool, allowed);
                worst = default;
            }
        }
    }

    private static IEnumerable<Point2> Samples(Contour edge)
    {
        foreach (Segment s in edge.Segments)
        {
            int steps = Math.Max(2, (int)Math.Ceiling(s.Length / SampleStep));
            for (int k = 0; k < steps; k++)
            {
                yield return Measure.PointAt(s, (double)k / steps);
            }
        }
    }
}
