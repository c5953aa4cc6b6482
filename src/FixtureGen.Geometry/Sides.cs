using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>Winding numbers of two sets of loops just left and just right of a point of a curve.</summary>
/// <param name="First">The lowest of the curves that run through the point: of curves that coincide, only it speaks.</param>
internal readonly record struct Sides(int LeftA, int RightA, int LeftB, int RightB, int First)
{
    /// <summary>
    /// Counts from a ray that crosses the curve steeply. Curves through the point run along it (everything is cut where it
    /// crosses), so they are asked on either side; all others are asked at the point itself.
    /// </summary>
    /// <param name="curves">The curves of both sets, A's first.</param>
    /// <param name="countA">How many belong to A.</param>
    /// <param name="found">The curves that the ray may meet.</param>
    public static Sides Of(
        ReadOnlySpan<Curve> curves,
        int countA,
        List<int> found,
        Point2 p,
        Point2 heading,
        double near
    )
    {
        bool steep = IsSteep(heading);
        Point2 at = steep ? p : Ray.Swapped(p);
        Point2 aside = new(8 * near, 0);
        Span<int> before = [0, 0];
        Span<int> after = [0, 0];
        int first = int.MaxValue;
        foreach (int i in found)
        {
            Curve c = steep ? curves[i] : Ray.Swapped(curves[i]);
            int set = i < countA ? 0 : 1;
            if (c.Distance2(at) > 4 * near * near)
            {
                int turns = Ray.Turns(c, at);
                before[set] += turns;
                after[set] += turns;
                continue;
            }
            first = Math.Min(first, i);
            before[set] += Ray.Turns(c, at - aside);
            after[set] += Ray.Turns(c, at + aside);
        }
        if (!steep)
        {
            return heading.X > 0
                ? new(-after[0], -before[0], -after[1], -before[1], first)
                : new(-before[0], -after[0], -before[1], -after[1], first);
        }
        return heading.Y > 0
            ? new(before[0], after[0], before[1], after[1], first)
            : new(after[0], before[0], after[1], before[1], first);
    }

    /// <summary>The box of everything that the ray from the point may meet.</summary>
    public static Box2 RayBox(Point2 p, Point2 heading, double near) =>
        IsSteep(heading)
            ? new(p.X - (8 * near), p.Y, double.MaxValue, p.Y)
            : new(p.X, p.Y - (8 * near), p.X, double.MaxValue);

    private static bool IsSteep(Point2 heading) => Math.Abs(heading.Y) >= Math.Abs(heading.X);
}
