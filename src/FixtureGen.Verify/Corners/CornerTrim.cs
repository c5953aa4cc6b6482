using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Corners;

/// <summary>
/// The trim over the finished block: a cutter with its run-out and a tool that is longer touch nothing, and one that is shorter still
/// goes through the shell. Shank and holder are looked at against the block as well as against the shell.
/// </summary>
internal static class CornerTrim
{
    public static void Check(Run run, BlockGrid block)
    {
        Carver carver = new(block);
        double through = double.MaxValue;
        foreach ((_, _, Motion motion) in run.Motions())
        {
            if (run.CutterOf(motion) is not { } cutter || run.IsMark(motion, cutter))
            {
                continue;
            }
            Tool tool = cutter.Tool;
            double low = Run.Low(motion) - Corner.ToolLength;
            Piece piece = Piece.From(motion);
            Meets(run, carver, motion, piece, cutter.Radius + tool.RunOut, low, "cutter");
            Meets(run, carver, motion, piece, tool.ShankDiameter / 2, low + tool.FluteLength, "shank");
            Meets(run, carver, motion, piece, tool.HolderDiameter / 2, low + tool.StickOut, "holder");
            through =
                Run.IsFeed(motion) && tool.Kind != ToolKind.Drill
                    ? Math.Min(through, Run.Low(motion) + Corner.ToolLength)
                    : through;
        }
        Drilled(run);
        double uncut = through - run.Design.FixtureHeight;
        if (uncut > 0 && through < double.MaxValue && !run.Design.TrimCuts.IsEmpty)
        {
            run.Log.Error(
                "corner",
                0,
                $"with a tool {Corner.ToolLength:0.###} mm shorter the trim leaves {uncut:0.###} mm of the shell",
                "Let the tip go deeper below the shell"
            );
        }
    }

    /// <summary>A drill's corners come through the shell later than its point: each hole is asked for itself.</summary>
    private static void Drilled(Run run)
    {
        foreach (DrilledHole hole in run.Design.DrilledHoles)
        {
            Motion[] strokes =
            [
                .. run.Motions()
                    .Select(m => m.Motion)
                    .Where(m => Run.IsFeed(m) && m.Tool == hole.Tool.Number)
                    .Where(m => m.To.Xy.DistanceTo(hole.At) < hole.Tool.Radius),
            ];
            double low = strokes.Select(Run.Low).DefaultIfEmpty(double.MaxValue).Min();
            double uncut = low + hole.Tool.ConeHeight + Corner.ToolLength - run.Design.FixtureHeight;
            if (uncut > 0 && strokes.Length > 0)
            {
                run.Log.Error(
                    "corner",
                    strokes[^1].Line,
                    $"with a tool {Corner.ToolLength:0.###} mm shorter {uncut:0.###} mm of the shell stay at the edge of {hole.Name}",
                    "Let the drill's point go deeper",
                    hole.At
                );
            }
        }
    }

    private static void Meets(Run run, Carver carver, Motion motion, Piece piece, double radius, double z, string part)
    {
        if (z < run.Design.FixtureHeight && carver.Highest(piece, radius) is { } highest && highest > z)
        {
            run.Log.Error(
                "corner",
                motion.Line,
                $"with its run-out and a tool {Corner.ToolLength:0.###} mm longer the {part} meets the block, {highest - z:0.###} mm",
                "Make the relief wider or deeper",
                motion.To.Xy
            );
        }
    }
}
