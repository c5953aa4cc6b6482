using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Checks;

/// <summary>
/// What a cut asks of cutter and spindle, by the material it was seen to take. At the step-down a cutter may run in a full slot;
/// deeper it may only finish a wall. Power P = Q kc (metal cutting's common chain, Machinery's Handbook, speeds and feeds) with
/// the upper end of the material's specific force.
/// </summary>
internal sealed class LoadCheck(Run run, SlotScan slots)
{
    public void Check()
    {
        foreach ((int index, _, Motion motion) in run.Motions())
        {
            Tally tally = run.Tallies[index];
            if (run.CutterOf(motion) is not { } cutter || tally.Removed <= JudgeRules.NoMaterial)
            {
                continue;
            }
            if (cutter.Tool.Kind != ToolKind.Drill)
            {
                Width(index, motion, cutter, tally);
            }
            Power(motion, cutter.Tool, tally);
        }
    }

    private void Width(int index, Motion motion, Cutter cutter, Tally tally)
    {
        Tool tool = cutter.Tool;
        double limit = run.StepDown(tool);
        if (tally.Deepest <= limit + JudgeRules.StepSlack)
        {
            return;
        }
        double width = tally.DeepMm2 / Math.Max(RimLength(motion, cutter), tool.Diameter);
        double finish = JudgeRules.FinishWidth * tool.Diameter;
        double slot = width > finish ? width : slots.Widest(index);
        if (slot > tool.Diameter / 2)
        {
            run.Log.Error(
                "step-down",
                motion.Line,
                $"{tool.Name} takes {tally.Deepest:0.##} mm at once over {slot:0.##} mm of its width, {limit:0.##} mm is its limit",
                "Cut in more steps; a pass before this one may be missing",
                motion.To.Xy
            );
        }
        else if (width > finish)
        {
            run.Log.Error(
                "engagement",
                motion.Line,
                $"{tool.Name} cuts {width:0.##} mm wide at {tally.Deepest:0.##} mm depth; beyond its step-down of {limit:0.##} mm it may finish {finish:0.##} mm",
                "Cut narrower or in more steps; a pass before this one may be missing",
                motion.To.Xy
            );
        }
    }

    private void Power(Motion motion, Tool tool, Tally tally)
    {
        double flat = Piece.From(motion).Length;
        double dz = motion.To.Z - motion.From.Z;
        double length = Math.Sqrt((flat * flat) + (dz * dz));
        double has = run.Job.Plate.Machine.SpindlePowerKw;
        if (length < tool.Diameter || has <= 0)
        {
            return;
        }
        double perMinute = tally.Removed / length * motion.FeedMmPerMin;
        double asks = perMinute * run.Material.SpecificForceMax / 60e6;
        if (asks > has)
        {
            run.Log.Error(
                "spindle-power",
                motion.Line,
                $"{tool.Name} takes {perMinute / 1000:0.#} cm3/min, which asks {asks:0.00} kW of a spindle of {has:0.00} kW",
                "Feed slower, or cut shallower or narrower",
                motion.To.Xy
            );
        }
    }

    /// <summary>How far the cutter's outer flank travels: on an arc, more than its axis.</summary>
    private static double RimLength(Motion motion, Cutter cutter)
    {
        Piece piece = Piece.From(motion);
        return piece.IsArc ? piece.Length * (piece.R + cutter.Radius) / piece.R : piece.Length;
    }
}
