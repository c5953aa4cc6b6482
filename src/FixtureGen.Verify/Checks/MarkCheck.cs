using FixtureGen.Model;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Checks;

/// <summary>Marks engraved on the shell: on their strokes, no deeper than the job says, none left out.</summary>
internal static class MarkCheck
{
    private const double Spacing = 0.5;

    public static void Check(Run run)
    {
        Piece[] strokes =
        [
            .. run.Design.Part.Engravings.SelectMany(m => m.Strokes).SelectMany(s => s.Segments).Select(Piece.From),
        ];
        double top = run.Design.FixtureHeight + run.Job.Shell.Thickness;
        double floor = top - run.Job.Rules.EngraveDepth;
        List<Piece> cut = [];
        foreach ((_, _, Motion motion) in run.Motions())
        {
            if (run.CutterOf(motion) is { } cutter && run.IsMark(motion, cutter) && Run.Low(motion) < top)
            {
                cut.Add(Piece.From(motion));
                Stray(run, motion, strokes, floor);
            }
        }
        Missing(run, strokes, cut);
    }

    private static void Stray(Run run, Motion motion, Piece[] strokes, double floor)
    {
        if (strokes.Length == 0)
        {
            run.Log.Error(
                "mark-astray",
                motion.Line,
                "an engraver cuts the shell, and the drawing has no marks",
                $"Call the trim cutter, T{run.Job.TrimTool.Number}, if that was meant",
                motion.To.Xy
            );
            return;
        }
        Piece piece = Piece.From(motion);
        double away = 0;
        int n = Math.Max(1, (int)Math.Ceiling(piece.Length / Spacing));
        for (int i = 0; i <= n; i++)
        {
            Point2 p = piece.PointAt((double)i / n);
            away = Math.Max(away, strokes.Min(s => Distance.To(s, p)));
        }
        double deep = floor - Run.Low(motion);
        if (Math.Max(away, deep) > run.Limits.Gouge)
        {
            run.Log.Error(
                "mark-astray",
                motion.Line,
                $"the engraver leaves the drawn marks by {away:0.###} mm, or is {Math.Max(0, deep):0.###} mm too deep",
                "Correct the position or the depth",
                motion.To.Xy
            );
        }
    }

    private static void Missing(Run run, Piece[] strokes, List<Piece> cut)
    {
        foreach (Piece stroke in strokes)
        {
            int n = Math.Max(1, (int)Math.Ceiling(stroke.Length / Spacing));
            for (int i = 0; i <= n; i++)
            {
                Point2 p = stroke.PointAt((double)i / n);
                if (!cut.Exists(c => Distance.To(c, p) <= run.Limits.Leftover))
                {
                    int line = run.Motions()
                        .Select(m => m.Motion)
                        .OrderBy(m => Distance.To(Piece.From(m), p))
                        .FirstOrDefault()
                        .Line;
                    run.Log.Error(
                        "mark-missing",
                        line,
                        $"a drawn mark is not engraved at X {p.X:0.##} Y {p.Y:0.##}",
                        "A stroke is missing or in the wrong place",
                        p
                    );
                    break;
                }
            }
        }
    }
}
