using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Checks;

/// <summary>What a cutter can bear: flutes, plunging, ramp angle, drills going sideways.</summary>
internal static class CutCheck
{
    public static void Check(Run run)
    {
        foreach ((int index, Reading.ProgramEvent e, Motion motion) in run.Motions())
        {
            Tally tally = run.Tallies[index];
            if (run.CutterOf(motion) is not { } cutter || tally.Removed <= JudgeRules.NoMaterial)
            {
                continue;
            }
            double length = Piece.From(motion).Length;
            Flutes(run, motion, cutter, tally);
            Down(run, motion, cutter, tally, length);
            if (cutter.Tool.Kind == ToolKind.Drill && length > 0.01)
            {
                run.Log.Error(
                    "drill-sideways",
                    motion.Line,
                    $"a drill goes {length:0.##} mm sideways in material",
                    "Drills only go down: use an end mill here",
                    motion.To.Xy
                );
            }
        }
    }

    private static void Flutes(Run run, Motion motion, Cutter cutter, Tally tally)
    {
        Tool tool = cutter.Tool;
        if (tally.Deepest > tool.FluteLength + JudgeRules.StepSlack)
        {
            run.Log.Error(
                "flutes-too-short",
                motion.Line,
                $"{tool.Name} cuts {tally.Deepest:0.##} mm deep, its flutes are {tool.FluteLength:0.##} mm long",
                "Cut in more steps",
                motion.To.Xy
            );
        }
    }

    private static void Down(Run run, Motion motion, Cutter cutter, Tally tally, double length)
    {
        Tool tool = cutter.Tool;
        double down = motion.From.Z - motion.To.Z;
        if (down <= 1e-6 || tool.Kind is ToolKind.Drill or ToolKind.Engraver)
        {
            return;
        }
        if (length < 1e-6)
        {
            bool block = run.Setup != Setup.Trim && tally.Deepest > JudgeRules.StraightDown;
            if (!tool.CentreCutting || (block && tool.MaxRampDeg < 89))
            {
                run.Log.Error(
                    "plunge",
                    motion.Line,
                    $"{tool.Name} goes straight down {tally.Deepest:0.##} mm into material; {tool.MaxRampDeg:0.#} degrees is its steepest ramp",
                    "Ramp or helix in",
                    motion.To.Xy
                );
            }
            return;
        }
        double angle = Math.Atan2(Math.Max(0, down - JudgeRules.HeightRounding), length) * 180 / Math.PI;
        double most = Math.Min(OrSteep(tool.MaxRampDeg), OrSteep(run.Material.MaxRampDeg));
        if (angle > most + JudgeRules.RampSlackDeg && tally.Deepest > JudgeRules.StraightDown)
        {
            run.Log.Error(
                "ramp-steep",
                motion.Line,
                $"{tool.Name} ramps {down:0.##} mm down at {angle:0.#} degrees, {most:0.#} is its limit in {run.Material.Name}",
                "Make the ramp longer",
                motion.To.Xy
            );
        }
    }

    private static double OrSteep(double limit) => limit > 0 ? limit : 90;
}
