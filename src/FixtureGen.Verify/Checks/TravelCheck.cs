using FixtureGen.Verify.Reading;
using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Checks;

/// <summary>
/// Travel above the work: heights that are used once only (a slip in a height that happens to be safe today), sideways moves
/// before a height was set, a way home that does not begin with a full retract.
/// </summary>
internal static class TravelCheck
{
    public static void Go(Run run)
    {
        LoneHeights(run);
        double? arrival = null;
        foreach (ProgramEvent e in run.Trace.Events)
        {
            if (e.Kind is EventKind.ToolChange or EventKind.Stop)
            {
                arrival = null;
            }
            if (e.Kind != EventKind.Motion)
            {
                continue;
            }
            if (e.ToHome)
            {
                Home(run, e, arrival);
                arrival = null;
                continue;
            }
            if (arrival is null && e.State.Tool != 0)
            {
                Arrive(run, e);
                arrival = e.Motion.To.Z;
            }
        }
    }

    private static void LoneHeights(Run run)
    {
        ProgramEvent[] stays =
        [
            .. run.Trace.Events.Where(e =>
                e.Kind == EventKind.Motion
                && !e.ToHome
                && !e.IsCycle
                && e.Motion.Kind == MotionKind.Rapid
                && Math.Abs(e.Motion.To.Z - e.Motion.From.Z) > 1e-6
                && e.Motion.To.Z > run.Design.FixtureHeight
            ),
        ];
        foreach (IGrouping<long, ProgramEvent> height in stays.GroupBy(e => (long)Math.Round(e.Motion.To.Z * 200)))
        {
            if (height.Count() == 1)
            {
                ProgramEvent e = height.Single();
                run.Log.Warn(
                    "lone-height",
                    e.Line,
                    $"a rapid goes to Z {e.Motion.To.Z:0.###}, a height that no other rapid of the program goes to",
                    "Check the height; travel at the program's own heights",
                    e.Motion.To.Xy
                );
            }
        }
    }

    private static void Arrive(Run run, ProgramEvent e)
    {
        bool sideways = Piece.Of(e.Motion).Length > 1e-6;
        if (sideways)
        {
            run.Log.Warn(
                "height-not-set",
                e.Line,
                "after a tool change or stop the tool moves sideways before its height was set",
                "Go to a safe height first, with the tool's length offset",
                e.Motion.To.Xy
            );
        }
    }

    private static void Home(Run run, ProgramEvent e, double? arrival)
    {
        bool up = e.Motion.To.Z > e.Motion.From.Z;
        if (up && arrival is { } height && e.Motion.From.Z < height - 1e-3)
        {
            run.Log.Warn(
                "retract-before-home",
                e.Line,
                $"the way home begins at Z {e.Motion.From.Z:0.###}, the tool came in at Z {height:0.###}",
                "Retract to the program's safe height before the home move",
                e.Motion.From.Xy
            );
        }
    }
}
