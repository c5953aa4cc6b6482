using System.Collections.Immutable;
using FixtureGen.Model;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Checks;

/// <summary>Marks engraved on the shell: on their strokes, no deeper than the job says, none left out.</summary>
internal static class MarkCheck
{
    private const double Spacing = 0.5;

    private const double BinSize = 5;

    /// <summary>Farther from every stroke, mm, is just far.</summary>
    private const double Far = 10;

    /// <summary>Missing strokes whose nearest motion is looked for.</summary>
    private const int MostPlaces = 12;

    /// <summary>Looks along one motion.</summary>
    private const int Most = 1000;

    public static void Check(Run run)
    {
        PieceBins strokes = new(
            [.. run.Design.Part.Engravings.SelectMany(m => m.Strokes).SelectMany(s => s.Segments).Select(Piece.From)],
            BinSize
        );
        FormTops tops = new(run);
        ImmutableArray<Piece>.Builder cut = ImmutableArray.CreateBuilder<Piece>();
        foreach ((_, _, Motion motion) in run.Motions())
        {
            double top = Math.Min(tops.FaceAt(motion.From.Xy), tops.FaceAt(motion.To.Xy));
            if (run.CutterOf(motion) is { } cutter && run.IsMark(motion, cutter) && Run.Low(motion) < top)
            {
                cut.Add(Piece.From(motion));
                Stray(run, motion, strokes, top - run.Job.Rules.EngraveDepth);
            }
        }
        Missing(run, strokes.Pieces, new PieceBins(cut.ToImmutable(), BinSize));
    }

    private static void Stray(Run run, Motion motion, PieceBins strokes, double floor)
    {
        if (strokes.Pieces.IsEmpty)
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
        int n = (int)Math.Clamp(Math.Ceiling(piece.Length / Spacing), 1, Most);
        for (int i = 0; i <= n && away <= Far; i++)
        {
            away = Math.Max(away, Math.Min(strokes.Nearest(piece.PointAt((double)i / n), Far).Distance, Far + Spacing));
        }
        double deep = floor - Run.Low(motion);
        if (Math.Max(away, deep) > run.Limits.Gouge)
        {
            run.Log.Error(
                "mark-astray",
                motion.Line,
                $"the engraver leaves the drawn marks by {(away > Far ? "over " : "")}{Math.Min(away, Far):0.###} mm, or is {Math.Max(0, deep):0.###} mm too deep",
                "Correct the position or the depth",
                motion.To.Xy
            );
        }
    }

    private static void Missing(Run run, ImmutableArray<Piece> strokes, PieceBins cut)
    {
        int told = 0;
        foreach (Piece stroke in strokes)
        {
            int n = Math.Max(1, (int)Math.Ceiling(stroke.Length / Spacing));
            for (int i = 0; i <= n; i++)
            {
                Point2 p = stroke.PointAt((double)i / n);
                if (cut.Nearest(p, run.Limits.Leftover).Distance > run.Limits.Leftover)
                {
                    int line = told++ < MostPlaces ? NearestLine(run, p) : 0;
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

    private static int NearestLine(Run run, Point2 p) =>
        run.Motions().Select(m => m.Motion).MinBy(m => Distance.To(Piece.From(m), p)).Line;
}
