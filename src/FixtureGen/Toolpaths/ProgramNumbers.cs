using FixtureGen.Model;

namespace FixtureGen.Toolpaths;

/// <summary>
/// A job has a run of numbers from its own upward: trim (the one on the label), top, underside. A job without a number takes
/// the control's least.
/// </summary>
public static class ProgramNumbers
{
    /// <summary>How many numbers a job takes.</summary>
    public const int PerJob = 3;

    /// <summary>The number that a setup's program is called by. Not checked against the control's range: the writer does that.</summary>
    public static int ForSetup(Job job, Setup setup)
    {
        int first = job.ProgramNumber ?? job.Control.ProgramNumberMin;
        return setup switch
        {
            Setup.Trim => first,
            Setup.Top => first + 1,
            Setup.Underside => first + 2,
        };
    }
}
