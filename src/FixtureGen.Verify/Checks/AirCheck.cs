using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Reading;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Checks;

/// <summary>
/// Feeding sideways above the ground it is meant to cut: a step down is missing or came too late. A stretch of a contour that runs
/// where another one was cut before is no such slip: the rest of its level cuts.
/// </summary>
internal sealed class AirCheck(Run run)
{
    private readonly List<(int Index, double Gap)> _above = [];

    /// <summary>To be called once the motion was carved.</summary>
    public void After(int index, Motion motion, Cutter cutter, Carver carver)
    {
        Piece piece = Piece.From(motion);
        if (
            Run.IsFeed(motion)
            && IsLevel(motion)
            && piece.Length >= cutter.Radius / 2
            && run.Tallies[index].Removed <= JudgeRules.NoMaterial
            && carver.Highest(piece, cutter.Radius) is { } highest
            && Run.Low(motion) - highest > JudgeRules.AirGap
        )
        {
            _above.Add((index, Run.Low(motion) - highest));
        }
    }

    /// <summary>To be called once all was carved.</summary>
    public void Say()
    {
        foreach ((int index, double gap) in _above)
        {
            if (CutsOn(index, 1) || CutsOn(index, -1))
            {
                continue;
            }
            Motion motion = run.Trace.Events[index].Motion;
            run.Log.Warn(
                "cuts-air",
                motion.Line,
                $"the cutter feeds sideways {gap:0.###} mm above everything under it",
                "A step down is missing or came too late",
                motion.To.Xy
            );
        }
    }

    /// <summary>Whether the level goes on cutting, before or after a motion, without leaving its height.</summary>
    private bool CutsOn(int index, int step)
    {
        double z = run.Trace.Events[index].Motion.To.Z;
        for (int i = index + step; i >= 0 && i < run.Trace.Events.Length; i += step)
        {
            ProgramEvent e = run.Trace.Events[i];
            if (e.Kind != EventKind.Motion || !Run.IsFeed(e.Motion) || !IsLevel(e.Motion) || e.Motion.To.Z != z)
            {
                return false;
            }
            if (run.Tallies[i].Removed > JudgeRules.NoMaterial)
            {
                return true;
            }
        }
        return false;
    }

    private static bool IsLevel(Motion motion) => Math.Abs(motion.To.Z - motion.From.Z) < 1e-6;
}
