using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Runs;

/// <summary>
/// What a program asks to be carved, weighed before anything is: the ground that its cutters go over within the stock, times what each
/// way of going costs beside a flat cutter on the level. A demo program asks for a fiftieth of a square metre.
/// </summary>
internal static class WorkBound
{
    /// <summary>Of one program, m2.</summary>
    private const double Most = 40;

    private const double Mm2PerM2 = 1e6;

    /// <summary>True, with a finding, where the program asks for more than the judge takes on.</summary>
    public static bool Exceeds(Run run)
    {
        double ground = 0;
        int line = 0;
        foreach ((_, _, Motion motion) in run.Motions())
        {
            if (Run.Low(motion) < run.StockTop + JudgeRules.RapidGap && run.CutterOf(motion) is { } cutter)
            {
                ground += Ground(motion, cutter) / Mm2PerM2;
                line = ground <= Most ? motion.Line : line;
            }
        }
        if (ground <= Most)
        {
            return false;
        }
        run.Log.Error(
            "program-too-long",
            line,
            $"the program's cutters go over {ground:0} m2 of ground within the stock, weighed by what they take to carve; {Most:0} m2 is the most, reached at this line",
            "Take repeated passes out, write arcs as arcs, or cut in several programs"
        );
        return true;
    }

    private static double Ground(Motion motion, Cutter cutter)
    {
        double r = cutter.Radius;
        double round = Math.PI * r * r;
        if (!Run.IsFeed(motion))
        {
            Box2 b = RapidSpace.Ground(motion);
            return round + (2 * r * (b.Width + b.Height)) + (b.Width * b.Height);
        }
        Piece piece = Piece.From(motion);
        bool level = Math.Abs(motion.To.Z - motion.From.Z) < 1e-9 || piece.Length < 1e-9;
        return ((2 * r * piece.Length) + round) * Weight(cutter, piece, level);
    }

    private static double Weight(Cutter cutter, Piece piece, bool level) =>
        (cutter.Shape, level, piece.IsArc) switch
        {
            (CutterShape.Flat, true, _) => 1,
            (CutterShape.Flat, _, false) => 2,
            (CutterShape.Flat, _, _) => 4,
            (_, true, _) => 20,
            (_, _, false) => 30,
            _ => 100,
        };
}
