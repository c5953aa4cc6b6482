using FixtureGen.Model;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Finished;

/// <summary>A form that hangs down must have its shell's least slack all round in the pocket that it nests in, else the shell binds before it seats.</summary>
internal static class NestCheck
{
    private const int Parts = 4;

    public static void Check(Run run)
    {
        Piece[] walls =
        [
            .. run
                .Design.Features.Where(f => f.Kind == FeatureKind.FormPocket)
                .SelectMany(f => f.Removals)
                .SelectMany(r => r.Area)
                .SelectMany(r => r.Contours)
                .SelectMany(c => c.Segments)
                .Select(Piece.From),
        ];
        if (walls.Length == 0 || run.Job.Shell.SlackMin <= 0)
        {
            return;
        }
        foreach (FormRegion form in run.Design.Part.Forms.Where(f => f.Direction == FormDirection.Down))
        {
            (double least, Point2 at) = form
                .Edge.Segments.Select(Piece.From)
                .SelectMany(p => Enumerable.Range(0, Parts).Select(i => p.PointAt((double)i / Parts)))
                .Select(p => (walls.Min(w => Distance.To(w, p)), p))
                .MinBy(n => n.Item1);
            if (least < run.Job.Shell.SlackMin - JudgeRules.NestRounding)
            {
                run.Log.Error(
                    "nest-too-tight",
                    1,
                    $"the pocket leaves {least:0.###} mm round the form, less than the shell's least slack of {run.Job.Shell.SlackMin:0.###} mm",
                    "Widen the form's pocket, or lower the least slack if the shells are that alike",
                    at
                );
            }
        }
    }
}
