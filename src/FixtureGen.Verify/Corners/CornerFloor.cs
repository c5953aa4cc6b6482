using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Corners;

/// <summary>
/// The floor between cuts from both sides where the blank is thickest: from below a block is cut at heights above the plate, so that
/// what is cut there gets deeper by as much as the blank is thicker, and a longer tool cuts deeper from either side. Of the floor the
/// plate's skin must be left then.
/// </summary>
internal static class CornerFloor
{
    /// <param name="top">Top of the finished block in the run's frame.</param>
    /// <param name="bottom">What was cut from the other side.</param>
    public static void Check(Run run, Heights top, Heights bottom)
    {
        double thicker = run.Job.BlankTolerance + (2 * Corner.ToolLength);
        double least = run.Job.Plate.Skin + thicker;
        if (!run.Design.Removals.Any(r => r.Setup == Setup.Underside))
        {
            return;
        }
        List<int> thin = HeightScan.Within(bottom, top, 1e-3f, (float)least);
        if (thin.Count == 0)
        {
            return;
        }
        int worst = thin.MinBy(c => top.HeightAt(c) - bottom.HeightAt(c));
        double left = top.HeightAt(worst) - bottom.HeightAt(worst) - thicker;
        Point2 at = run.Grid.Centre(worst);
        run.Log.Error(
            "corner",
            run.Index.FirstBelow(at, top.HeightAt(worst) + run.Limits.Gouge)?.Line ?? 0,
            $"with a blank {run.Job.BlankTolerance:0.###} mm thicker and tools {Corner.ToolLength:0.###} mm longer {left:0.###} mm of floor are left at X {at.X:0.##} Y {at.Y:0.##}, {run.Job.Plate.Skin:0.###} mm is the least",
            "Cut less deep here, or measure the blank",
            at
        );
    }
}
