using FixtureGen.Design.Labels;
using FixtureGen.Model;

namespace FixtureGen.Design;

/// <summary>
/// A part's twin: everything of it with X counted the other way, contours turning as before. Written marks stay readable: they go to
/// the mirrored place and angle as they are; marks that are drawn as strokes are mirrored like the rest.
/// </summary>
internal static class MirroredPart
{
    /// <summary>The part as it is to be made, part frame, mm; the twin with a note that says so.</summary>
    public static Stage<Part> AsAsked(Part drawn, Job job) =>
        job.Mirror ? Stage.Answer(Mirror(drawn), [PlaceFindings.Mirrored(drawn)]) : Stage.Answer(drawn);

    private static Part Mirror(Part part) =>
        part with
        {
            Outer = Mirror(part.Outer),
            Cutouts = [.. part.Cutouts.Select(Mirror)],
            Forms = [.. part.Forms.Select(f => f with { Edge = Mirror(f.Edge) })],
            KeepOuts = [.. part.KeepOuts.Select(Mirror)],
            MagnetWishes = [.. part.MagnetWishes.Select(Mirror)],
            Engravings = [.. part.Engravings.Select(Mirror)],
        };

    // 0 less the number, so that 0 stays without a sign
    private static Point2 Mirror(Point2 p) => new(0 - p.X, p.Y);

    // mirrored it turns the other way, run from its end it turns as before
    private static Contour Mirror(Contour contour) =>
        new([
            .. contour
                .Segments.Reverse()
                .Select(s => new Segment(Mirror(s.End), Mirror(s.Start), Mirror(s.Centre), s.Kind)),
        ]);

    private static Segment Mirror(Segment s)
    {
        Segment back = s.Reversed;
        return new Segment(Mirror(s.Start), Mirror(s.End), Mirror(s.Centre), back.Kind);
    }

    private static EngraveMark Mirror(EngraveMark mark)
    {
        double angle = mark.AngleDeg * Math.PI / 180;
        Point2 end = mark.At + (new Point2(Math.Cos(angle), Math.Sin(angle)) * Lettering.Width(mark.Text, mark.Height));
        return mark.Text.Length > 0
            ? mark with
            {
                At = Mirror(end),
                AngleDeg = 0 - mark.AngleDeg,
            }
            : mark with
            {
                Strokes = [.. mark.Strokes.Select(s => new OpenPath([.. s.Segments.Select(Mirror)]))],
            };
    }
}
