using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// How much one curve adds to the winding number of a point: the crossings of its chord with the ray to +X, plus one turn
/// where the point lies between the arc and its chord. A point exactly on a chord counts as shifted a hair to +X, then +Y,
/// so that the sum over a closed loop is always whole.
/// </summary>
internal static class Ray
{
    public static int Turns(in Curve c, Point2 p)
    {
        double dx = c.B.X - c.A.X;
        double dy = c.B.Y - c.A.Y;
        double side = (dx * (p.Y - c.A.Y)) - (dy * (p.X - c.A.X));
        bool left =
            side != 0 ? side > 0
            : dy != 0 ? dy < 0
            : dx > 0;
        int turns = 0;
        if (c.A.Y <= p.Y)
        {
            turns = c.B.Y > p.Y && left ? 1 : 0;
        }
        else if (c.B.Y <= p.Y)
        {
            turns = left ? 0 : -1;
        }
        if (c.Turn != 0 && left == c.Turn < 0)
        {
            double x = p.X - c.C.X;
            double y = p.Y - c.C.Y;
            turns += (x * x) + (y * y) < c.R * c.R && BesideChord(c, p, dx, dy) ? c.Turn : 0;
        }
        return turns;
    }

    /// <summary>
    /// An arc of up to half a turn lies beside its chord. Ends that lie off the circle by a rounding tilt a short chord, so
    /// that the chord's line cuts far more from the circle than the arc.
    /// </summary>
    private static bool BesideChord(in Curve c, Point2 p, double dx, double dy)
    {
        if (c.Turn * (c.A - c.C).Cross(c.B - c.C) < 0)
        {
            return true;
        }
        double along = ((p.X - c.A.X) * dx) + ((p.Y - c.A.Y) * dy);
        return along >= 0 && along <= (dx * dx) + (dy * dy);
    }

    /// <summary>The curve mirrored about x = y, so that a ray to +X stands for a ray to +Y; the turns change sign.</summary>
    public static Curve Swapped(in Curve c) =>
        new()
        {
            A = Swapped(c.A),
            B = Swapped(c.B),
            C = Swapped(c.C),
            R = c.R,
            Turn = -c.Turn,
        };

    public static Point2 Swapped(Point2 p) => new(p.Y, p.X);
}
