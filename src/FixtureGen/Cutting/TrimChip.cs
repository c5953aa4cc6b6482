using FixtureGen.Model;

namespace FixtureGen.Cutting;

/// <summary>Cutting force of the production trim: what one pass takes of the shell's greatest thickness, a slot of the cutter's width.</summary>
internal static class TrimChip
{
    public static CutForce Cutting(Job job, Tool tool)
    {
        CutData data = TrimFeeds.For(job, tool);
        return CuttingForce.Peak(
            tool,
            job.ShellMaterial,
            TrimFeeds.PassDepth(job, data),
            tool.Diameter,
            data.ChipLoad,
            job.DullFactor
        );
    }

    /// <summary>A mark's groove, as wide as the point is at its depth. The cone presses the shell down, which is not counted.</summary>
    /// <param name="higher">By how much the face may stand above where the mark is cut for, mm: so much deeper it is cut.</param>
    public static CutForce Engraving(Job job, Tool tool, double higher)
    {
        double depth = job.Rules.EngraveDepth + higher;
        double width = EngraverFeeds.WidthAt(tool, depth);
        Tool atDepth = tool with { Diameter = width, Helix = HelixDirection.Straight };
        return CuttingForce.Peak(atDepth, job.ShellMaterial, depth, width, AtDepth(job, tool).ChipLoad, job.DullFactor);
    }

    /// <summary>Feed of the trim with this cutter, mm/min.</summary>
    public static double CuttingFeed(Job job, Tool tool) => TrimFeeds.For(job, tool).Feed;

    /// <summary>Feed of marks with this engraver, mm/min.</summary>
    public static double EngravingFeed(Job job, Tool tool) => AtDepth(job, tool).Feed;

    private static CutData AtDepth(Job job, Tool tool) =>
        EngraverFeeds.For(
            tool,
            EngraverFeeds.WidthAt(tool, job.Rules.EngraveDepth),
            job.ShellMaterial,
            job.Plate.Machine
        );
}
