using System.Collections.Immutable;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Roles;

/// <summary>
/// Makes the part of a drawing: by the job's layer names where the drawing uses them, else, all curves being on one
/// layer, by nesting (outermost loop the outline, loops one deeper its cutouts). Part frame = drawing frame, mm.
/// </summary>
public static class PartBuilder
{
    /// <summary>The part, outline counter-clockwise and cutouts clockwise; without a value where an error finding says why.</summary>
    public static Stage<Part> Build(DrawingContent drawing, Job job)
    {
        Stage<Part> built = Made(drawing, job);
        return built with { Findings = [.. ChainFindings.AsDrawn(built.Findings, drawing.File, drawing.Unit)] };
    }

    private static Stage<Part> Made(DrawingContent drawing, Job job)
    {
        var findings = new List<Finding>();
        if (drawing.Unit is not { } unit)
        {
            return Stage.Failed<Part>(UnitQuestions.NoUnit(drawing, Severity.Error));
        }
        if (LayerSorting.Sort(drawing, job, findings) is not { } layers)
        {
            return Stage.Failed<Part>(findings);
        }
        var limits = ChainLimits.From(drawing.Tolerances, inMm: true);
        var loops = new RoleLoops(drawing.File, limits, findings);
        ImmutableArray<DrawnLoop> outlines = loops.Closed(layers.Outline, "outline");
        if (loops.Outline(outlines) is not { } outline)
        {
            return Stage.Failed<Part>(findings);
        }
        if (UnitQuestions.Unlikely(outline.Bounds) && !drawing.UnitFromJob)
        {
            findings.Add(UnitQuestions.UnlikelySize(drawing.File, outline.Bounds, unit, Severity.Error));
        }
        ImmutableArray<DrawnLoop> cutouts = loops.Once([
            .. outlines.Where(l => l.Depth == 1),
            .. loops.Closed(layers.Cutout, "cutout"),
        ]);
        loops.Within(outline, cutouts);
        ImmutableArray<FormRegion> forms = FormMatching.Match(
            loops.Closed(layers.Form, "form"),
            job,
            drawing.File,
            findings
        );
        var part = new Part(
            outline.Contour,
            [.. cutouts.Select(c => Reversed(c.Contour))],
            forms,
            [.. loops.Closed(layers.KeepOut, "keep-out").Select(l => l.Contour)],
            MagnetWishes.Read(drawing, layers.Magnet, job.Layers.Magnet, findings),
            Engravings(drawing, layers.Engrave, job.Layers.Engrave, findings)
        );
        return findings.Exists(f => f.Severity == Severity.Error)
            ? Stage.Failed<Part>(findings)
            : Stage.Answer(part, findings);
    }

    private static Contour Reversed(Contour contour) => new([.. contour.Segments.Reverse().Select(s => s.Reversed)]);

    private static ImmutableArray<EngraveMark> Engravings(
        DrawingContent drawing,
        ImmutableArray<DrawnCurve> curves,
        string layer,
        List<Finding> findings
    )
    {
        var marks = ImmutableArray.CreateBuilder<EngraveMark>();
        if (curves.Length > 0)
        {
            // open ends are what a stroke has, so what the chainer says about them does not count here
            Chained chained = Chainer.Chain(curves, ChainLimits.From(drawing.Tolerances, inMm: true), drawing.File);
            ImmutableArray<OpenPath> strokes =
            [
                .. chained.Loops.Select(l => new OpenPath(l.Contour.Segments)),
                .. chained.Open.Select(o => o.Path),
            ];
            if (!strokes.IsEmpty)
            {
                marks.Add(new EngraveMark(strokes, "", strokes[0].Start, 0, 0));
            }
        }
        foreach (DrawnText text in drawing.Texts.Where(t => LayerSorting.Same(t.Layer, layer)))
        {
            if (!text.FromLeft)
            {
                findings.Add(PartFindings.TextNotFromLeft(drawing.File, text));
            }
            marks.Add(new EngraveMark([], text.Text, text.At, text.Height, text.AngleDeg));
        }
        return marks.ToImmutable();
    }
}
