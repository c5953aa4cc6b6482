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

    /// <summary>The contour counter-clockwise.</summary>
    public static Contour Ccw(Contour contour) => Measure.Area(contour) < 0 ? Reverse(contour) : contour;

    /// <summary>The contour clockwise.</summary>
    public static Contour Cw(Contour contour) => Measure.Area(contour) > 0 ? Reverse(contour) : contour;

    /// <summary>A counter-clockwise circle of two arcs, from its rightmost point; radius &gt; 0.</summary>
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

    /// <summary>A counter-clockwise rectangle with round corners; 0 &lt;= radius &lt;= half the shorter side.</summary>
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

    /// <summary>A counter-clockwise slot: everything within <paramref name="radius"/> of the line from a to b, a != b.</summary>
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

    /// <summary>Straight lines from point to point and back to the first; repeated points are left out.</summary>
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

    /// <summary>The contour cut open before the segment with the given index.</summary>
    public static OpenPath ToPath(Contour contour, int startIndex)
    {
        int n = contour.Segments.Length;
        return new([.. Enumerable.Range(0, n).Select(i => contour.Segments[(startIndex + i) % n])]);
    }

    /// <summary>The same contour, starting with the segment of the given index.</summary>
    public static Contour StartAt(Contour contour, int startIndex) => new(ToPath(contour, startIndex).Segments);

    /// <summary>The parts of a path before and after <paramref name="along"/> mm; null for a part without length.</summary>
    public static (OpenPath? Before, OpenPath? After) SplitAt(OpenPath path, double along)
    {
        (int i, double t) = Measure.Locate(path.Segments, along);
        Segment cut = path.Segments[i];
        Point2 p = Measure.PointAt(cut, t);
        List<Segment> before = [.. path.Segments.Take(i)];
        List<Segment> after = [.. path.Segments.Skip(i + 1)];
        if (t > 0 && p != cut.Start)
        {
            before.Add(t < 1 ? cut with { End = p } : cut);
        }
        if (t < 1 && p != cut.End)
        {
            after.Insert(0, t > 0 ? cut with { Start = p } : cut);
        }
        return (before.Count > 0 ? new([.. before]) : null, after.Count > 0 ? new([.. after]) : null);
    }

    /// <summary>The stretch of a path from one arc length to a greater one, mm; null where it has no length.</summary>
    public static OpenPath? Between(OpenPath path, double from, double to)
    {
        OpenPath? head = SplitAt(path, to).Before;
        return head is null ? null : SplitAt(head, from).After;
    }
}
