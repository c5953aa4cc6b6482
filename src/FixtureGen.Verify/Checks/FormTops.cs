using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Checks;

/// <summary>
/// How high the shell's upper face is where it is engraved: on the flange, or on the flat top of a form, which lies on its plug under
/// vacuum. Plate frame, mm.
/// </summary>
internal sealed class FormTops
{
    private readonly Run _run;
    private readonly ImmutableArray<(Area Area, double Face, double Rise)> _tops;

    public FormTops(Run run)
    {
        _run = run;
        _tops =
        [
            .. run
                .Design.Part.Forms.Where(f => f.Direction == FormDirection.Up)
                .Select(f => (Form: f, Area: new Area(Region.From(f.Edge))))
                .Select(f => (f.Area, Face(run, f.Form, f.Area), f.Form.Height)),
        ];
    }

    /// <summary>The face at a place.</summary>
    public double FaceAt(Point2 p) =>
        _tops.FirstOrDefault(t => t.Area.Contains(p)) is { Area: not null } top
            ? top.Face
            : _run.Design.FixtureHeight + _run.Job.Shell.Thickness;

    /// <summary>How much higher than the flange it is for a mark that is cut on a form; null for any other motion.</summary>
    public double? Rise(Motion motion) =>
        _tops.FirstOrDefault(t => t.Area.Contains(motion.From.Xy) && t.Area.Contains(motion.To.Xy))
            is { Area: not null } top
        && Run.Low(motion) < top.Face
            ? top.Rise
            : null;

    /// <summary>The lowest that an engraver's tip may go on a form.</summary>
    public static double MarkFloor(Run run, FormRegion form, Area area) =>
        Face(run, form, area) - run.Job.Rules.EngraveDepth - run.Limits.Gouge;

    private static double Face(Run run, FormRegion form, Area area)
    {
        bool plug = run
            .Design.Removals.Where(r => r.Kind == FeatureKind.Plug)
            .SelectMany(r => r.Area)
            .SelectMany(a => a.Holes)
            .Any(h => area.Contains(h.Segments[0].Start));
        double sunk = plug ? run.Job.Rules.RunningClearance : 0;
        double thick = form.ThicknessMin ?? run.Job.Shell.Thickness;
        return run.Design.FixtureHeight + form.Height - sunk + thick;
    }
}
