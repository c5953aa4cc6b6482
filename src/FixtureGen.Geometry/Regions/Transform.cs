using FixtureGen.Model;

namespace FixtureGen.Geometry;

/// <summary>
/// Moves, turns and turns over everything that has a shape, mm. What a <see cref="Pose"/> (part frame to plate frame) moves is
/// turned counter-clockwise about the origin, exactly at multiples of 90 degrees, then shifted. A <see cref="Flip"/> takes the
/// plate frame to the underside frame and mirrors; a mirrored contour is reversed as well, so that outer contours stay
/// counter-clockwise and the material stays on the left.
/// </summary>
public static class Transform
{
    /// <summary>The point turned and shifted.</summary>
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

    /// <summary>The pose that undoes <paramref name="pose"/>: from the plate frame to the part frame.</summary>
    public static Pose Inverse(Pose pose)
    {
        Pose back = new(0, 0, -pose.AngleDeg);
        Point2 shift = Apply(back, new Point2(-pose.X, -pose.Y));
        return new(shift.X, shift.Y, -pose.AngleDeg);
    }

    /// <summary>The path in the underside frame, travelled the same way from the image of its start; its arcs change their turn.</summary>
    public static OpenPath Apply(Flip flip, OpenPath path) => new([.. path.Segments.Select(s => Apply(flip, s))]);

    /// <summary>The contour in the underside frame and reversed, so that its material stays on the left.</summary>
    public static Contour Apply(Flip flip, Contour contour) =>
        Contours.Reverse(new Contour([.. contour.Segments.Select(s => Apply(flip, s))]));

    /// <summary>Outer contour and holes in the underside frame, the outer one counter-clockwise again.</summary>
    public static Region Apply(Flip flip, Region region) =>
        new(Apply(flip, region.Outer), [.. region.Holes.Select(h => Apply(flip, h))]);

    private static Segment Apply(Flip flip, Segment s)
    {
        Segment m = Map(s, flip.Apply);
        return m.IsArc ? m with { Kind = m.IsCcw ? SegmentKind.ArcCw : SegmentKind.ArcCcw } : m;
    }

    private static Segment Map(Segment s, Func<Point2, Point2> map) =>
        new(map(s.Start), map(s.End), s.IsArc ? map(s.Centre) : default, s.Kind);

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
