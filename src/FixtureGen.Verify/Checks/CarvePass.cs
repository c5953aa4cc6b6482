using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Holding;
using FixtureGen.Verify.Reading;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Sequence;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Checks;

/// <summary>
/// Carves the grid motion by motion and, before each, looks at what only the block as it stands at that moment can show: rapids
/// through stock, shank and holder against stock, and what the cutter takes.
/// </summary>
internal static class CarvePass
{
    /// <summary>The load of every cut, for a trim what holds the shell by then, and how wide each motion cuts too deep.</summary>
    public static (CutScan Cuts, TrimStates States, SlotScan Slots) Carve(Run run)
    {
        Carver carver = new(run.Grid);
        RapidCheck rapids = new(run);
        SlotScan slots = new(run);
        SealCheck seal = new(run);
        CutScan cuts = new(run);
        TrimStates states = new(run);
        StandingStill still = new(run, carver);
        AirCheck air = new(run);
        FormTops tops = new(run);
        for (int index = 0; index < run.Trace.Events.Length; index++)
        {
            ProgramEvent e = run.Trace.Events[index];
            Motion motion = e.Motion;
            still.Before(e);
            if (e.Kind != EventKind.Motion)
            {
                continue;
            }
            if (Run.Low(motion) >= run.StockTop + JudgeRules.RapidGap)
            {
                if (
                    run.CutterOf(motion) is { } engraver
                    && run.IsMark(motion, engraver)
                    && tops.Rise(motion) is { } rise
                )
                {
                    cuts.Mark(index, e, motion, engraver, states.Before(motion, engraver), rise);
                    continue;
                }
                cuts.Break();
                High(run, motion);
                continue;
            }
            if (run.CutterOf(motion) is not { } cutter)
            {
                if (Run.Low(motion) < run.StockTop)
                {
                    NoTool(run, motion);
                }
                continue;
            }
            int state =
                run.Setup == Setup.Trim
                    ? states.Before(motion, cutter)
                    : BlockOnPlate.State(e.State.VacuumOn && !seal.Opened, e.State.Bolted);
            rapids.Before(motion, cutter);
            if (run.IsMark(motion, cutter))
            {
                cuts.Mark(index, e, motion, cutter, state, 0);
                continue;
            }
            Shank(run, carver, motion, cutter);
            cuts.Before(index, e, motion, cutter, state);
            slots.Before(index, motion, cutter);
            run.Tallies[index] = carver.Cut(motion, cutter, run.StepDown(cutter.Tool) + JudgeRules.StepSlack);
            cuts.After(index, e, motion, cutter, run.Tallies[index], state);
            seal.After(e, motion, cutter, carver, run.Tallies[index]);
            air.After(index, motion, cutter, carver);
        }
        air.Say();
        cuts.Break();
        return (cuts, states, slots);
    }

    private static void High(Run run, Motion motion)
    {
        if (Run.IsFeed(motion) && Piece.From(motion).Length > 0.5)
        {
            run.Log.Warn(
                "cuts-air",
                motion.Line,
                $"the cutter feeds sideways at Z {Run.Low(motion):0.###}, above all stock",
                "A step down is missing or came too late",
                motion.To.Xy
            );
        }
    }

    private static void NoTool(Run run, Motion motion) =>
        run.Log.Error(
            "no-tool",
            motion.Line,
            $"the tip goes down to Z {Run.Low(motion):0.###} with no known tool in the spindle",
            "Change to a tool of the table first",
            motion.To.Xy
        );

    private static void Shank(Run run, Carver carver, Motion motion, Cutter cutter)
    {
        Tool tool = cutter.Tool;
        double low = Run.Low(motion);
        if (tool.ShankDiameter > tool.Diameter + 1e-6)
        {
            Above(run, carver, motion, tool.ShankDiameter / 2, low + tool.FluteLength, "shank");
        }
        Above(run, carver, motion, tool.HolderDiameter / 2, low + tool.StickOut, "holder");
    }

    private static void Above(Run run, Carver carver, Motion motion, double radius, double z, string what)
    {
        if (z >= run.StockTop || radius <= 0)
        {
            return;
        }
        if (carver.Highest(Piece.From(motion), radius) is { } highest && highest > z + 1e-3)
        {
            run.Log.Error(
                $"{what}-hits-block",
                motion.Line,
                $"the tool's {what} stands at Z {z:0.##}, material beside it at Z {highest:0.##}: {highest - z:0.##} mm of contact",
                "Use a longer tool or cut less deep",
                motion.To.Xy
            );
        }
    }
}
