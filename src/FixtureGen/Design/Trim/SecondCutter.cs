using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Trim;

/// <summary>
/// Cutouts that the trim cutter does not fit into, cut by a thinner end mill of the rack: one for all of them where one does, the thickest,
/// else for each its own.
/// </summary>
internal static class SecondCutter
{
    /// <summary>End mills thinner than the trim cutter that reach through the thickest shell, the thickest first.</summary>
    public static IEnumerable<Tool> Candidates(Job job) =>
        job
            .Tools.Where(t =>
                t.Kind == ToolKind.EndMill
                && t.Diameter < job.TrimTool.Diameter - 1e-9
                && t.FluteLength >= job.Shell.ThicknessMax + job.Rules.TipBelowShell
            )
            .OrderByDescending(t => t.Diameter)
            .ThenBy(t => t.Name, StringComparer.Ordinal);

    /// <summary>Whether a cutter goes all the way round inside a cutout, in one piece.</summary>
    public static bool Fits(Contour cutout, Tool tool, Kernel kernel) =>
        kernel.Offset(Region.From(Contours.Ccw(cutout)), -tool.Radius).Length == 1;

    /// <summary>
    /// The cutter of each cutout, by its index: the trim cutter where it fits, and the trim cutter too where the job wants no other or
    /// none fits, for the finding that is then due.
    /// </summary>
    public static ImmutableArray<Tool> ForCutouts(ImmutableArray<Contour> cutouts, Job job, Kernel kernel)
    {
        bool[] small = [.. cutouts.Select(c => !Fits(c, job.TrimTool, kernel))];
        if (job.SmallHoles != SmallHoles.SecondCutter || !small.Any(s => s))
        {
            return [.. cutouts.Select(_ => job.TrimTool)];
        }
        Tool[] candidates = [.. Candidates(job)];
        Contour[] wanted = [.. cutouts.Where((_, i) => small[i])];
        Tool? common = candidates.FirstOrDefault(t => wanted.All(c => Fits(c, t, kernel)));
        return
        [
            .. cutouts.Select(
                (c, i) =>
                    !small[i]
                        ? job.TrimTool
                        : common ?? candidates.FirstOrDefault(t => Fits(c, t, kernel)) ?? job.TrimTool
            ),
        ];
    }
}
