using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Checks;

/// <summary>
/// A helix keeps its sense from top to bottom, and with the spindle clockwise a bore is climb cut counter-clockwise: the other way
/// the cutter is drawn into the wall and chips are cut twice.
/// </summary>
internal static class HelixCheck
{
    /// <summary>Turns of radii nearer than this, mm, belong to one helix; in a slot it has two centres.</summary>
    private const double RadiusSlack = 0.05;

    public static void Go(Run run, List<Motion> feeds)
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
        bool bore = run.CutterOf(helix[0]) is { } cutter && Piece.Of(helix[0]).R < cutter.Tool.Diameter;
        if (bore && usual == MotionKind.ArcCw)
        {
            run.Log.Odd(
                "bore-conventional",
                helix[0].Line,
                "a bore is milled clockwise (G2): with M3 the cutter climbs only counter-clockwise",
                "Write G3",
                helix[0].To.Xy
            );
        }
    }

    /// <summary>Half a turn or more, going down or up.</summary>
    private static bool Turns(Motion m) =>
        m.Kind is MotionKind.ArcCcw or MotionKind.ArcCw
        && Math.Abs(m.To.Z - m.From.Z) > 1e-6
        && Math.Abs(Piece.Of(m).Sweep) > Math.PI * 0.9;

    private static bool SameRadius(Motion a, Motion b) => Math.Abs(Piece.Of(a).R - Piece.Of(b).R) <= RadiusSlack;
}
