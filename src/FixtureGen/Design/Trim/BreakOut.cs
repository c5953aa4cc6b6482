using FixtureGen.Design.Block;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Trim;

/// <summary>
/// The straight channel by which chips leave the relief: from the relief's middle to the block's edge, square to that edge,
/// clear of bolts and pins by a wall and never nearer to the finished edge than the path itself.
/// </summary>
internal static class BreakOut
{
    /// <summary>Step along the relief between starts that are tried, mm.</summary>
    private const double Step = 2;

    /// <summary>Line is the middle of the relief, where the channel begins.</summary>
    public sealed record Search(
        TrimCut Outline,
        Contour Line,
        IReadOnlyList<Obstacle> Obstacles,
        Box2 Block,
        double Width,
        double Wall,
        double PlacingTolerance
    );

    /// <summary>The shortest way out; null where there is none.</summary>
    public static OpenPath? Shortest(Search search)
    {
        double length = Measure.Length(search.Line);
        int count = Math.Max(8, (int)Math.Ceiling(length / Step));
        IEnumerable<(Point2 From, Point2 To)> ways = Enumerable
            .Range(0, count)
            .Select(i => Measure.PointAlong(search.Line, length * i / count))
            .SelectMany(p => Exits(p, search).Select(to => (p, to)));
        foreach ((Point2 from, Point2 to) in ways.OrderBy(w => Math.Round(w.From.DistanceTo(w.To), 6)))
        {
            if (Clear(from, to, search))
            {
                return new OpenPath([Segment.Line(from, to)]);
            }
        }
        return null;
    }

    private static Point2[] Exits(Point2 p, Search s)
    {
        double past = (s.Width / 2) + s.PlacingTolerance;
        return
        [
            new(s.Block.MinX - past, p.Y),
            new(s.Block.MaxX + past, p.Y),
            new(p.X, s.Block.MinY - past),
            new(p.X, s.Block.MaxY + past),
        ];
    }

    private static bool Clear(Point2 from, Point2 to, Search s) =>
        s.Obstacles.All(o => Measure.Distance(o.At, Segment.Line(from, to)) >= (s.Width / 2) + o.Radius + s.Wall)
        && NeverNearerToThePart(from, to, s);

    private static bool NeverNearerToThePart(Point2 from, Point2 to, Search s)
    {
        double length = from.DistanceTo(to);
        int steps = (int)Math.Ceiling(length);
        for (int i = 1; i <= steps; i++)
        {
            Point2 p = from + ((to - from) * ((double)i / steps));
            bool near = Measure.Distance(p, s.Outline.Edge) < s.Outline.Tool.Radius - 0.01;
            if (near || Inside.Contains(Contours.Ccw(s.Outline.Edge), p))
            {
                return false;
            }
        }
        return true;
    }
}
