using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Shape;

namespace FixtureGen.Verify.Checks;

/// <summary>What a cutter can bear: step-down, flutes, plunging, ramp angle, drills going sideways.</summary>
internal static class CutCheck
{
    public static void Go(Run run)
    {
        foreach ((int index, Reading.ProgramEvent e, Motion motion) in run.Motions())
        {
            Tally tally = run.Tallies[index];
            if (run.CutterOf(motion) is not { } cutter || tally.Removed <= JudgeRules.NoMaterial)
            {
                continue;
            }
            double length = Piece.Of(motion).Length;
            Depth(run, motion, cutter, tally, length);
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

    private static void Depth(Run run, Motion motion, Cutter cutter, Tally tally, double length)
    {
        Tool tool = cutter.Tool;
        if (tool.FluteLength > 0 && tally.Deepest > tool.FluteLength + JudgeRules.StepSlack)
        {
            run.Log.Error(
                "flutes-too-short",
                motion.Line,
                $"{tool.Name} cuts {tally.Deepest:0.##} mm deep, its flutes are {tool.FluteLength:0.##} mm long",
                "Cut in more steps",
                motion.To.Xy
            );
        }
        if (tool.Kind == ToolKind.Drill)
        {
            return;
        }
        double limit = run.StepDown(tool);
        double width = tally.DeepMm2 / Math.Max(RimLength(motion, cutter), tool.Diameter / 2);
        if (width > JudgeRules.FinishWidth * tool.Diameter && tally.Deepest > limit + JudgeRules.StepSlack)
        {
            run.Log.Error(
                "step-down",
                motion.Line,
                $"{tool.Name} takes {tally.Deepest:0.##} mm at once over {width:0.##} mm of its width, {limit:0.##} mm is its limit",
                "Cut in more steps; a pass before this one may be missing",
                motion.To.Xy
            );
        }
    }

    /// <summary>How far the cutter's outer flank travels: on an arc, more than its axis.</summary>
    private static double RimLength(Motion motion, Cutter cutter)
    {
        Piece piece = Piece.Of(motion);
        return piece.IsArc ? piece.Length * (piece.R + cutter.Radius) / piece.R : piece.Length;
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
        bool steep = tool.MaxRampDeg > 0 && angle > tool.MaxRampDeg + JudgeRules.RampSlackDeg;
        if (steep && (!tool.CentreCutting || down > JudgeRules.ShortRamp * tool.Diameter))
        {
            run.Log.Error(
                "ramp-steep",
                motion.Line,
                $"{tool.Name} ramps {down:0.##} mm down at {angle:0.#} degrees, {tool.MaxRampDeg:0.#} is its limit",
                "Make the ramp longer",
                motion.To.Xy
            );
        }
    }
}
