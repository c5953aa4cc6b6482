using FixtureGen.Verify.Reading;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Checks;

/// <summary>
/// Slips that do no harm by luck: a turn about another centre or the other way round amid turns about one centre, a step of a
/// descent steeper or flatter than the rest, a line that moves nothing. Each is a warning: something was meant that is not there.
/// </summary>
internal static class RegularityCheck
{
    private const double CentreSlack = 0.05;

    /// <summary>Shorter arcs, mm, join others at a corner of a ring.</summary>
    private const double LeastTurn = 0.5;

    /// <summary>Arcs that meet within this, degrees, were planned to.</summary>
    private const double SmoothDeg = 5;

    public static void Check(Run run)
    {
        List<Motion> feeds = [];
        bool changed = false;
        Motion? dropped = null;
        foreach (ProgramEvent e in run.Trace.Events)
        {
            // a fresh tool is sent to its place in full, also where the one before it left off
            changed =
                e.Kind == EventKind.ToolChange || (changed && !(e.Kind == EventKind.Motion && Run.IsFeed(e.Motion)));
            if (
                !changed
                && e.Kind == EventKind.Motion
                && !e.ToHome
                && !e.IsCycle
                && e.Motion.From == e.Motion.To
                && Run.IsFeed(e.Motion)
                && !IsArc(e.Motion)
            )
            {
                Still(run, e.Motion);
            }
            FeedsUp(run, e);
            if (dropped is { } rapid)
            {
                Overshot(run, rapid, e);
            }
            if (e.Kind == EventKind.Motion)
            {
                bool down = !e.IsCycle && e.Motion.Kind == MotionKind.Rapid && e.Motion.To.Z < e.Motion.From.Z;
                dropped = down ? e.Motion : null;
            }
            bool cuts = e.Kind == EventKind.Motion && Run.IsFeed(e.Motion) && !e.IsCycle;
            if (cuts && (e.Motion.From != e.Motion.To || IsArc(e.Motion)))
            {
                feeds.Add(e.Motion);
                continue;
            }
            Chain(run, feeds);
            feeds.Clear();
        }
        Chain(run, feeds);
        DrilledAgain(run);
    }

    /// <summary>A drilling cycle that finds no material: the hole is there already.</summary>
    private static void DrilledAgain(Run run)
    {
        var holes = run.Motions()
            .Where(m => m.Event.IsCycle && Run.IsFeed(m.Motion))
            .GroupBy(m => (m.Event.Line, m.Motion.To.Xy));
        foreach (var hole in holes.Where(h => h.Sum(m => run.Tallies[m.Index].Removed) <= JudgeRules.NoMaterial))
        {
            run.Log.Odd(
                "cuts-air",
                hole.Key.Line,
                "a hole is drilled where there is no material",
                "The line may be there twice",
                hole.Key.Xy
            );
        }
    }

    private static bool IsArc(Motion motion) => motion.Kind is MotionKind.ArcCcw or MotionKind.ArcCw;

    private static void Still(Run run, Motion motion) =>
        run.Log.Odd(
            "moves-nothing",
            motion.Line,
            "the line's motion ends where it began",
            "A line before it may be missing, or the line is there twice",
            motion.To.Xy
        );

    private static void FeedsUp(Run run, ProgramEvent e)
    {
        Motion m = e.Motion;
        bool up = e.Kind == EventKind.Motion && !e.IsCycle && Run.IsFeed(m) && m.To.Z > m.From.Z + JudgeRules.RapidGap;
        if (up && Piece.From(m).Length < 1e-6 && m.To.Z > run.Face)
        {
            run.Log.Odd(
                "feeds-up",
                m.Line,
                $"the tool is lifted to Z {m.To.Z:0.###} at feed rate",
                "Lift it by a rapid (G0): a line before this one may be missing",
                m.To.Xy
            );
        }
    }

    /// <summary>A rapid that went lower than where feeding begins: what comes first is straight up again.</summary>
    private static void Overshot(Run run, Motion rapid, ProgramEvent e)
    {
        Motion m = e.Motion;
        bool up = e.Kind == EventKind.Motion && !e.IsCycle && Run.IsFeed(m) && m.To.Z > m.From.Z + JudgeRules.RapidGap;
        if (up && Piece.From(m).Length < 1e-6 && rapid.To.Z < run.StockTop)
        {
            run.Log.Error(
                "rapid-overshoots",
                rapid.Line,
                $"the rapid goes down to Z {rapid.To.Z:0.###}, and the feed after it begins {m.To.Z - rapid.To.Z:0.###} mm higher",
                "End the rapid above the height where the tool begins to cut",
                rapid.To.Xy
            );
        }
    }

