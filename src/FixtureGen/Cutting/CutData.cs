namespace FixtureGen.Cutting;

/// <summary>
/// How a tool runs in one cut: spindle in rev/min, feeds in mm/min, steps in mm, chip load mm a tooth. MaxRampDeg is the
/// steepest descent. LimitedBy names the limit that set the speed and the one that set the feed.
/// </summary>
internal sealed record CutData(
    double Rpm,
    double Feed,
    double Plunge,
    double StepDown,
    double StepOver,
    double ChipLoad,
    double MaxRampDeg,
    string LimitedBy
)
{
    /// <summary>The same for a cut of this depth, in mm: equal passes, StepDown what each takes.</summary>
    public CutData Over(double depth) => this with { StepDown = depth / Passes.Count(depth, StepDown) };
}
