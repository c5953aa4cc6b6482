using FixtureGen.Model;

namespace FixtureGen.Output.Scenes;

/// <summary>
/// From a frame in mm to the sheet: scaled, then shifted; with MirrorX the picture is turned over left to right, as the
/// block looks from below.
/// </summary>
internal readonly record struct View(double Scale, Point2 Shift, bool MirrorX)
{
    public Point2 ToPage(Point2 p) => new(((MirrorX ? -p.X : p.X) * Scale) + Shift.X, (p.Y * Scale) + Shift.Y);

    public Segment ToPage(Segment s)
    {
        if (!s.IsArc)
        {
            return Segment.Line(ToPage(s.Start), ToPage(s.End));
        }
        return Segment.Arc(ToPage(s.Start), ToPage(s.End), ToPage(s.Centre), s.IsCcw != MirrorX);
    }

    public Chain ToPage(Chain c)
    {
        View view = this;
        return c.Segments.IsDefaultOrEmpty ? c : new Chain([.. c.Segments.Select(view.ToPage)], c.Closed);
    }

    public IEnumerable<Chain> ToPage(IEnumerable<Chain> chains) => chains.Select(ToPage);

    public Chain ToPage(Contour c) => ToPage(Chain.From(c));

    public Chain ToPage(OpenPath p) => ToPage(Chain.From(p));

    public IEnumerable<Chain> ToPage(IEnumerable<Region> regions) =>
        regions.SelectMany(r => r.Contours).Select(Chain.From).Select(ToPage);

    /// <summary>The view that fits <paramref name="world"/> into <paramref name="sheet"/>, centred, no larger than <paramref name="maxScale"/>.</summary>
    public static View Fit(Box2 world, Box2 sheet, double maxScale, bool mirrorX)
    {
        double scale = Math.Min(maxScale, Math.Min(sheet.Width / world.Width, sheet.Height / world.Height));
        Point2 middle = new(mirrorX ? -world.Middle.X : world.Middle.X, world.Middle.Y);
        return new View(scale, sheet.Middle - (middle * scale), mirrorX);
    }
}
