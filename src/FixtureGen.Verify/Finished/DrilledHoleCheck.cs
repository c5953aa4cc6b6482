using FixtureGen.Model;
using FixtureGen.Verify.Facts;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Finished;

/// <summary>
/// Drills in a trim: each stroke stands over a hole that is to be drilled, with its drill, no deeper than planned, and every such hole is
/// drilled until the drill's corners are through the shell.
/// </summary>
internal static class DrilledHoleCheck
{
    public static void Check(Run run)
    {
        Dictionary<DrilledHole, (double Low, int Line)> lowest = new(ReferenceEqualityComparer.Instance);
        foreach ((_, _, Motion motion) in run.Motions())
        {
            bool drills =
                Run.IsFeed(motion)
                && Run.Low(motion) < run.StockTop
                && run.CutterOf(motion) is { Tool.Kind: ToolKind.Drill };
            if (!drills)
            {
                continue;
            }
            DrilledHole? hole = run.Design.DrilledHoles.MinBy(h => h.At.DistanceTo(motion.To.Xy));
            double off = hole?.At.DistanceTo(motion.To.Xy) ?? double.MaxValue;
            if (hole is null || off > Fits.Place)
            {
                Astray(run, motion, hole, off);
                continue;
            }
            Stroke(run, motion, hole);
            double before = lowest.TryGetValue(hole, out (double Low, int Line) at) ? at.Low : double.MaxValue;
            lowest[hole] = (Math.Min(Run.Low(motion), before), motion.Line);
        }
        foreach (DrilledHole hole in run.Design.DrilledHoles)
        {
            Through(run, hole, lowest.TryGetValue(hole, out (double Low, int Line) end) ? end : null);
        }
    }

    private static void Stroke(Run run, Motion motion, DrilledHole hole)
    {
        if (motion.Tool != hole.Tool.Number)
        {
            run.Log.Error(
                "trim-tool",
                motion.Line,
                $"tool {motion.Tool} drills {hole.Name}, it was planned for {hole.Tool.Name}",
                $"Call T{hole.Tool.Number}",
                motion.To.Xy
            );
        }
        double deep = hole.FloorZ - Run.Low(motion);
        if (deep > run.Limits.Gouge)
        {
            run.Log.Error(
                "trim-too-deep",
                motion.Line,
                $"the drill's point goes to Z {Run.Low(motion):0.###}, {deep:0.###} mm below the floor of {hole.Name}",
                "Correct the height",
                motion.To.Xy
            );
        }
    }

    private static void Astray(Run run, Motion motion, DrilledHole? hole, double off) =>
        run.Log.Error(
            "hole-off-place",
            motion.Line,
            hole is null
                ? "a drill goes into the shell, and no hole of it is to be drilled"
                : FormattableString.Invariant(
                    $"a drill goes into the shell {off:0.###} mm beside {hole.Name}, {Fits.Place:0.##} mm is allowed"
                ),
            "Correct the position",
            motion.To.Xy
        );

    private static void Through(Run run, DrilledHole hole, (double Low, int Line)? end)
    {
        double corner = (end?.Low ?? run.StockTop) + hole.Tool.ConeHeight;
        double uncut = corner - run.Design.FixtureHeight;
        if (uncut > 0)
        {
            run.Log.Error(
                "edge-left",
                end?.Line ?? 0,
                end is null
                    ? FormattableString.Invariant(
                        $"{hole.Name} at X {hole.At.X:0.##} Y {hole.At.Y:0.##} is not drilled"
                    )
                    : FormattableString.Invariant($"{uncut:0.###} mm of the shell stay at the edge of {hole.Name}"),
                "Let the drill's point go as deep as planned",
                hole.At
            );
        }
    }
}
