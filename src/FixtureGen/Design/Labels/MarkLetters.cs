using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Labels;

/// <summary>
/// Texts of the drawing's engraving layer made into strokes, in the place, height and direction that the drawing says. A text
/// that has a character without a letter, that is too small for the engraver, or that leaves the part is refused: it would be
/// cut wrong or not at all.
/// </summary>
internal static class MarkLetters
{
    /// <summary>Letters lower than this many widths of the cut run together (common practice, no source).</summary>
    private const double LeastHeight = 5;

    private const int Samples = 4;

    public static Stage<Part> Cut(Part placed, Job job)
    {
        Tool? engraver = job.Tools.FirstOrDefault(t => t.Kind == ToolKind.Engraver);
        double width = engraver is null
            ? 0
            : engraver.TipDiameter + (2 * job.Rules.EngraveDepth * Math.Tan(engraver.TipAngleDeg * Math.PI / 360));
        List<Finding> findings = [];
        ImmutableArray<EngraveMark> marks =
        [
            .. placed.Engravings.Select((m, i) => m.Text.Length == 0 ? m : Lettered(m, i, placed, width, findings)),
        ];
        return findings.Count > 0
            ? Stage.Failed<Part>(findings)
            : Stage.Answer(placed with { Engravings = marks }, findings);
    }

    private static EngraveMark Lettered(EngraveMark mark, int index, Part part, double width, List<Finding> findings)
    {
        string where = FormattableString.Invariant($"mark {index + 1} \"{mark.Text}\"");
        if (Lettering.Check(mark.Text, where) is { } unknown)
        {
            findings.Add(unknown with { At = mark.At });
            return mark;
        }
        if (mark.Height < Math.Max(LeastHeight * width, 0.5))
        {
            findings.Add(LabelFindings.TextTooSmall(where, mark, Math.Max(LeastHeight * width, 0.5)));
            return mark;
        }
        Pose pose = new(mark.At.X, mark.At.Y, mark.AngleDeg);
        ImmutableArray<OpenPath> strokes =
        [
            .. Lettering.Strokes(mark.Text, mark.Height).Strokes.Select(s => Transform.Apply(pose, s)),
        ];
        if (strokes.SelectMany(s => s.Segments).SelectMany(Points).FirstOrNull(p => !On(part, p, width)) is { } off)
        {
            findings.Add(LabelFindings.TextOverEdge(where, off));
        }
        return mark with { Strokes = strokes };
    }

    private static IEnumerable<Point2> Points(Segment s) =>
        Enumerable.Range(0, Samples + 1).Select(k => Measure.PointAt(s, (double)k / Samples));

    /// <summary>The cut at a point lies whole on the part: inside the outline, outside the cutouts.</summary>
    private static bool On(Part part, Point2 p, double width) =>
        Inside.Contains(part.Outer, p)
        && Measure.Distance(p, part.Outer) >= width / 2
        && part.Cutouts.All(c => !Inside.Contains(c, p) && Measure.Distance(p, c) >= width / 2);

    private static Point2? FirstOrNull(this IEnumerable<Point2> points, Func<Point2, bool> wanted)
    {
        foreach (Point2 p in points)
        {
            if (wanted(p))
            {
                return p;
            }
        }
        return null;
    }
}
