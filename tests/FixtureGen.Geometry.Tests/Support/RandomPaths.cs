using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Tests.Support;

/// <summary>Random open paths as cutters run them: lines and arcs, smooth or cornered, crossing and retracing themselves.</summary>
public static class RandomPaths
{
    public static (OpenPath Path, double Width) Make(int number)
    {
        var random = new Random(number);
        bool round = random.Next(2) == 0;
        List<Segment> path = [];
        Point2 at = default;
        Point2 heading = new(1, 0);
        int n = 1 + random.Next(12);
        for (int i = 0; i < n; i++)
        {
            Segment next = Step(random, at, heading, round);
            path.Add(next);
            at = next.End;
            heading = Measure.TangentAt(next, 1);
            heading = Turned(heading, Corner(random, round));
        }
        double width = round ? 1 + random.Next(12) : 0.2 + (random.NextDouble() * 12);
        return (new OpenPath([.. path]), width);
    }

    private static double Corner(Random random, bool round) =>
        random.Next(4) switch
        {
            0 => 0,
            1 => round ? 90 : random.NextDouble() * 170,
            2 => round ? -90 : -random.NextDouble() * 170,
            _ => random.Next(6) == 0 ? 180 : 0,
        };

    private static Segment Step(Random random, Point2 at, Point2 heading, bool round)
    {
        double length = round ? 2 + random.Next(12) : 0.3 + (random.NextDouble() * 20);
        if (random.Next(3) > 0)
        {
            return Segment.Line(at, at + (heading * length));
        }
        bool ccw = random.Next(2) == 0;
        double degrees = round ? 90 * (1 + random.Next(3)) : 5 + (random.NextDouble() * 300);
        Point2 centre = at + (heading.Left * (ccw ? length : -length));
        Point2 end = centre + Turned(at - centre, ccw ? degrees : -degrees);
        return Segment.Arc(at, end, centre, ccw);
    }

    private static Point2 Turned(Point2 v, double degrees) => Transform.Apply(new Pose(0, 0, degrees), v);
}