    private static void Chain(Run run, List<Motion> feeds)
    {
        for (int i = 1; i + 1 < feeds.Count; i++)
        {
            if (RampsBack(feeds[i - 1], feeds[i]))
            {
                continue;
            }
            Turn(run, feeds[i - 1], feeds[i], feeds[i + 1]);
            Kinks(run, feeds[i - 1], feeds[i], feeds[i + 1]);
        }
        HelixCheck.Check(run, feeds);
        List<Motion> descent = [];
        foreach (Motion motion in feeds)
        {
            double dz = motion.To.Z - motion.From.Z;
            bool sloped = Math.Abs(dz) > 1e-6 && Piece.From(motion).Length > 1e-3;
            if (sloped)
            {
                descent.Add(motion);
            }
            else if (Piece.From(motion).Length > 0.1 || Math.Abs(dz) > 1e-6)
            {
                Descent(run, descent);
                descent.Clear();
            }
        }
        Descent(run, descent);
    }

    private static void Turn(Run run, Motion before, Motion motion, Motion after)
    {
        bool arcs = IsArc(before) && IsArc(motion) && IsArc(after);
        if (!arcs || !SameCircle(before, after) || before.Kind != after.Kind || Piece.From(motion).Length < LeastTurn)
        {
            return;
        }
        // out along a branch and back over it
        if (motion.Kind != before.Kind && motion.To.Xy.DistanceTo(before.From.Xy) < CentreSlack)
        {
            return;
        }
        double away = motion.Centre.DistanceTo(before.Centre);
        bool smooth = Math.Max(Angle(before, motion), Angle(motion, after)) < SmoothDeg;
        if (motion.Kind != before.Kind || (away > CentreSlack && !smooth))
        {
            string what =
                away > CentreSlack
                    ? FormattableString.Invariant($"its centre is {away:0.###} mm off theirs")
                    : "it turns the other way";
            run.Log.Odd(
                "odd-turn",
                motion.Line,
                $"the arcs before and after turn about one centre, this one does not: {what}",
                "Check G2 or G3 and the centre",
                motion.To.Xy
            );
        }
    }

    /// <summary>Down to and fro on one arc: a ramp that has no room to go on, each way ending where the last began.</summary>
    private static bool RampsBack(Motion before, Motion motion) =>
        IsArc(before)
        && IsArc(motion)
        && before.Kind != motion.Kind
        && SameCircle(before, motion)
        && motion.To.Xy.DistanceTo(before.From.Xy) <= CentreSlack
        && motion.To.Z < motion.From.Z
        && before.To.Z < before.From.Z;

    private static bool SameCircle(Motion a, Motion b) =>
        a.Centre.DistanceTo(b.Centre) <= CentreSlack && Math.Abs(Piece.From(a).R - Piece.From(b).R) <= CentreSlack;

    /// <summary>An arc that doubles back on its neighbours at both ends turns the wrong way or about the wrong centre.</summary>
    private static void Kinks(Run run, Motion before, Motion motion, Motion after)
    {
        if (
            !IsArc(motion)
            || Piece.From(before).Length < 0.05
            || Piece.From(after).Length < 0.05
            || Piece.From(motion).Length < 0.2
        )
        {
            return;
        }
        double first = Angle(before, motion);
        double last = Angle(motion, after);
        if (Math.Min(first, last) > JudgeRules.KinkDeg)
        {
            run.Log.Odd(
                "arc-kinks",
                motion.Line,
                $"the arc meets the motions before and after it at {first:0} and {last:0} degrees",
                "Check G2 or G3 and the centre",
                motion.To.Xy
            );
        }
    }

    private static double Angle(Motion a, Motion b)
    {
        Model.Point2 u = Piece.From(a).Tangent(1);
        Model.Point2 w = Piece.From(b).Tangent(0);
        return Math.Abs(Math.Atan2(u.Cross(w), u.Dot(w))) * 180 / Math.PI;
    }

    /// <summary>A ramp or helix comes down evenly; a step that does not was edited.</summary>
    private static void Descent(Run run, List<Motion> descent)
    {
        if (descent.Count < 3)
        {
            return;
        }
        double[] slopes = [.. descent.Select(Slope).Order()];
        double middle = slopes[slopes.Length / 2];
        foreach (Motion motion in descent)
        {
            double length = Piece.From(motion).Length;
            double off = (motion.To.Z - motion.From.Z) - (middle * length);
            if (Math.Abs(off) > JudgeRules.UnevenStep + (JudgeRules.UnevenShare * Math.Abs(middle * length)))
            {
                run.Log.Odd(
                    "uneven-descent",
                    motion.Line,
                    $"this step of a ramp ends {off:0.###} mm off the slope of the others",
                    "Check the height",
                    motion.To.Xy
                );
            }
        }
    }

    private static double Slope(Motion motion) => (motion.To.Z - motion.From.Z) / Piece.From(motion).Length;
}
