using FixtureGen.Model;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Checks;

/// <summary>
/// A helix keeps its sense from top to bottom, and with the spindle clockwise a bore is climb cut counter-clockwise: the other way
/// the cutter is drawn into the wall and chips are cut twice.
/// </summary>
internal static class HelixCheck
{
    /// <summary>Turns of radii nearer than this, mm, belong to one helix; in a slot it has two centres.</summary>
    private const double RadiusSlack = 0.05;

    public static void Check(Run run, List<Motion> feeds)
    {
        List<Motion> helix = [];
        foreach (Motion turn in feeds.Where(Turns))
        {
            if (helix.Count > 0 && !SameRadius(helix[0], turn))
            {
                Judge(run, helix);
                helix.Clear();
            }
            helix.Add(turn);
        }
        Judge(run, helix);
        Conventional(run, feeds);
    }

    private static void Judge(Run run, List<Motion> helix)
    {
        if (helix.Count < 3)
        {
            return;
        }
        int clockwise = helix.Count(m => m.Kind == MotionKind.ArcCw);
        MotionKind usual = 2 * clockwise > helix.Count ? MotionKind.ArcCw : MotionKind.ArcCcw;
        foreach (Motion odd in helix.Where(m => m.Kind != usual))
        {
            run.Log.Odd(
                "odd-turn",
                odd.Line,
                "it turns the other way than the rest of its helix",
                "Check G2 or G3",
                odd.To.Xy
            );
        }
    }

    /// <summary>A whole turn clockwise about one centre, so tight that no post can stand in it: a bore, cut against the climb.</summary>
    private static void Conventional(Run run, List<Motion> feeds)
    {
        bool told = false;
        for (int i = 0; i + 1 < feeds.Count; i++)
        {
            bool whole = Whole(run, feeds[i], feeds[i + 1]);
            if (whole && !told)
            {
                run.Log.Warn(
                    "bore-conventional",
                    feeds[i].Line,
                    "a bore is milled clockwise (G2): with M3 the cutter climbs only counter-clockwise",
                    "Write G3",
                    feeds[i].To.Xy
                );
            }
            told = whole;
        }
    }

    private static bool Whole(Run run, Motion a, Motion b) =>
        a.Kind == MotionKind.ArcCw
        && b.Kind == MotionKind.ArcCw
        && HalfTurn(a)
        && HalfTurn(b)
        && SameRadius(a, b)
        && a.Centre.DistanceTo(b.Centre) <= RadiusSlack
        && run.CutterOf(a) is { Tool.Kind: ToolKind.EndMill or ToolKind.BallMill } cutter
        && Piece.From(a).R < cutter.Tool.Diameter;

    private static bool HalfTurn(Motion m) =>
        m.Kind is MotionKind.ArcCcw or MotionKind.ArcCw && Math.Abs(Piece.From(m).Sweep) > Math.PI * 0.9;

    /// <summary>Half a turn or more, going down or up.</summary>
    private static bool Turns(Motion m) => HalfTurn(m) && Math.Abs(m.To.Z - m.From.Z) > 1e-6;

    private static bool SameRadius(Motion a, Motion b) => Math.Abs(Piece.From(a).R - Piece.From(b).R) <= RadiusSlack;
}
