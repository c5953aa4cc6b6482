using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Forms;

/// <summary>
/// Marks on the flat top of a form are engraved at its height, which the form's own thickness decides; none may run over a slope.
/// A cutout in a form that rises is refused. Plate frame, mm.
/// </summary>
internal static class FormTops
{
    private const int Samples = 4;

    /// <summary>
    /// The shell's upper face under a mark: the flange's, or that of the form whose top it lies on, down on its plug if it has one.
    /// </summary>
    public static double Face(FixtureDesign design, EngraveMark mark, Job job) =>
        Under(design, mark) is { } form
            ? Height(form, job) + design.FixtureHeight
            : design.FixtureHeight + job.Shell.Thickness;

    /// <summary>
    /// By how much that face may stand higher than it is cut for, mm, 0 and up: the sheet at its thickest, on a form's top not drawn
    /// thinner at all and not quite down on its plug.
    /// </summary>
    public static double Higher(FixtureDesign design, EngraveMark mark, Job job)
    {
        double rise = Under(design, mark)?.Height ?? 0;
        return design.FixtureHeight + rise + job.Shell.ThicknessMax - Face(design, mark, job);
    }

    private static FormRegion? Under(FixtureDesign design, EngraveMark mark) =>
        design.Part.Forms.FirstOrDefault(f => f.Direction == FormDirection.Up && On(f, mark, 0) == Where.Top);

    /// <summary>cutout-on-form, mark-on-slope, form-thickness-unstated and mark-too-deep, all errors.</summary>
    public static IEnumerable<Finding> Check(Part placed, Job job, Kernel kernel)
    {
        Tool? engraver = job.Tools.FirstOrDefault(t => t.Kind == ToolKind.Engraver);
        double half = engraver is null
            ? 0
            : (engraver.TipDiameter / 2) + (job.Rules.EngraveDepth * Math.Tan(engraver.TipAngleDeg * Math.PI / 360));
        for (int i = 0; i < placed.Forms.Length; i++)
        {
            FormRegion form = placed.Forms[i];
            if (form.Direction != FormDirection.Up)
            {
                continue;
            }
            Region foot = Region.From(Contours.Ccw(form.Edge));
            foreach ((int c, Contour cutout) in placed.Cutouts.Index())
            {
                if (!kernel.Intersect([foot], [Region.From(Contours.Ccw(cutout))]).IsEmpty)
                {
                    yield return FormFindings.CutoutOnForm(i + 1, c + 1, Measure.Bounds(cutout).Middle, form.Height);
                }
            }
            Where[] marks = [.. placed.Engravings.Select(m => On(form, m, half))];
            int slope = Array.IndexOf(marks, Where.Slope);
            if (slope >= 0)
            {
                yield return FormFindings.MarkOnSlope(i + 1, placed.Engravings[slope].Strokes[0].Start);
            }
            if (!marks.Contains(Where.Top))
            {
                continue;
            }
            if (form.ThicknessMin is not { } thickness)
            {
                yield return FormFindings.ThicknessUnstated(i + 1, Measure.Bounds(form.Edge).Middle);
            }
            else if (job.Rules.EngraveDepth > thickness / 2)
            {
                yield return FormFindings.MarkTooDeep(
                    i + 1,
                    Measure.Bounds(form.Edge).Middle,
                    job.Rules.EngraveDepth,
                    thickness / 2
                );
            }
        }
    }

    private enum Where
    {
        Beside,
        Slope,
        Top,
    }

    /// <summary>Of the flange's block side: a form under vacuum lies on its plug.</summary>
    private static double Height(FormRegion form, Job job) =>
        form.Height - (form.Plugged ? job.Rules.RunningClearance : 0) + (form.ThicknessMin ?? job.Shell.Thickness);

    /// <param name="half">Half of the cut's width.</param>
    private static Where On(FormRegion form, EngraveMark mark, double half)
    {
        double slope =
            form.Top == FormTop.Cap ? double.PositiveInfinity : form.Height * Math.Tan(form.DraftDeg * Math.PI / 180);
        bool top = false;
        bool beside = false;
        foreach (
            Point2 p in mark
                .Strokes.SelectMany(s => s.Segments)
                .SelectMany(s => Enumerable.Range(0, Samples + 1).Select(k => Measure.PointAt(s, (double)k / Samples)))
        )
        {
            double away = Measure.Distance(p, form.Edge);
            bool inside = Inside.Contains(form.Edge, p);
            if (away < half || (inside && away < slope + half))
            {
                return Where.Slope;
            }
            (top, beside) = (top || inside, beside || !inside);
        }
        return top && beside ? Where.Slope
            : top ? Where.Top
            : Where.Beside;
    }
}
