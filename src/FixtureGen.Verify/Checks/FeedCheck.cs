using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Reading;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Checks;

/// <summary>
/// Spindle speed and chip load against the shop's own data: a feed per tooth above the chart's greatest, raised by what a narrow
/// cut thins the chip, or so far below its least that the cutter rubs.
/// </summary>
internal static class FeedCheck
{
    public static void Check(Run run)
    {
        int told = 0;
        foreach ((int index, ProgramEvent e, Motion motion) in run.Motions())
        {
            if (!Run.IsFeed(motion) || run.CutterOf(motion) is not { } cutter || e.State.Rpm <= 0)
            {
                continue;
            }
            Speed(run, e, motion, cutter.Tool);
            if (run.Tallies[index].Removed > JudgeRules.NoMaterial || run.IsMark(motion, cutter))
            {
                Surface(run, e, motion, cutter);
            }
            if (motion.FeedMmPerMin > 0 && motion.Line != told && ChipLoad(run, e, motion, cutter, run.Tallies[index]))
            {
                told = motion.Line;
            }
        }
    }

    private static void Speed(Run run, ProgramEvent e, Motion motion, Tool tool)
    {
        Machine machine = run.Job.Plate.Machine;
        double most = tool.MaxRpm > 0 ? Math.Min(machine.MaxSpindleRpm, tool.MaxRpm) : machine.MaxSpindleRpm;
        if (e.State.Rpm > most + 0.5 || e.State.Rpm < machine.MinSpindleRpm - 0.5)
        {
            run.Log.Error(
                "spindle-speed",
                e.Line,
                $"{e.State.Rpm:0} rev/min with {tool.Name}, {machine.MinSpindleRpm:0} to {most:0} is possible",
                "Correct S",
                motion.To.Xy
            );
        }
    }

    /// <summary>How fast the rim passes what it cuts, pi D n, against the shop's own greatest for the material; a cone by the depth it cuts.</summary>
    private static void Surface(Run run, ProgramEvent e, Motion motion, Cutter cutter)
    {
        double depth = Math.Max(run.Face - Run.Low(motion), JudgeRules.LeastCone);
        double metres = 2 * Math.PI * cutter.RadiusAt(depth) * e.State.Rpm / 1000;
        double most = (cutter.Tool.Kind, run.Material) switch
        {
            (ToolKind.Drill, { Drilling: { } drilling }) => drilling.MaxSpeedMPerMin,
            (ToolKind.FaceMill, { Facing: { } facing }) => facing.MaxSpeedMPerMin,
            _ => run.Material.MaxSpeedMPerMin,
        };
        if (metres > most * JudgeRules.FastSurface)
        {
            run.Log.Error(
                "surface-speed",
                e.Line,
                $"{cutter.Tool.Name} cuts {run.Material.Name} at {metres:0} m/min, {most:0} m/min is the greatest",
                "Lower S, and F with it",
                motion.To.Xy
            );
        }
    }

    private static bool ChipLoad(Run run, ProgramEvent e, Motion motion, Cutter cutter, Tally tally)
    {
        Tool tool = cutter.Tool;
        Piece piece = Piece.From(motion);
        double down = motion.From.Z - motion.To.Z;
        bool cuts = tally.Removed > JudgeRules.NoMaterial;
        (double least, double most) = Range(run, motion, cutter);
        double chip = motion.FeedMmPerMin / (e.State.Rpm * Math.Max(1, tool.Flutes));
        double rim = piece.IsArc ? chip * (piece.R + cutter.Radius) / piece.R : chip;
        double rubs = Math.Min(
            least * JudgeRules.SlowChip,
            Math.Max(JudgeRules.StillAChip, least * JudgeRules.SlowChip / 2)
        );
        // a mark is cut into the shell, of which no grid tells
        bool slow =
            (cuts || run.IsMark(motion, cutter))
            && (piece.Length > Math.Abs(down) || tool.Kind == ToolKind.Drill)
            && rim < rubs;
        bool fast = (cuts || down > 1e-6) && chip > most * Thinning(piece, cutter, tally) * JudgeRules.FastChip;
        if (slow || fast)
        {
            run.Log.Error(
                "chip-load",
                e.Line,
                $"{(slow ? rim : chip):0.0000} mm a tooth with {tool.Name} is too {(slow ? "slow: it rubs, and plastics melt" : "fast")}; the chart says {least:0.0000} to {most:0.0000}",
                "Correct F or S",
                motion.To.Xy
            );
        }
        return slow || fast;
    }

    /// <summary>The tool's own figures where it has them, else the material's chart at its diameter: for a cone, at the depth it cuts.</summary>
    private static (double Least, double Most) Range(Run run, Motion motion, Cutter cutter)
    {
        Tool tool = cutter.Tool;
        if (tool.ChipLoadIn(run.Material) is { } own)
        {
            return (own.MinMm, own.MaxMm);
        }
        if (tool.Kind == ToolKind.Drill && run.Material.Drilling is { } drilling)
        {
            return FeedChart.PerLip(drilling, tool);
        }
        if (tool.Kind == ToolKind.FaceMill && run.Material.Facing is { } facing)
        {
            return (facing.MinMm, facing.MaxMm);
        }
        double depth = Math.Max(run.Face - Run.Low(motion), JudgeRules.LeastCone);
        return FeedChart.Range(
            run.Material,
            tool.Kind == ToolKind.Engraver ? 2 * cutter.RadiusAt(depth) : tool.Diameter
        );
    }

    /// <summary>
    /// How much more feed a narrow cut bears than a full one: 1 / (2 sqrt(a (1 - a))) for a width of a diameters below one half
    /// (radial chip thinning, Machinery's Handbook, milling feeds). The width is the mean of what was taken.
    /// </summary>
    private static double Thinning(Piece piece, Cutter cutter, Tally tally)
    {
        double rim = piece.IsArc ? piece.Length * (piece.R + cutter.Radius) / piece.R : piece.Length;
        if (rim < cutter.Tool.Diameter / 2 || tally.Deepest <= 0)
        {
            return 1;
        }
        double a = Math.Clamp(
            tally.Removed / (rim * tally.Deepest * cutter.Tool.Diameter),
            JudgeRules.ThinnestCut,
            0.5
        );
        return 1 / (2 * Math.Sqrt(a * (1 - a)));
    }
}
