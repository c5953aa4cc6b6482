using FixtureGen.Model;
using FixtureGen.Verify.Reading;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Sequence;

/// <summary>What must be switched on and set before a motion may be made: spindle, feed, length offset, vacuum.</summary>
internal static class StateCheck
{
    public static void Check(Run run)
    {
        double top = run.Job.Plate.Machine.Travel.MaxZ;
        int started = 0;
        for (int index = 0; index < run.Trace.Events.Length; index++)
        {
            ProgramEvent e = run.Trace.Events[index];
            Motion motion = e.Motion;
            if (e.Kind != EventKind.Motion)
            {
                started = e.Kind == EventKind.Spindle ? e.Line : started;
                Backwards(run, e);
                continue;
            }
            if (!e.ToHome && motion.To.Z < top - 1e-6)
            {
                Offset(run, e, motion);
            }
            if (Run.IsFeed(motion))
            {
                Feed(run, e, motion);
                Spindle(run, e, motion);
                Vacuum(run, e, motion);
                Air(run, e, motion, started);
            }
            else if (run.Tallies[index].Removed > JudgeRules.NoMaterial)
            {
                Spindle(run, e, motion);
            }
            else if (
                !e.ToHome
                && e.State.Tool != 0
                && e.State.Spindle == SpindleTurn.Off
                && Run.Low(motion) < run.StockTop + JudgeRules.LowTravel
            )
            {
                run.Log.Error(
                    "spindle-stopped-early",
                    e.Line,
                    $"the tool is moved about at Z {Run.Low(motion):0.###} with the spindle off, hardly above the work or in it",
                    "Retract first, then stop the spindle; start it before going down",
                    motion.To.Xy
                );
            }
        }
    }

    private static void Offset(Run run, ProgramEvent e, Motion motion)
    {
        if (run.Job.Control.LengthOffsetWord && e.State.Tool != 0 && e.State.LengthOffset != e.State.Tool)
        {
            string have =
                e.State.LengthOffset == 0
                    ? "no length offset"
                    : FormattableString.Invariant($"length offset H{e.State.LengthOffset}");
            run.Log.Error(
                "length-offset",
                e.Line,
                $"tool {e.State.Tool} moves with {have}",
                $"Write G43 H{e.State.Tool} after the tool change",
                motion.To.Xy
            );
        }
    }

    private static void Feed(Run run, ProgramEvent e, Motion motion)
    {
        if (motion.FeedMmPerMin <= 0)
        {
            run.Log.Error("feed-missing", e.Line, "a feed motion without a feed", "Write F", motion.To.Xy);
        }
        else if (motion.FeedMmPerMin > run.Job.Plate.Machine.MaxFeedMmPerMin + 1e-6)
        {
            run.Log.Error(
                "feed-limit",
                e.Line,
                $"feed {motion.FeedMmPerMin:0.#} mm/min, the machine has {run.Job.Plate.Machine.MaxFeedMmPerMin:0.#}",
                "Lower F",
                motion.To.Xy
            );
        }
    }

    private static void Spindle(Run run, ProgramEvent e, Motion motion)
    {
        if (e.State.Spindle == SpindleTurn.Off || e.State.Rpm <= 0)
        {
            run.Log.Error(
                "spindle-off",
                e.Line,
                "a feed motion while the spindle stands",
                $"Start it with {run.Job.Control.SpindleStart} and a speed",
                motion.To.Xy
            );
        }
    }

    /// <summary>No cutter of the table is left-hand, and no holder should be turned against its nut: M4 is wrong wherever it stands.</summary>
    private static void Backwards(Run run, ProgramEvent e)
    {
        if (e.Kind == EventKind.Spindle && e.State.Spindle == SpindleTurn.CounterClockwise)
        {
            run.Log.Error(
                "spindle-direction",
                e.Line,
                "the spindle is started backwards (M4)",
                "Start it with M3: the cutters of the table are right-hand"
            );
        }
    }

    private static void Air(Run run, ProgramEvent e, Motion motion, int started)
    {
        if (run.Job.Control.AirOn.Length > 0 && !e.State.Air)
        {
            run.Log.Warn(
                "air-off",
                started,
                $"line {e.Line} cuts without chip air",
                $"Write {run.Job.Control.AirOn} after the spindle's start",
                motion.To.Xy
            );
        }
    }

    /// <summary>A shell is held by the vacuum, unless magnets alone hold it; a block by its bolts once a stop had them fitted.</summary>
    private static void Vacuum(Run run, ProgramEvent e, Motion motion)
    {
        if (run.ByMagnets)
        {
            return;
        }
        bool bolted = run.Setup != Setup.Trim && e.State.Bolted;
        if (!bolted && (!e.State.VacuumOn || !e.State.VacuumProven))
        {
            string what = e.State.VacuumOn ? "the vacuum is not proven" : "the vacuum is off";
            run.Log.Error(
                "vacuum-not-proven",
                e.Line,
                $"a feed motion while {what}",
                "Switch the vacuum on and wait for its switch, or stop for the operator to read the level",
                motion.To.Xy
            );
        }
    }
}
