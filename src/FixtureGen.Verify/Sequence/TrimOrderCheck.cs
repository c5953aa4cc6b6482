using FixtureGen.Model;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Sequence;

/// <summary>
/// The order and the sense of a trim: marks, then cutouts, the outline last, while the shell is still whole; and every contour the way
/// round that it was planned, for the cutter's pull on the edge and the hold go with it.
/// </summary>
internal sealed class TrimOrderCheck(Run run)
{
    /// <summary>A motion this near a cut's path runs along it, mm.</summary>
    private const double Near = 0.05;

    /// <summary>Shorter stretches show no sense, mm.</summary>
    private const double LeastRun = 0.5;

    private readonly (TrimCut Cut, PieceBins Path)[] _cuts =
    [
        .. run.Design.TrimCuts.Select(c => (c, new PieceBins([.. c.Path.Segments.Select(Piece.From)], 5))),
    ];

    public void Check()
    {
        int outline = 0;
        int through = 0;
        int told = 0;
        foreach ((int index, _, Motion motion) in run.Motions())
        {
            if (!Run.IsFeed(motion) || Run.Low(motion) >= run.StockTop || run.CutterOf(motion) is not { } cutter)
            {
                continue;
            }
            if (run.IsMark(motion, cutter))
            {
                told = Late(motion, "a mark is engraved", through, told);
            }
            else if (run.Tallies[index].Removed > JudgeRules.NoMaterial && Along(motion) is { } cut)
            {
                bool last = cut.Kind == TrimKind.Outline;
                told = last ? told : Late(motion, $"{cut.Name} is cut", outline, told);
                outline = last && outline == 0 ? motion.Line : outline;
                through = through == 0 ? motion.Line : through;
            }
        }
    }

    private int Late(Motion motion, string what, int after, int told)
    {
        if (after == 0 || told > after)
        {
            return told;
        }
        run.Log.Error(
            "trim-order",
            motion.Line,
            $"{what} after line {after} has begun to cut the shell loose",
            "Engrave first, then cut the cutouts, the outline last",
            motion.To.Xy
        );
        return motion.Line;
    }

    /// <summary>The cut along whose path a motion runs; one that runs against it has a finding.</summary>
    private TrimCut? Along(Motion motion)
    {
        Piece piece = Piece.From(motion);
        Point2 middle = piece.PointAt(0.5);
        foreach ((TrimCut cut, PieceBins path) in _cuts)
        {
            (double away, Point2 at) = path.Nearest(middle, Near);
            if (away > Near)
            {
                continue;
            }
            bool level = Math.Abs(motion.To.Z - motion.From.Z) < 1e-6;
            if (level && piece.Length >= LeastRun && Sense(path, at).Dot(piece.Tangent(0.5)) < -0.5)
            {
                run.Log.Error(
                    "trim-direction",
                    motion.Line,
                    $"{cut.Name} is cut the other way round than it was planned",
                    "Run the contour as planned: with M3 the cutter climbs along the part's edge only that way",
                    motion.To.Xy
                );
            }
            return cut;
        }
        return null;
    }

    private static Point2 Sense(PieceBins path, Point2 at)
    {
        Piece piece = path.Pieces.MinBy(p => Distance.To(p, at));
        return piece.Tangent(Math.Clamp(Distance.Nearest(piece, at), 0, 1));
    }
}
