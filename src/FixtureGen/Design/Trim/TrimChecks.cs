using FixtureGen.Model;

namespace FixtureGen.Design.Trim;

/// <summary>What the trim asks of the shop files before any path is drawn.</summary>
internal static class TrimChecks
{
    /// <summary>The most of the shell's thickness that an engraved mark may take (common practice, no source).</summary>
    private const double EngraveShare = 0.5;

    public static IEnumerable<Finding> Shop(Part placed, Job job)
    {
        Tool tool = job.TrimTool;
        if (tool.Kind != ToolKind.EndMill)
        {
            yield return TrimFindings.NotAnEndMill(tool);
        }
        double deep = job.Shell.ThicknessMax + job.Rules.TipBelowShell;
        if (tool.FluteLength < deep)
        {
            string[] longer =
            [
                .. job
                    .Tools.Where(t =>
                        t.Kind == ToolKind.EndMill && t.Diameter <= tool.Diameter && t.FluteLength >= deep
                    )
                    .OrderByDescending(t => t.Diameter)
                    .Select(t => t.Name),
            ];
            yield return TrimFindings.FlutesTooShort(tool, deep, longer, tool.FluteLength - job.Shell.ThicknessMax);
        }
        if (job.Rules.TabThickness >= job.Shell.Thickness)
        {
            yield return TrimFindings.TabTooThick(job.Rules.TabThickness, job.Shell.Thickness);
        }
        double needed = job.Shell.SlackMax + tool.RunOut;
        if (needed > job.Rules.SideClearance)
        {
            yield return TrimFindings.ClearanceShort(job.Rules.SideClearance, job.Shell.SlackMax, tool.RunOut, needed);
        }
        if (placed.Engravings.IsEmpty)
        {
            yield break;
        }
        if (!job.Tools.Any(t => t.Kind == ToolKind.Engraver))
        {
            yield return TrimFindings.NoEngraver();
        }
        if (job.Rules.EngraveDepth > EngraveShare * job.Shell.Thickness)
        {
            yield return TrimFindings.EngravedTooDeep(job.Rules.EngraveDepth, EngraveShare * job.Shell.Thickness);
        }
    }
}
