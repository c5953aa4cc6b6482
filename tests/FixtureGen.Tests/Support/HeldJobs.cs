using FixtureGen.Model;

namespace FixtureGen.Tests.Support;

/// <summary>Jobs for tests that ask the judge about all but how far the hold is below the limits.</summary>
internal static class HeldJobs
{
    /// <summary>
    /// What is known not to be held in the worst case yet: the demo shop's friction at its least, its shells on magnets alone, and in
    /// metal the step into the wall at full depth and feed that ends a helix's lap (1.87 in plumb-pouch). Friction counts at its
    /// nominal value here, magnets are not asked about, and a block of metal may be held 1.8 times.
    /// </summary>
    public static Job Nominal(Job job) =>
        job with
        {
            ShellFriction = (job.ShellFriction ?? job.BlockMaterial.ShellFriction).Nominal,
            Limits = job.Limits with { MagnetFactor = 0 },
        };
}
