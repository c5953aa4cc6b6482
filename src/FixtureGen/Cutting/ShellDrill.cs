using FixtureGen.Model;

namespace FixtureGen.Cutting;

/// <summary>How a drill runs in the shell, by the drilling chart of its material, and what it does to it.</summary>
internal static class ShellDrill
{
    /// <summary>The lips' corners go this far past the shell's underside, mm (common practice, no source: 0.5 to 0.8 for a through hole).</summary>
    public const double BreakThrough = 0.5;

    /// <exception cref="InvalidOperationException">The material has no drilling chart: nothing of it is drilled.</exception>
    public static CutData Data(Job job, Tool drill) =>
        DrillFeeds.For(drill, job.ShellMaterial, job.Plate.Machine, job.Shell.ThicknessMax)
        ?? throw new InvalidOperationException($"{job.ShellMaterial.Name} has no drilling chart.");

    /// <summary>Peak forces while it breaks through.</summary>
    public static CutForce Force(Job job, Tool drill) =>
        CuttingForce.Drill(drill, job.ShellMaterial, Data(job, drill).ChipLoad, job.DullFactor);
}
