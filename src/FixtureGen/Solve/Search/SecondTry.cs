using FixtureGen.Design.Trim;
using FixtureGen.Model;

namespace FixtureGen.Solve.Search;

/// <summary>
/// A job that says nothing of inner corners is solved with its trim cutter alone; where that is refused for a corner it is tried with a
/// second cutter, and what came of it is told.
/// </summary>
internal static class SecondTry
{
    /// <param name="solve">Solves the job as it is given.</param>
    public static Stage<Solved> Solve(Job job, Func<Job, Stage<Solved>> solve)
    {
        Stage<Solved> first = solve(job);
        if (!IsCorner(first) || job.InnerCorners != InnerCorners.Unsaid)
        {
            return first;
        }
        Stage<Solved> second = solve(job with { InnerCorners = InnerCorners.SecondCutter });
        if (IsCorner(second))
        {
            return first;
        }
        return second.Value?.Draft.Begun.Value is { } design
            ? second with
            {
                Findings = [.. second.Findings, TrimFindings.CornersBySecondCutter(design.TrimCuts)],
            }
            : second;
    }

    private static bool IsCorner(Stage<Solved> solved) =>
        solved.Findings.Any(f => f is { Code: "trim-corner-too-tight", Severity: Severity.Error });
}
