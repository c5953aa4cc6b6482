using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Checks;

/// <summary>
/// A drill's stroke without a peck: past some diameters chips no longer leave the flutes. Pecking starts at three diameters (common
/// practice, no source; a shop may go a little farther before it hurts).
/// </summary>
internal static class DrillCheck
{
    private const double MostDiameters = 4;

    public static void Check(Run run)
    {
        double stroke = 0;
        int told = 0;
        foreach ((int index, _, Motion motion) in run.Motions())
        {
            bool down =
                Run.IsFeed(motion)
                && motion.To.Z < motion.From.Z
                && run.CutterOf(motion) is { Tool.Kind: ToolKind.Drill };
            if (!down)
            {
                stroke = 0;
                continue;
            }
            Cutter cutter = run.CutterOf(motion)!;
            double point = (cutter.Radius - cutter.TipRadius) * cutter.Slope;
            stroke += Math.Min(run.Tallies[index].Deepest, motion.From.Z - motion.To.Z + point);
            if (stroke - point > (MostDiameters * cutter.Tool.Diameter) + JudgeRules.StepSlack && told != motion.Line)
            {
                told = motion.Line;
                run.Log.Error(
                    "peck-missing",
                    motion.Line,
                    $"{cutter.Tool.Name} drills {stroke - point:0.#} mm in one stroke, {MostDiameters:0} diameters are {MostDiameters * cutter.Tool.Diameter:0.#} mm",
                    "Peck: retract every diameter or two",
                    motion.To.Xy
                );
            }
        }
    }
}
