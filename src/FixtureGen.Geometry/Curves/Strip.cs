using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>An endless straight line through two different points with a margin on both sides, mm.</summary>
internal readonly struct Strip
{
    private readonly Point2 normal;
    private readonly double offset;
    private readonly double margin;

    public Strip(Point2 a, Point2 b, double margin)
    {
        normal = (b - a).Left * (1 / a.DistanceTo(b));
        offset = normal.Dot(a);
        this.margin = margin;
    }

    /// <summary>True when the box comes nearer to the line than the margin, or touches it there.</summary>
    public bool Meets(in Box2 box)
    {
        double middle = ((normal.X * (box.MinX + box.MaxX)) + (normal.Y * (box.MinY + box.MaxY))) / 2;
        double half = ((Math.Abs(normal.X) * box.Width) + (Math.Abs(normal.Y) * box.Height)) / 2;
        return Math.Abs(middle - offset) <= half + margin;
    }
}
