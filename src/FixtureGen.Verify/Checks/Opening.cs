using FixtureGen.Model;
using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Checks;

/// <summary>
/// Which points of the design the smallest cutter can reach at all: those within its radius of a centre that keeps that radius
/// from every wall.
/// </summary>
internal sealed class Opening(AllowedShape shape, double radius)
{
    private const int Steps = 24;
    private readonly List<int> _near = [];

    /// <summary>True when a cutter could reach p with slack mm to spare at that floor.</summary>
    public bool Reaches(Point2 p, double floor, double slack)
    {
        int level = -1;
        while (level + 1 < shape.Floors.Length && shape.Floors[level + 1] <= floor + 1e-3)
        {
            level++;
        }
        if (level < 0 || radius <= 0)
        {
            return true;
        }
        PieceBins walls = shape.Walls(level);
        Point2 c = p;
        for (int i = 0; i < Steps; i++)
        {
            (double d, Point2 at) = Closest(walls, c);
            if (d >= radius - 1e-3)
            {
                break;
            }
            Point2 away = c - at;
            double l = away.Length;
            if (l < 1e-9)
            {
                return true;
            }
            c = at + (away * (radius / l));
        }
        return Closest(walls, c).Distance >= radius - 2e-3 && c.DistanceTo(p) <= radius - slack;
    }

    private (double Distance, Point2 At) Closest(PieceBins walls, Point2 c)
    {
        _near.Clear();
        walls.Near(new Box2(c.X, c.Y, c.X, c.Y), radius, _near);
        double best = double.MaxValue;
        Point2 at = default;
        foreach (int i in _near)
        {
            Piece wall = walls.Pieces[i];
            Point2 q = wall.At(Distance.Nearest(wall, c));
            double d = q.DistanceTo(c);
            if (d < best)
            {
                best = d;
                at = q;
            }
        }
        return (best, at);
    }
}
