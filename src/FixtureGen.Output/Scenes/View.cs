using FixtureGen.Model;

namespace FixtureGen.Output.Scenes;

/// <summary>
/// From a frame in mm to the sheet: scaled, then shifted; with MirrorX the picture is turned over left to right, as the
/// block looks from below.
/// </summary>
internal readonly record struct View(double Scale, Point2 Shift, bool MirrorX)
{
    public Point2 At(Point2 p) => new(((MirrorX ? -p.X : p.X) * Scale) + Shift.X, (p.Y * Scale) + Shift.Y);

    public Segment At(Segment s)
    {
        if (!s.IsArc)
        {
            return Segment.Line(At(s.Start), At(s.End));
        }
        return Segment.Arc(At(s.Start), At(s.End), At(s.Centre), s.IsCcw != MirrorX);
    }

    public Chain At(Chain c)
    {
        View view = this;
        return c.Segments.IsDefaultOrEmpty ? c : new Chain([.. c.Segments.Select(view.At)], c.Closed);
    }

    public IEnumerable<Chain> At(IEnumerable<Chain> chains) => chains.Select(At);

    public Chain At(Contour c) => At(Chain.Of(c));

    public Chain At(OpenPath p) => At(Chain.Of(p));

    public IEnumerable<Chain> At(IEnumerable<Region> regions) =>
        regions.SelectMany(r => r.Contours).Select(Chain.Of).Select(At);

    /// <summary>The view that fits <paramref name="world"/> into <paramref name="sheet"/>, centred, no larger than <paramref name="maxScale"/>.</summary>
    public static View Fit(Box2 world, Box2 sheet, double maxScale, bool mirrorX)
    {
        double scale = Math.Min(maxScale, Math.Min(sheet.Width / world.Width, sheet.Height / world.Height));
        Point2 middle = new(mirrorX ? -world.Middle.X : world.Middle.X, world.Middle.Y);
        return new View(scale, sheet.Middle - (middle * scale), mirrorX);
    }
}
