using FixtureGen.Model;

namespace FixtureGen.Holding.Sliding;

internal static class Friction
{
    /// <summary>
    /// Friction of the shell on the block: the job's own figure, else the block material's. With the seal up the cord's
    /// friction is not counted: a cord must shear by about a millimetre before it grips, and a part that moved that far is scrap.
    /// </summary>
    public static Interval ShellOnBlock(Job job) => job.ShellFriction ?? job.BlockMaterial.ShellFriction;
}
