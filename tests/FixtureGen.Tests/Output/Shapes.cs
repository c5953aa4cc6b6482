using FixtureGen.Model;

namespace FixtureGen.Tests.Output;

/// <summary>Rounded boxes: their exact offsets are rounded boxes again, so that samples need no offset kernel.</summary>
internal static class Shapes
{
    public static Contour Rounded(Box2 b, double r) =>
        new([
            Segment.Line(new(b.MinX + r, b.MinY), new(b.MaxX - r, b.MinY)),
            Segment.Arc(new(b.MaxX - r, b.MinY), new(b.MaxX, b.MinY + r), new(b.MaxX - r, b.MinY + r), true),
            Segment.Line(new(b.MaxX, b.MinY + r), new(b.MaxX, b.MaxY - r)),
            Segment.Arc(new(b.MaxX, b.MaxY - r), new(b.MaxX - r, b.MaxY), new(b.MaxX - r, b.MaxY - r), true),
            Segment.Line(new(b.MaxX - r, b.MaxY), new(b.MinX + r, b.MaxY)),
            Segment.Arc(new(b.MinX + r, b.MaxY), new(b.MinX, b.MaxY - r), new(b.MinX + r, b.MaxY - r), true),
            Segment.Line(new(b.MinX, b.MaxY - r), new(b.MinX, b.MinY + r)),
            Segment.Arc(new(b.MinX, b.MinY + r), new(b.MinX + r, b.MinY), new(b.MinX + r, b.MinY + r), true),
        ]);

    public static Contour Circle(Point2 c, double r)
    {
        Point2 a = c + new Point2(r, 0);
        Point2 b = c - new Point2(r, 0);
        return new Contour([Segment.Arc(a, b, c, true), Segment.Arc(b, a, c, true)]);
    }

    public static Contour Reversed(Contour c) => new([.. c.Segments.Reverse().Select(s => s.Reversed)]);

    public static Region Disc(Point2 c, double r) => Region.From(Circle(c, r));

    public static Region Ring(Contour outer, Contour inner) => new(outer, [Reversed(inner)]);

    /// <summary>The boxes' growth: the rounded box at distance <paramref name="d"/> outside (negative: inside).</summary>
    public static Contour Grown(Box2 b, double r, double d) =>
        Rounded(new Box2(b.MinX - d, b.MinY - d, b.MaxX + d, b.MaxY + d), r + d);

    public static Region Bar(double x0, double y0, double x1, double y1) =>
        Region.From(
            new Contour([
                Segment.Line(new(x0, y0), new(x1, y0)),
                Segment.Line(new(x1, y0), new(x1, y1)),
                Segment.Line(new(x1, y1), new(x0, y1)),
                Segment.Line(new(x0, y1), new(x0, y0)),
            ])
        );
}
