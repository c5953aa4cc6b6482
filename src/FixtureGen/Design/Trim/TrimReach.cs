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

    /// <summary>At most two findings: one of the corners that keep too much, one of those that may keep it.</summary>
    /// <param name="allowed">More than this, mm, is refused: the part would not be the drawing's.</param>
    /// <param name="thinner">What other cutter was tried and reaches, in words; asked only where a corner is refused.</param>
    public static IEnumerable<Finding> Standing(
        string name,
        Contour edge,
        Contour line,
        Tool tool,
        double allowed,
        Func<string> thinner
    )
    {
        List<(Point2 At, double Left)> corners = Corners(edge, line, tool, out bool nowhere);
        double most = nowhere ? Math.Min(allowed, Noise) : allowed;
        foreach (IGrouping<bool, (Point2 At, double Left)> alike in corners.GroupBy(c => c.Left > most))
        {
            yield return TrimFindings.Standing(name, [.. alike], tool, most, thinner());
        }
    }

    /// <summary>What the cutter leaves at its worst point of the edge, mm; 0 where its rim touches all of it.</summary>
    public static double Worst(Contour edge, Contour line, Tool tool) => Left(edge, line, tool).DefaultIfEmpty(0).Max();

    /// <summary>What the cutter leaves in each corner of the edge, mm; nothing where its rim touches all of it.</summary>
    public static IEnumerable<double> Left(Contour edge, Contour line, Tool tool) =>
        Corners(edge, line, tool, out _).Select(c => c.Left);

    /// <summary>Where a cut leaves more than is allowed, mm, at the worst point of each corner.</summary>
    public static IEnumerable<Point2> Refused(TrimCut cut, double allowed) =>
        Corners(cut.Edge, cut.Path, cut.Tool, out _).Where(c => c.Left > allowed).Select(c => c.At);

    /// <summary>What a cut and its corners leave together at the worst point of its edge, mm.</summary>
    public static double Worst(TrimCut cut, IReadOnlyList<TrimCut> corners) =>
        Samples(cut.Edge)
            .Select(p => corners.Append(cut).Min(c => Math.Abs(Measure.Distance(p, c.Path)) - c.Tool.Radius))
            .Append(0)
            .Max();

    // each corner at its worst point; nowhere is true where the rim touches no point of the edge
    private static List<(Point2 At, double Left)> Corners(Contour edge, Contour line, Tool tool, out bool nowhere)
    {
        List<(Point2 At, double Left)> samples =
        [
            .. Samples(edge).Select(p => (p, Measure.Distance(p, line) - tool.Radius)),
        ];
        int first = samples.FindIndex(s => s.Left <= Noise);
        nowhere = first < 0;
        if (nowhere)
        {
            return [samples.MaxBy(s => s.Left)];
        }
        var corners = new List<(Point2 At, double Left)>();
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
                corners.Add(worst);
                worst = default;
            }
        }
        return corners;
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
