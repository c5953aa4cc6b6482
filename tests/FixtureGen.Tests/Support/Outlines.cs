using FixtureGen.Model;

namespace FixtureGen.Tests.Support;

/// <summary>Plain closed outlines for holding tests, mm.</summary>
internal static class Outlines
{
    public static Contour Rectangle(double x, double y, double width, double height) =>
        Polygon(new(x, y), new(x + width, y), new(x + width, y + height), new(x, y + height));

    public static Contour Polygon(params Point2[] corners) =>
        new([.. corners.Select((c, i) => Segment.Line(c, corners[(i + 1) % corners.Length]))]);

    public static Contour Circle(Point2 centre, double radius, bool ccw = true)
    {
        Point2 right = centre + new Point2(radius, 0);
        Point2 left = centre - new Point2(radius, 0);
        return new Contour([Segment.Arc(right, left, centre, ccw), Segment.Arc(left, right, centre, ccw)]);
    }

    public static Region Annulus(double outer, double inner) =>
        new(Circle(default, outer), [Circle(default, inner, ccw: false)]);
}
