using FixtureGen.Model;
using FixtureGen.Verify.Reading;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Sequence;

/// <summary>
/// Travel above the work: heights that are used once only (a slip in a height that happens to be safe today), sideways moves
/// before a height was set, a way home that does not begin with a full retract.
/// </summary>
internal static class TravelCheck
{
    public static void Check(Run run)
    {
        bool[] changes = ChangesTool(run);
        Dictionary<int, Block> said = run.Trace.Blocks.ToDictionary(b => b.Line);
        LoneHeights(run);
        LoneTravel(run);
        ToolChanges(run, changes);
        double? arrival = null;
        int? low = null;
        bool over = false;
        bool home = false;
        for (int i = 0; i < run.Trace.Events.Length; i++)
        {
            ProgramEvent e = run.Trace.Events[i];
            if (e.Kind == EventKind.ToolChange && !home && GoesHome(run.Job.Control))
            {
                NotHome(run, e);
            }
            home = e.Kind == EventKind.Motion ? e.ToHome && (home || TakesHeightHome(said[e.Line])) : home;
            if (e.Kind is EventKind.ToolChange or EventKind.Stop)
            {
                arrival = null;
                over = false;
            }
            if (e.Kind != EventKind.Motion)
            {
                continue;
            }
            if (e.ToHome)
            {
                if (!changes[i])
                {
                    Home(run, e, arrival);
                }
                arrival = null;
                continue;
            }
            if (arrival is null && e.State.Tool != 0)
            {
                over = Arrive(run, e);
                arrival = over ? double.MinValue : e.Motion.To.Z;
                low = null;
            }
            else if (arrival == double.MinValue && Piece.From(e.Motion).Length <= 1e-6)
            {
                // it came over its work at the machine's top: the height it then goes to is the program's
                arrival = e.Motion.To.Z;
            }
            else if (arrival is { } first && !over)
            {
                over = Sideways(run, e, first, ref low);
            }
            over &= arrival is not null;
        }
    }

    /// <summary>Of all tool changes, one that begins lower than the others lacks its retract.</summary>
    private static void ToolChanges(Run run, bool[] changes)
    {
        ProgramEvent[] ways =
        [
            .. run.Trace.Events.Where(
                (e, i) =>
                    e.Kind == EventKind.Motion
                    && e.ToHome
                    && e.Motion.To.Z > e.Motion.From.Z
                    && e.State.Tool != 0
                    && changes[i]
            ),
        ];
        foreach (ProgramEvent e in ways.Where(w => w.Motion.From.Z < run.StockTop + JudgeRules.RapidGap))
        {
            run.Log.Error(
                "retract-missing",
                e.Line,
                $"the way to the tool change begins at Z {e.Motion.From.Z:0.###}, within the stock",
                "Retract first",
                e.Motion.From.Xy
            );
        }
        double usual = ways.Select(w => w.Motion.From.Z).DefaultIfEmpty(0).Max();
        foreach (ProgramEvent e in ways.Where(w => w.Motion.From.Z < Clear(run, usual)))
        {
            run.Log.Odd(
                "retract-before-change",
                e.Line,
                $"the tool change begins at Z {e.Motion.From.Z:0.###}, the others at Z {usual:0.###}",
                "Retract to the clearance height first",
                e.Motion.From.Xy
            );
        }
    }

    /// <summary>A tool change goes up by itself; from the clearance height that is enough.</summary>
    private static bool[] ChangesTool(Run run)
    {
        bool[] changes = new bool[run.Trace.Events.Length];
        bool next = false;
        for (int i = changes.Length - 1; i >= 0; i--)
        {
            changes[i] = next;
            EventKind kind = run.Trace.Events[i].Kind;
            next = kind is EventKind.Motion or EventKind.Spindle ? next : kind == EventKind.ToolChange;
        }
        return changes;
    }

    private static bool GoesHome(Control control) =>
        control.ToolChange.Any(t =>
            t.Contains("G28", StringComparison.OrdinalIgnoreCase)
            || t.Contains("G30", StringComparison.OrdinalIgnoreCase)
            || t.Contains("G53", StringComparison.OrdinalIgnoreCase)
        );

    /// <summary>A home move names Z, or no axis and so all of them; sideways alone the tool stays as low as it was.</summary>
    private static bool TakesHeightHome(Block said) => said.Has('Z') || !(said.Has('X') || said.Has('Y'));

    private static void NotHome(Run run, ProgramEvent e) =>
        run.Log.Error(
            "change-not-home",
            e.Line,
            "the tool is changed away from home",
            $"Write {string.Join(" / ", run.Job.Control.ToolChange)}",
            e.Motion.From.Xy
        );

