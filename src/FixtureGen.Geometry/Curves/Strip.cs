using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>An endless straight line through two different points with a margin on both sides, mm.</summary>
internal readonly struct Strip
{
    private readonly Point2 _normal;
    private readonly double _offset;
    private readonly double _margin;

    public Strip(Point2 a, Point2 b, double margin)
    {
        _normal = (b - a).Left * (1 / a.DistanceTo(b));
        _offset = _normal.Dot(a);
        _margin = margin;
    }

    /// <summary>True when the box comes nearer to the line than the margin, or touches it there.</summary>
    public bool Meets(in Box2 box)
    {
        double middle = ((_normal.X * (box.MinX + box.MaxX)) + (_normal.Y * (box.MinY + box.MaxY))) / 2;
        double half = ((Math.Abs(_normal.X) * box.Width) + (Math.Abs(_normal.Y) * box.Height)) / 2;
        return Math.Abs(middle - _offset) <= half + _margin;
    }
}
