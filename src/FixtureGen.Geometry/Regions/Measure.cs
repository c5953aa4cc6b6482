using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>Areas, lengths, extents and distances, mm and mm2, all in closed form: an arc is never cut into chords.</summary>
public static class Measure
{
    /// <summary>Signed area, mm2: positive for a counter-clockwise contour (Green's theorem).</summary>
    public static double Area(Contour contour) => CurveSums.Sum(Pack(contour.Segments)).Area;

    /// <summary>Area of the outer contour less its holes, mm2.</summary>
    public static double Area(Region region) => region.Contours.Sum(Area);

    /// <summary>Sum of the regions' areas, mm2; an overlap counts twice.</summary>
    public static double Area(IEnumerable<Region> regions) => regions.Sum(Area);

    /// <summary>Length from start to end along the path, mm.</summary>
    public static double Length(OpenPath path) => path.Segments.Sum(s => s.Length);

    /// <summary>Length once round, mm.</summary>
    public static double Length(Contour contour) => contour.Segments.Sum(s => s.Length);

    /// <summary>Length of the whole boundary, holes included, mm.</summary>
    public static double Length(Region region) => region.Contours.Sum(Length);

    /// <summary>The least box, mm: an arc's quadrant points count where it passes them.</summary>
    public static Box2 Bounds(Segment segment) => Curve.From(segment).Box();

    /// <summary>The least box, mm; the path has at least one segment.</summary>
    public static Box2 Bounds(OpenPath path) => Bounds(path.Segments);

    /// <summary>The least box, mm; the contour has at least one segment.</summary>
    public static Box2 Bounds(Contour contour) => Bounds(contour.Segments);

    /// <summary>The least box of the outer contour, mm.</summary>
    public static Box2 Bounds(Region region) => Bounds(region.Outer);

    /// <summary>The least box around all regions, mm.</summary>
    /// <exception cref="InvalidOperationException">There is none.</exception>
    public static Box2 Bounds(IEnumerable<Region> regions) => regions.Select(Bounds).Aggregate(Around);

    /// <summary>The least box around all segments, mm.</summary>
    /// <exception cref="InvalidOperationException">There is none.</exception>
    public static Box2 Bounds(IEnumerable<Segment> segments) => segments.Select(Bounds).Aggregate(Around);

    /// <summary>Distance of a point from a segment, mm.</summary>
    public static double Distance(Point2 p, Segment segment) => Math.Sqrt(Curve.From(segment).Distance2(p));

    /// <summary>Distance of a point from the nearest segment of the path, mm.</summary>
    public static double Distance(Point2 p, OpenPath path) => Distance(p, path.Segments);

    /// <summary>Distance of a point from the contour itself, mm; positive inside and outside.</summary>
    public static double Distance(Point2 p, Contour contour) => Distance(p, contour.Segments);

    /// <summary>Distance of a point from the region's boundary, holes included, mm; positive inside and outside.</summary>
    public static double Distance(Point2 p, Region region) => region.Contours.Min(c => Distance(p, c));

    /// <summary>Distance of a point from the nearest boundary of any region, mm; infinite where there is none.</summary>
    public static double Distance(Point2 p, IEnumerable<Region> regions) =>
        regions.Select(r => Distance(p, r)).DefaultIfEmpty(double.PositiveInfinity).Min();

    /// <summary>The nearest point of a segment, ends included.</summary>
    public static Point2 Closest(Point2 p, Segment segment) => Curve.From(segment).Closest(p);

    /// <summary>The nearest point of a path, ends included; of equally near ones the first.</summary>
    public static Point2 Closest(Point2 p, OpenPath path) => Closest(p, path.Segments);

    /// <summary>The nearest point of a contour itself, also for a point inside.</summary>
    public static Point2 Closest(Point2 p, Contour contour) => Closest(p, contour.Segments);

    /// <summary>The nearest point of the region's boundary, holes included, also for a point inside.</summary>
    public static Point2 Closest(Point2 p, Region region) => Closest(p, region.Contours.SelectMany(c => c.Segments));

    /// <summary>The point at the fraction <paramref name="t"/> (0 to 1) of a segment's length.</summary>
    public static Point2 PointAt(Segment segment, double t) => Curve.From(segment).PointAt(t);

    /// <summary>Unit direction of travel at the fraction <paramref name="t"/> (0 to 1) of a segment's length.</summary>
    public static Point2 TangentAt(Segment segment, double t)
    {
        Curve c = Curve.From(segment);
        return c.TangentAt(c.PointAt(t));
    }

    /// <summary>The point <paramref name="s"/> mm along the path; before the start it is the start, past the end the end.</summary>
    public static Point2 PointAlong(OpenPath path, double s) => Along(path.Segments, s);

    /// <summary>The point <paramref name="s"/> mm along the contour, counted on round and round, also backwards.</summary>
    public static Point2 PointAlong(Contour contour, double s) => Along(contour.Segments, Wrap(contour, s));

    /// <summary>
    /// Index of the segment and fraction of its length (0 to 1) at <paramref name="s"/> mm along the segments, of which there is
    /// one at least. Where two meet it is the second's start; before the first it is (0, 0), past the last its end.
    /// </summary>
    public static (int Segment, double Fraction) Locate(ImmutableArray<Segment> segments, double s)
    {
        double rest = Math.Max(0, s);
        for (int i = 0; i < segments.Length; i++)
        {
            double length = segments[i].Length;
            if (rest < length)
            {
                return (i, rest / length);
            }
            rest -= length;
        }
        return (segments.Length - 1, 1);
    }

    /// <summary>Length along the segments at which they come nearest to the point, mm; of equally near places the first.</summary>
    public static double Locate(ImmutableArray<Segment> segments, Point2 p)
    {
        double before = 0;
        double best = double.MaxValue;
        double at = 0;
        foreach (Segment s in segments)
        {
            Curve c = Curve.From(s);
            double length = c.Length;
            double d2 = c.Distance2(p);
            if (d2 < best)
            {
                best = d2;
                at = before + (length > 0 ? length * Math.Clamp(c.Fraction(c.Closest(p)), 0, 1) : 0);
            }
            before += length;
        }
        return at;
    }

    private static double Wrap(Contour contour, double s)
    {
        double length = Length(contour);
        double rest = Math.IEEERemainder(s, length);
        return rest < 0 ? rest + length : rest;
    }

    private static Point2 Along(ImmutableArray<Segment> segments, double s)
    {
        (int i, double t) = Locate(segments, s);
        Segment at = segments[i];
        return t >= 1 ? at.End
            : t <= 0 ? at.Start
            : PointAt(at, t);
    }

    private static double Distance(Point2 p, ImmutableArray<Segment> segments)
    {
        double best = double.MaxValue;
        foreach (Segment s in segments)
        {
            best = Math.Min(best, Curve.From(s).Distance2(p));
        }
        return Math.Sqrt(best);
    }

    private static Point2 Closest(Point2 p, IEnumerable<Segment> segments) =>
        segments.Select(s => Curve.From(s).Closest(p)).MinBy(p.DistanceTo);

    private static Curve[] Pack(ImmutableArray<Segment> segments)
    {
        var curves = new Curve[segments.Length];
        for (int i = 0; i < curves.Length; i++)
        {
            curves[i] = Curve.From(segments[i]);
        }
        return curves;
    }

    private static Box2 Around(Box2 a, Box2 b) =>
        new(Math.Min(a.MinX, b.MinX), Math.Min(a.MinY, b.MinY), Math.Max(a.MaxX, b.MaxX), Math.Max(a.MaxY, b.MaxY));
}
