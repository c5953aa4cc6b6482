using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Chaining;

/// <summary>Names what keeps chains open: their gaps, the places where more than two curves meet, ends that stand on other curves.</summary>
internal static class OpenEnds
{
    private const int MostNamed = 12;

    /// <summary>Of more open chains none is asked what it is: such a drawing has more than strays.</summary>
    private const int MostStrays = 2000;

    public static IEnumerable<Finding> Findings(
        ImmutableArray<DrawnLoop> loops,
        ImmutableArray<OpenChain> open,
        SortedSet<(double X, double Y)> junctions,
        ChainLimits limits,
        string file
    )
    {
        List<OpenChain> told = [];
        var known = new List<Point2>();
        var centreLines = new List<(OpenChain Chain, Point2 Middle)>();
        var stubs = new List<(OpenChain Chain, Point2 Foot)>();
        bool few = open.Length <= MostStrays;
        foreach (OpenChain chain in open)
        {
            if (!few)
            {
                told.Add(chain);
            }
            else if (Strays.Middle(chain, loops) is { } middle)
            {
                centreLines.Add((chain, middle));
                known.AddRange([chain.Path.Start, chain.Path.End]);
            }
            else if (Strays.Stub(chain, loops, open, limits) is { } foot)
            {
                stubs.Add((chain, foot));
                known.AddRange([chain.Path.Start, chain.Path.End]);
            }
            else
            {
                told.Add(chain);
            }
        }
        if (centreLines.Count > 0)
        {
            yield return ChainFindings.CentreLines(file, centreLines, limits.Unit);
        }
        if (stubs.Count > 0)
        {
            yield return ChainFindings.Stubs(file, stubs, limits.Unit);
        }
        foreach (OpenChain chain in told.Take(MostNamed))
        {
            yield return ChainFindings.OpenOutline(file, chain, Nearest(chain, open), limits.Unit);
        }
        if (told.Count > MostNamed)
        {
            yield return ChainFindings.MoreOpen(file, told.Count - MostNamed);
        }
        bool Known(Point2 p) => known.Exists(k => k.DistanceTo(p) <= limits.Join);
        foreach ((double x, double y) in junctions.Where(j => !Known(new Point2(j.X, j.Y))).Take(MostNamed))
        {
            yield return ChainFindings.Junction(file, new Point2(x, y));
        }
        foreach (Point2 p in OnCurves(loops, [.. told], junctions, limits).Take(MostNamed))
        {
            yield return ChainFindings.EndOnCurve(file, p);
        }
    }

    /// <summary>From end to end, or to the nearest other end where that is nearer.</summary>
    public static double Gap(OpenChain chain, ImmutableArray<OpenChain> open) =>
        Math.Min(chain.GapMm, Nearest(chain, open) ?? chain.GapMm);

    private static double? Nearest(OpenChain chain, ImmutableArray<OpenChain> open)
    {
        double nearest = double.PositiveInfinity;
        foreach (OpenChain other in open.Take(1000))
        {
            if (!ReferenceEquals(other, chain))
            {
                foreach (Point2 end in (ReadOnlySpan<Point2>)[chain.Path.Start, chain.Path.End])
                {
                    nearest = Math.Min(nearest, end.DistanceTo(other.Path.Start));
                    nearest = Math.Min(nearest, end.DistanceTo(other.Path.End));
                }
            }
        }
        return double.IsFinite(nearest) ? nearest : null;
    }

    private static IEnumerable<Point2> OnCurves(
        ImmutableArray<DrawnLoop> loops,
        ImmutableArray<OpenChain> open,
        SortedSet<(double X, double Y)> junctions,
        ChainLimits limits
    )
    {
        List<Segment> segments =
        [
            .. loops.SelectMany(l => l.Contour.Segments).Concat(open.SelectMany(o => o.Path.Segments)),
        ];
        var grid = new SegmentGrid([.. segments.Select(Measure.Bounds)], limits.Join);
        Point2[] met = [.. junctions.Select(j => new Point2(j.X, j.Y))];
        var near = new SegmentGrid([.. met.Select(p => new Box2(p.X, p.Y, p.X, p.Y))], limits.Join);
        foreach (OpenChain chain in open)
        {
            foreach (Point2 end in (Point2[])[chain.Path.Start, chain.Path.End])
            {
                bool known = near.SegmentsNear(end).Any(j => met[j].DistanceTo(end) <= limits.Join);
                if (!known && grid.SegmentsNear(end).Any(i => EndsOn(segments[i], end, limits.Join)))
                {
                    yield return end;
                }
            }
        }
    }

    private static bool EndsOn(Segment s, Point2 end, double join) =>
        s.Start != end && s.End != end && Measure.Distance(end, s) <= join;
}
