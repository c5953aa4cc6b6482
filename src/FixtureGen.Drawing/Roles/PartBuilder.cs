using System.Collections.Immutable;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Model;

namespace FixtureGen.Drawing.Roles;

/// <summary>
/// Makes the part of a drawing: by the job's roles where the drawing uses them, else, all curves being on one
/// layer, by nesting (outermost loop the outline, loops one deeper its cutouts). Part frame = drawing frame, mm.
/// </summary>
public static class PartBuilder
{
    private static readonly string[] SaidAgain =
    [
        "outline-open",
        "junction",
        "centre-line",
        "stub",
        "loop-crosses-itself",
        "loops-cross",
        "gap-joined",
        "drawn-twice",
        "spike-removed",
        "flat-removed",
        "unit-missing",
    ];

    /// <summary>The part, outline counter-clockwise and cutouts clockwise; without a value where an error finding says why.</summary>
    public static Stage<Part> Build(DrawingContent drawing, Job job) => Build(drawing, job.Roles, job.Forms);

    /// <summary>The same by the house's layer names and before any job states its forms: what a fresh job would make of the drawing.</summary>
    public static Stage<Part> Build(DrawingContent drawing) => Build(drawing, DrawingRoles.House, null);

    /// <summary>The same with the layers as they look, for what a fresh job asks about.</summary>
    public static Stage<Part> Build(DrawingContent drawing, ImmutableArray<SuggestedRole> suggested) =>
        Build(drawing, RoleSuggestion.Apply(DrawingRoles.House, suggested), null);

    /// <summary>What reading found, less what the part says again of its own curves: only there is known which of them count.</summary>
    public static ImmutableArray<Finding> BesideThePart(IEnumerable<Finding> findings) =>
        [.. findings.Where(f => f.Severity == Severity.Error || !SaidAgain.Contains(f.Code))];

    /// <summary>The same by any roles; forms are not matched with heights where none are given.</summary>
    internal static Stage<Part> Build(DrawingContent drawing, DrawingRoles roles, ImmutableArray<FormSpec>? forms)
    {
        Stage<Part> built = Made(drawing, roles, forms);
        return built with { Findings = [.. ChainFindings.AsDrawn(built.Findings, drawing.File, drawing.Unit)] };
    }

    private static Stage<Part> Made(DrawingContent drawing, DrawingRoles roles, ImmutableArray<FormSpec>? forms)
    {
        var findings = new List<Finding>();
        if (drawing.Unit is not { } unit)
        {
            return Stage.Failed<Part>(UnitQuestions.NoUnit(drawing, Severity.Error));
        }
        if (new RoleSorting(drawing, roles, forms ?? []).Sort(findings) is not { } sorted)
        {
            return Stage.Failed<Part>(findings);
        }
        Box2[] boxes = [.. sorted.Curves.SelectMany(r => r).Select(c => LoopMath.Bounds(c.Path.Segments))];
        if (boxes.Length > 0 && boxes.Aggregate(LoopMath.Around) is var whole && UnitQuestions.Impossible(whole))
        {
            return Stage.Failed<Part>([.. findings, UnitQuestions.TooLarge(drawing.File, whole)]);
        }
        var limits = ChainLimits.From(drawing.Tolerances, inMm: true);
        var loops = new RoleLoops(drawing.File, limits, findings);
        ImmutableArray<DrawnLoop> outlines = loops.Closed(sorted[CurveRole.Outline], "outline");
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
            .. loops.Closed(sorted[CurveRole.Cutout], "cutout"),
        ]);
        loops.Within(outline, cutouts);
        ImmutableArray<DrawnLoop> drawnForms = loops.Closed(sorted[CurveRole.Form], "form");
        ImmutableArray<FormRegion> matched = forms is { } stated
            ? FormMatching.Match(drawnForms, stated, drawing.File, findings)
            : [];
        var part = new Part(
            outline.Contour,
            [.. cutouts.Select(c => Reversed(c.Contour))],
            matched,
            [.. loops.Closed(sorted[CurveRole.KeepOut], "keep-out").Select(l => l.Contour)],
            MagnetWishes.Read(drawing, sorted[CurveRole.Magnet], sorted.Magnets, findings),
            Engravings(drawing, sorted[CurveRole.Engrave], sorted.Texts, findings)
        );
        return findings.Exists(f => f.Severity == Severity.Error)
            ? Stage.Failed<Part>(findings)
            : Stage.Answer(part, findings);
    }

    private static Contour Reversed(Contour contour) => new([.. contour.Segments.Reverse().Select(s => s.Reversed)]);

    private static ImmutableArray<EngraveMark> Engravings(
        DrawingContent drawing,
        ImmutableArray<DrawnCurve> curves,
        ImmutableArray<DrawnText> texts,
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
        foreach (DrawnText text in texts)
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
