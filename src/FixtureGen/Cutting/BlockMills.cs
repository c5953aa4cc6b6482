using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Cutting;

/// <summary>
/// The end mills that cut blocks. Trim cutters are kept sharp for the shells: the job's own, and single-flute ones where the shop has others.
/// </summary>
internal static class BlockMills
{
    /// <summary>Largest first.</summary>
    public static ImmutableArray<Tool> For(Job job)
    {
        Tool[] mills = [.. job.Tools.Where(t => t.Kind == ToolKind.EndMill && t != job.TrimTool)];
        int least = mills.Any(t => t.Flutes > 1) ? 2 : 1;
        return [.. mills.Where(t => t.Flutes >= least).OrderByDescending(t => t.Diameter).ThenBy(t => t.Number)];
    }
}
