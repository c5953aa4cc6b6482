using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>Makes, turns round and cuts open contours.</summary>
public static class Contours
{
    /// <summary>The same contour run the other way, from the same start point.</summary>
    public static Contour Reverse(Contour contour) => new([.. contour.Segments.Reverse().Select(s => s.Reversed)]);

    /// <summary>The same path from its end to its start; arcs change their turn.</summary>
    public static OpenPath Reverse(OpenPath path) => new([.. path.Segments.Reverse().Select(s => s.Reversed)]);

    /// <summary>The contour, reversed where it runs clockwise.</summary>
    public static Contour Ccw(Contour contour) => Measure.Area(contour) < 0 ? Reverse(contour) : contour;

    /// <summary>The contour, reversed where it runs counter-clockwise.</summary>
    public static Contour Cw(Contour contour) => Measure.Area(contour) > 0 ? Reverse(contour) : contour;

    /// <summary>A counter-clockwise circle of two arcs, from its rightmost point; radius in mm, above 0.</summary>
    public static Contour Circle(Point2 centre, double radius)
    {
        Point2 right = new(centre.X + radius, centre.Y);
        Point2 left = new(centre.X - radius, centre.Y);
        return new([Segment.Arc(right, left, centre, ccw: true), Segment.Arc(left, right, centre, ccw: true)]);
    }

    /// <summary>A counter-clockwise rectangle from its lower left corner.</summary>
    public static Contour Rectangle(Box2 box) =>
        FromPoints([
            new(box.MinX, box.MinY),
            new(box.MaxX, box.MinY),
            new(box.MaxX, box.MaxY),
            new(box.MinX, box.MaxY),
        ]);

    /// <summary>
    /// A counter-clockwise rectangle with round corners; radius in mm: 0 or less leaves them sharp, more than half the shorter
    /// side is taken as that half, and a side without length is left out.
    /// </summary>
    public static Contour RoundedRectangle(Box2 box, double radius)
    {
        if (radius <= 0)
        {
            return Rectangle(box);
        }
        (double x0, double y0, double x1, double y1) = (box.MinX, box.MinY, box.MaxX, box.MaxY);
        double r = Math.Min(radius, Math.Min(box.Width, box.Height) / 2);
        ImmutableArray<Segment> all =
        [
            Segment.Line(new(x0 + r, y0), new(x1 - r, y0)),
            Segment.Arc(new(x1 - r, y0), new(x1, y0 + r), new(x1 - r, y0 + r), ccw: true),
            Segment.Line(new(x1, y0 + r), new(x1, y1 - r)),
            Segment.Arc(new(x1, y1 - r), new(x1 - r, y1), new(x1 - r, y1 - r), ccw: true),
            Segment.Line(new(x1 - r, y1), new(x0 + r, y1)),
            Segment.Arc(new(x0 + r, y1), new(x0, y1 - r), new(x0 + r, y1 - r), ccw: true),
            Segment.Line(new(x0, y1 - r), new(x0, y0 + r)),
            Segment.Arc(new(x0, y0 + r), new(x0 + r, y0), new(x0 + r, y0 + r), ccw: true),
        ];
        return new([.. all.Where(s => s.IsArc || s.Start != s.End)]);
    }

    /// <summary>A counter-clockwise slot: everything within <paramref name="radius"/> mm of the line from a to b, which differ.</summary>
    public static Contour Slot(Point2 a, Point2 b, double radius)
    {
        Point2 d = b - a;
        Point2 side = d.Left * (radius / d.Length);
        return new([
            Segment.Line(a - side, b - side),
            Segment.Arc(b - side, b + side, b, ccw: true),
            Segment.Line(b + side, a + side),
            Segment.Arc(a + side, a - side, a, ccw: true),
        ]);
    }

    /// <summary>Straight lines from point to point and back to the first; a point equal to the one before is left out.</summary>
    public static Contour FromPoints(IReadOnlyList<Point2> points)
    {
        List<Point2> distinct = [];
        foreach (Point2 p in points)
        {
            if (distinct.Count == 0 || distinct[^1] != p)
            {
                distinct.Add(p);
            }
        }
        if (distinct.Count > 1 && distinct[^1] == distinct[0])
        {
            distinct.RemoveAt(distinct.Count - 1);
        }
        return new([.. distinct.Select((p, i) => Segment.Line(p, distinct[(i + 1) % distinct.Count]))]);
    }

    /// <summary>The contour cut open before the segment with the given index, 0 or more and counted round; it ends where it starts.</summary>
    public static OpenPath ToPath(Contour contour, int startIndex)
    {
        int n = contour.Segments.Length;
        return new([.. Enumerable.Range(0, n).Select(i => contour.Segments[(startIndex + i) % n])]);
    }

    /// <summary>The same contour, starting with the segment of the given index, 0 or more and counted round.</summary>
    public static Contour StartAt(Contour contour, int startIndex) => new(ToPath(contour, startIndex).Segments);
}
