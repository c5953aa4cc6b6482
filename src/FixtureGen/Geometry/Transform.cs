using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Moves, turns and mirrors everything that has a shape. A mirrored contour is reversed as well, so that outer contours stay
/// counter-clockwise and the material stays on the left.
/// </summary>
public static class Transform
{
    /// <summary>Turned counter-clockwise by the pose's angle about the origin, then shifted.</summary>
    public static Point2 Apply(Pose pose, Point2 p)
    {
        (double sin, double cos) = SinCos(pose.AngleDeg);
        return new((p.X * cos) - (p.Y * sin) + pose.X, (p.X * sin) + (p.Y * cos) + pose.Y);
    }

    /// <summary>Turned and shifted; an arc keeps its radius and its turn.</summary>
    public static Segment Apply(Pose pose, Segment s) => Map(s, p => Apply(pose, p));

    /// <summary>Every segment turned and shifted; the direction of travel stays.</summary>
    public static OpenPath Apply(Pose pose, OpenPath path) => new([.. path.Segments.Select(s => Apply(pose, s))]);

    /// <summary>Every segment turned and shifted; a counter-clockwise contour stays so.</summary>
    public static Contour Apply(Pose pose, Contour contour) => new([.. contour.Segments.Select(s => Apply(pose, s))]);

    /// <summary>Outer contour and holes turned and shifted.</summary>
    public static Region Apply(Pose pose, Region region) =>
        new(Apply(pose, region.Outer), [.. region.Holes.Select(h => Apply(pose, h))]);

    /// <summary>Everything that the drawing shows of a part, from the part frame to the plate frame.</summary>
    public static Part Apply(Pose pose, Part part) =>
        new(
            Apply(pose, part.Outer),
            Each(part.Cutouts, c => Apply(pose, c)),
            Each(part.Forms, f => f with { Edge = Apply(pose, f.Edge) }),
            Each(part.KeepOuts, k => Apply(pose, k)),
            Each(part.MagnetWishes, p => Apply(pose, p)),
            Each(part.Engravings, e => Apply(pose, e))
        );

    /// <summary>Strokes, place and angle of a mark; its letter height stays.</summary>
    public static EngraveMark Apply(Pose pose, EngraveMark mark) =>
        mark with
        {
            Strokes = Each(mark.Strokes, s => Apply(pose, s)),
            At = Apply(pose, mark.At),
            AngleDeg = mark.AngleDeg + pose.AngleDeg,
        };

    /// <summary>The pose that undoes <paramref name="pose"/>.</summary>
    public static Pose Inverse(Pose pose)
    {
        Pose back = new(0, 0, -pose.AngleDeg);
        Point2 shift = Apply(back, new Point2(-pose.X, -pose.Y));
        return new(shift.X, shift.Y, -pose.AngleDeg);
    }

    /// <summary>Mirrored about the line x = <paramref name="axisX"/>.</summary>
    public static Point2 Mirror(Point2 p, double axisX) => new((2 * axisX) - p.X, p.Y);

    /// <summary>Mirrored about x = <paramref name="axisX"/>; keeps its direction of travel, so an arc changes its turn.</summary>
    public static Segment Mirror(Segment s, double axisX)
    {
        Segment m = Map(s, p => Mirror(p, axisX));
        return m.IsArc ? m with { Kind = m.IsCcw ? SegmentKind.ArcCw : SegmentKind.ArcCcw } : m;
    }

    /// <summary>Mirrored about x = <paramref name="axisX"/> mm; it is travelled the same way, from the image of its start.</summary>
    public static OpenPath Mirror(OpenPath path, double axisX) => new([.. path.Segments.Select(s => Mirror(s, axisX))]);

    /// <summary>Mirrored about x = <paramref name="axisX"/> mm and reversed, so that its material stays on the left.</summary>
    public static Contour Mirror(Contour contour, double axisX) =>
        Contours.Reverse(new Contour([.. contour.Segments.Select(s => Mirror(s, axisX))]));

    /// <summary>Outer contour and holes mirrored about x = <paramref name="axisX"/> mm and reversed.</summary>
    public static Region Mirror(Region region, double axisX) =>
        new(Mirror(region.Outer, axisX), [.. region.Holes.Select(h => Mirror(h, axisX))]);

    /// <summary>Seen from below after the block was turned over.</summary>
    public static Point2 Apply(Flip flip, Point2 p) => flip.Apply(p);

    /// <summary>In the underside frame; an arc changes its turn.</summary>
    public static Segment Apply(Flip flip, Segment s) => Mirror(s, flip.AxisX);

    /// <summary>In the underside frame, travelled the same way.</summary>
    public static OpenPath Apply(Flip flip, OpenPath path) => Mirror(path, flip.AxisX);

    /// <summary>In the underside frame and reversed, so that its material stays on the left.</summary>
    public static Contour Apply(Flip flip, Contour contour) => Mirror(contour, flip.AxisX);

    /// <summary>In the underside frame, outer contour counter-clockwise again.</summary>
    public static Region Apply(Flip flip, Region region) => Mirror(region, flip.AxisX);

    private static Segment Map(Segment s, Func<Point2, Point2> map) =>
        new(map(s.Start), map(s.End), s.IsArc ? map(s.Centre) : default, s.Kind);

    private static ImmutableArray<T> Each<T>(ImmutableArray<T> items, Func<T, T> map) => [.. items.Select(map)];

    /// <summary>Sine and cosine, exact at multiples of 90 degrees.</summary>
    private static (double Sin, double Cos) SinCos(double degrees)
    {
        double turn = Math.IEEERemainder(degrees, 360);
        return turn switch
        {
            0 => (0, 1),
            90 => (1, 0),
            -90 => (-1, 0),
            180 or -180 => (0, -1),
            _ => Math.SinCos(turn * Math.PI / 180),
        };
    }
}
