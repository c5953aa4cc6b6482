using FixtureGen.Model;
using FixtureGen.Verify.Carving;
using FixtureGen.Verify.Runs;
using FixtureGen.Verify.Verdicts;

namespace FixtureGen.Verify.Finished;

/// <summary>
/// The floor left under every pocket of the finished block, over the plate's face or over what was cut from below, whatever the
/// design says: where the block is not cut through, it keeps the least floor. The skin over the plate is the least of all.
/// </summary>
internal sealed class FloorCheck(Run run, Heights top, Heights bottom)
{
    private readonly double _least = Math.Max(run.Job.Rules.LeastFloor, run.Job.Plate.Skin);

    /// <summary>Top and bottom are the finished block's heights cell by cell in the run's frame.</summary>
    public void Check()
    {
        float limit = (float)(_least - run.Limits.Gouge);
        List<int> thin = HeightScan.Within(bottom, top, 1e-3f, limit);
        if (thin.Count == 0)
        {
            return;
        }
        WorstPerLine worst = new();
        foreach (int cell in thin)
        {
            Point2 at = run.Grid.Centre(cell);
            int line = run.Index.FirstBelow(at, bottom.HeightAt(cell) + _least - run.Limits.Gouge)?.Line ?? 0;
            worst.Add(line, bottom.HeightAt(cell) - top.HeightAt(cell), at);
        }
        foreach ((int line, double below, Point2 at) in worst.All)
        {
            run.Log.Error(
                "floor-left",
                line,
                $"{-below:0.###} mm of floor are left at X {at.X:0.##} Y {at.Y:0.##}, {_least:0.###} mm is the least",
                "Cut less deep here, or move what is cut from the other side",
                at
            );
        }
    }
}
