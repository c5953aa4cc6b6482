using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Chaining;

/// <summary>Measures of segment lists that are not yet contours, and of boxes.</summary>
internal static class LoopMath
{
    /// <summary>Signed area of a closed chain, positive counter-clockwise.</summary>
    public static double Area(List<Segment> loop) => Measure.Area(new Contour([.. loop]));

    public static double Length(IReadOnlyList<Segment> chain)
    {
        double sum = 0;
        foreach (Segment s in chain)
        {
            sum += s.Length;
        }
        return sum;
    }

    public static Box2 Bounds(IReadOnlyList<Segment> chain)
    {
        Box2 box = Measure.Bounds(chain[0]);
        for (int i = 1; i < chain.Count; i++)
        {
            box = Around(box, Measure.Bounds(chain[i]));
        }
        return box;
    }

    public static Box2 Around(Box2 a, Box2 b) =>
        new(Math.Min(a.MinX, b.MinX), Math.Min(a.MinY, b.MinY), Math.Max(a.MaxX, b.MaxX), Math.Max(a.MaxY, b.MaxY));

    public static bool Near(Box2 a, Box2 b, double gap) =>
        a.MinX <= b.MaxX + gap && b.MinX <= a.MaxX + gap && a.MinY <= b.MaxY + gap && b.MinY <= a.MaxY + gap;

    /// <summary>The point half way along.</summary>
    public static Point2 Middle(Segment s) => Measure.PointAt(s, 0.5);
}
