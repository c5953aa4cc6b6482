using FixtureGen.Model;
using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Finished;

/// <summary>
/// Which points of the design the smallest cutter can reach at all: those within its radius of a centre that keeps that radius
/// from every wall.
/// </summary>
internal sealed class Opening(AllowedShape shape, double radius)
{
    private const int Steps = 24;

    /// <summary>True when a cutter could reach p with slack mm to spare at that floor.</summary>
    public bool Reaches(Point2 p, double floor, double slack)
    {
        int level = shape.Level(floor + 1e-3);
        if (level < 0 || radius <= 0)
        {
            return true;
        }
        PieceBins walls = shape.Walls(level);
        Point2 c = p;
        for (int i = 0; i < Steps; i++)
        {
            (double d, Point2 at) = walls.Nearest(c, radius);
            if (d >= radius - 1e-3)
            {
                break;
            }
            Point2 away = c - at;
            double l = away.Length;
            if (l < 1e-9)
            {
                // a point on a wall is as far from a cutter's centre as the wall is: there is nothing to spare
                return i > 0;
            }
            c = at + (away * (radius / l));
        }
        return walls.Nearest(c, radius).Distance >= radius - 2e-3 && c.DistanceTo(p) <= radius - slack;
    }
}
