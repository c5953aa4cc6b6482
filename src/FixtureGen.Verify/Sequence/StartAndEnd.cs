using FixtureGen.Model;
using FixtureGen.Verify.Reading;
using FixtureGen.Verify.Runs;

namespace FixtureGen.Verify.Sequence;

/// <summary>The frame of a program: number, first comment, safe start, tool changes and stops up high, retract and spindle stop before the end.</summary>
internal static class StartAndEnd
{
    public static void Check(Run run)
    {
        Number(run);
        SafeStart(run);
        Heights(run);
        HandedOver(run);
        VacuumLast(run);
        End(run);
    }

    private static void Number(Run run)
    {
        Control control = run.Job.Control;
        if (control.ProgramNumberWord.Length == 0)
        {
            return;
        }
        if (run.Trace.ProgramNumber is not { } number)
        {
            run.Log.Error(
                "program-number-missing",
                1,
                "the program has no program number",
                $"Write {control.ProgramNumberWord} and the number of the job as the first line"
            );
        }
        else if (number != run.Program.ProgramNumber && run.Program.ProgramNumber > 0)
        {
            run.Log.Error(
                "program-number",
                LineOfNumber(run),
                $"the program is number {number}, the job's is {run.Program.ProgramNumber}",
                "Write the job's number: the operator calls it from the label"
            );
        }
    }

    /// <summary>Every mode that the control's safe start sets must have been said before the first motion.</summary>
    private static void SafeStart(Run run)
    {
        int first = run.Trace.Events.FirstOrDefault(e => e.Kind == EventKind.Motion).Line;
        HashSet<int> said =
        [
            .. run
                .Trace.Blocks.Where(b => b.Line <= first)
                .SelectMany(b => b.Words)
                .Where(w => w.Letter == 'G')
                .Select(w => w.Tenths),
        ];
        int[] missing = [.. Dialect.From(run.Job.Control).SafeStartG.Where(g => !said.Contains(g)).Order()];
        if (first > 0 && missing.Length > 0)
        {
            string words = string.Join(' ', missing.Select(g => FormattableString.Invariant($"G{g / 10.0:0.#}")));
            run.Log.Error(
                "safe-start",
                first,
                $"the first motion comes before {words}",
                $"Start with {string.Join(" / ", run.Job.Control.SafeStart).Replace("{work}", run.Job.Control.WorkOffset, StringComparison.Ordinal)}"
            );
        }
    }

    private static int LineOfNumber(Run run) => run.Trace.Blocks.First(b => b.ProgramNumber is not null).Line;

    private static void Heights(Run run)
    {
        foreach (ProgramEvent e in run.Trace.Events)
        {
            bool stops = e.Kind is EventKind.ToolChange or EventKind.Stop or EventKind.OptionalStop or EventKind.End;
            if (stops && e.Motion.From.Z < run.StockTop)
            {
                run.Log.Error(
                    "retract-missing",
                    e.Line,
                    $"the tip stands at Z {e.Motion.From.Z:0.###}, below the stock's top at {run.StockTop:0.###}",
                    "Retract before a stop, a tool change or the end",
                    e.Motion.From.Xy
                );
            }
            bool byHand = e.Kind is EventKind.Stop or EventKind.OptionalStop or EventKind.End;
            if (byHand && e.State.Spindle != SpindleTurn.Off)
            {
                run.Log.Error(
                    "spindle-runs",
                    e.Line,
                    "the spindle still turns where the operator opens the door",
                    $"Write {run.Job.Control.SpindleStop} before it"
                );
            }
            if (e.Kind == EventKind.ToolChange && e.State.Spindle != SpindleTurn.Off)
            {
                run.Log.Error(
                    "spindle-runs",
                    e.Line,
                    "the tool is changed while the spindle turns; not every control stops it first",
                    $"Write {run.Job.Control.SpindleStop} before it"
                );
            }
            if (e.Kind == EventKind.VacuumOff && e.State.Spindle != SpindleTurn.Off)
            {
                run.Log.Error(
                    "vacuum-off-early",
                    e.Line,
                    "the vacuum goes off while the spindle turns",
                    $"Write {run.Job.Control.SpindleStop} first"
                );
            }
        }
    }