    /// <summary>Below this a way home or to the changer begins too low: hardly above the work, or far below the usual height.</summary>
    private static double Clear(Run run, double usual) =>
        Math.Min(usual - 1e-3, Math.Max(run.StockTop + JudgeRules.LowTravel, usual - JudgeRules.ClearOfWork));

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
        IGrouping<long, ProgramEvent>[] heights = [.. stays.GroupBy(e => (long)Math.Round(e.Motion.To.Z * 200))];
        HashSet<int> goesOn = [.. DownAgain(run)];
        // what is no lower than the program's own travel is only a higher retract
        long usual = heights.Where(h => h.Count() > 1).Select(h => h.Key).DefaultIfEmpty(long.MaxValue).Min();
        long slip = (long)(JudgeRules.HeightSlip * 200);
        long[] keys = [.. heights.Select(h => h.Key).Order()];
        foreach (
            IGrouping<long, ProgramEvent> height in heights.Where(h =>
                h.Key < usual || Next(keys, h.Key) <= h.Key + slip
            )
        )
        {
            if (
                height.Count() == 1
                && !goesOn.Contains(height.Single().Line)
                && !Approaches(run, height.Single().Motion)
            )
            {
                ProgramEvent e = height.Single();
                run.Log.Odd(
                    "lone-height",
                    e.Line,
                    $"a rapid goes to Z {e.Motion.To.Z:0.###}, a height that no other rapid of the program goes to",
                    "Check the height; travel at the program's own heights",
                    e.Motion.To.Xy
                );
            }
        }
    }

    /// <summary>The next of sorted heights above one of them.</summary>
    private static long Next(long[] heights, long height)
    {
        int at = Array.BinarySearch(heights, height) + 1;
        return at < heights.Length ? heights[at] : long.MaxValue;
    }

    /// <summary>Lines of rapids straight down that another one carries on.</summary>
    private static IEnumerable<int> DownAgain(Run run)
    {
        Motion before = default;
        foreach ((_, _, Motion motion) in run.Motions())
        {
            if (Down(before) && Down(motion))
            {
                yield return before.Line;
            }
            before = motion;
        }
        static bool Down(Motion m) => !Run.IsFeed(m) && m.To.Z < m.From.Z && m.From.Xy == m.To.Xy;
    }

    /// <summary>Sideways at a height where no other rapid goes sideways.</summary>
    private static void LoneTravel(Run run)
    {
        ProgramEvent[] travel =
        [
            .. run.Trace.Events.Where(e =>
                e.Kind == EventKind.Motion
                && !e.ToHome
                && !e.IsCycle
                && e.Motion.Kind == MotionKind.Rapid
                && Piece.From(e.Motion).Length > 1e-6
            ),
        ];
        double highest = travel.Select(e => Run.Low(e.Motion)).DefaultIfEmpty(0).Max();
        foreach (IGrouping<long, ProgramEvent> height in travel.GroupBy(e => (long)Math.Round(Run.Low(e.Motion) * 200)))
        {
            if (
                height.Count() == 1
                && travel.Length > 2
                && Run.Low(height.Single().Motion) < Math.Min(highest, run.StockTop + JudgeRules.LowTravel)
            )
            {
                ProgramEvent e = height.Single();
                run.Log.Odd(
                    "lone-travel",
                    e.Line,
                    $"a rapid goes sideways at Z {Run.Low(e.Motion):0.###}, where no other one does",
                    "Travel at the program's own heights",
                    e.Motion.To.Xy
                );
            }
        }
    }

    /// <summary>The last rapid down to about a millimetre above the stock, where feeding begins.</summary>
    private static bool Approaches(Run run, Motion motion) =>
        motion.To.Z < motion.From.Z && motion.To.Z - run.StockTop is > 0.5 and < 1.5;

    /// <summary>True when the first move goes sideways: at the machine's top that is safe, lower down the height was not said.</summary>
    private static bool Arrive(Run run, ProgramEvent e)
    {
        bool sideways = Piece.From(e.Motion).Length > 1e-6;
        if (e.Motion.From == e.Motion.To)
        {
            return true; // its place is said, and it is there already
        }
        if (sideways && Run.Low(e.Motion) < run.Job.Plate.Machine.Travel.MaxZ - 1e-6)
        {
            run.Log.Error(
                "height-not-set",
                e.Line,
                "after a tool change or stop the tool moves sideways before its height was set",
                "Go to a safe height first, with the tool's length offset",
                e.Motion.To.Xy
            );
        }
        return sideways;
    }

    /// <summary>
    /// From the changer the tool comes over ground that no program knows; it goes down only once it is over its work. True when
    /// it has gone sideways.
    /// </summary>
    private static bool Sideways(Run run, ProgramEvent e, double arrival, ref int? low)
    {
        if (low is null && e.Motion.From == e.Motion.To)
        {
            // its place is said, and it is there already
            return true;
        }
        if (Piece.From(e.Motion).Length <= 1e-6)
        {
            low ??= e.Motion.To.Z < arrival - 1e-3 ? e.Line : null;
            return false;
        }
        if (low is { } line)
        {
            run.Log.Error(
                "arrives-low",
                line,
                $"the tool comes down from Z {arrival:0.###} to Z {Run.Low(e.Motion):0.###} before line {e.Line} takes it over its work",
                "Go sideways at the height the tool came in, then down",
                e.Motion.To.Xy
            );
        }
        return true;
    }

    private static void Home(Run run, ProgramEvent e, double? arrival)
    {
        bool up = e.Motion.To.Z > e.Motion.From.Z;
        if (up && arrival is { } height && e.Motion.From.Z < Clear(run, height))
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