    /// <summary>Where a person takes over, or a new tool begins, the next height must not depend on where the tool happens to stand.</summary>
    private static void HandedOver(Run run)
    {
        int moved = 0;
        int left = 0;
        bool home = false;
        foreach (ProgramEvent e in run.Trace.Events)
        {
            bool leaves = e.Kind == EventKind.Motion && e.ToHome && !home;
            left = leaves ? e.Line : left;
            home = e.Kind == EventKind.Motion ? e.ToHome : home;
            moved = e.Kind == EventKind.Motion ? e.Line : moved;
            bool over = e.Kind is EventKind.Stop or EventKind.OptionalStop or EventKind.ToolChange or EventKind.End;
            if (over && e.State.Incremental)
            {
                run.Log.Error(
                    "incremental-left-on",
                    moved > 0 ? moved : e.Line,
                    $"G91 is still in force at line {e.Line}, where the program stops, changes the tool or ends",
                    "Write G90 after the incremental moves"
                );
            }
            if (over && e.State.Air && run.Job.Control.AirOff.Length > 0)
            {
                run.Log.Warn(
                    "air-runs",
                    home ? left : e.Line,
                    $"the chip air still blows at line {e.Line}, where the program stops, changes the tool or ends",
                    $"Write {run.Job.Control.AirOff} before it"
                );
            }
        }
    }

    /// <summary>A part that nothing holds must not ride on a table that still moves; a block that its bolts hold may.</summary>
    private static void VacuumLast(Run run)
    {
        int off = 0;
        foreach (ProgramEvent e in run.Trace.Events)
        {
            off = e.Kind switch
            {
                EventKind.VacuumOff => e.Line,
                EventKind.VacuumOn => 0,
                EventKind.Motion
                or EventKind.ToolChange
                or EventKind.Spindle
                or EventKind.VacuumWait
                or EventKind.Dwell
                or EventKind.Stop
                or EventKind.OptionalStop
                or EventKind.End => off,
            };
            bool bolted = run.Setup != Setup.Trim && e.State.Bolted;
            if (off > 0 && !bolted && e.Kind == EventKind.Motion && e.Motion.From != e.Motion.To)
            {
                run.Log.Error(
                    "vacuum-off-early",
                    off,
                    $"the vacuum goes off before the move of line {e.Line}: what it held may slide",
                    "Switch it off after the last move"
                );
                return;
            }
        }
    }

    private static void End(Run run)
    {
        ProgramEvent end = run.Trace.Events.LastOrDefault(e => e.Kind == EventKind.End);
        if (end.Kind != EventKind.End)
        {
            return;
        }
        if (end.State.VacuumOn && run.Job.Control.VacuumOff.Length > 0)
        {
            run.Log.Warn(
                "vacuum-left-on",
                end.Line,
                "the program ends with the vacuum on",
                $"Write {run.Job.Control.VacuumOff} after the home move"
            );
        }
        string missing = NotHome(run);
        if (missing.Length > 0)
        {
            run.Log.Error(
                "home-missing",
                end.Line,
                $"the program ends without the home move of {missing}",
                $"Write {string.Join(" / ", run.Job.Control.Home)} before the end"
            );
        }
    }

    /// <summary>The axes that the control's home lines name and that did not go home after the last work.</summary>
    private static string NotHome(Run run)
    {
        int work = run
            .Trace.Events.Where(e => e.Kind == EventKind.Motion && !e.ToHome)
            .Select(e => e.Line)
            .DefaultIfEmpty(0)
            .Max();
        HashSet<char> home =
        [
            .. run
                .Trace.Blocks.Where(b =>
                    b.Line >= work && b.Words.Any(w => w.Letter == 'G' && w.Tenths is 280 or 300 or 530)
                )
                .SelectMany(b => b.Words)
                .Select(w => w.Letter),
        ];
        string said = string.Concat(run.Job.Control.Home).ToUpperInvariant();
        char[] missing =
        [
            .. "XYZ".Where(axis => said.Contains(axis, StringComparison.Ordinal) && !home.Contains(axis)),
        ];
        return string.Join(' ', missing);
    }
}
