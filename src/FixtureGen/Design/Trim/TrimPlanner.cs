using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;

namespace FixtureGen.Design.Trim;

/// <summary>
/// The production trim: every finished edge followed at the cutter's radius in the scrap, climb (clockwise spindle: the
/// part on the right of travel), cutouts first and the outline last. Marks engraved on the shell are no trim cuts: they do
/// not pass through it; their depth is checked here all the same. Plate frame, mm.
/// </summary>
public static class TrimPlanner
{
    /// <summary>The same cuts with another trim cutter of the same size; a second, thinner cutter stays.</summary>
    public static ImmutableArray<TrimCut> Recut(ImmutableArray<TrimCut> cuts, Tool tool)
    {
        Tool? was = cuts.FirstOrDefault(c => c.Kind == TrimKind.Outline)?.Tool;
        return [.. cuts.Select(c => c.Tool == was ? c with { Tool = tool } : c)];
    }

    /// <summary>
    /// Cutouts in the drawing's order, then the outline. Failed where a cutout is smaller than the cutter or its neck too narrow
    /// for it, a corner keeps more than the job allows, the outline has no room for leads, or tabs, flutes, kind of tool or
    /// depth of a mark cannot be; each finding says by how much.
    /// </summary>
    public static Stage<ImmutableArray<TrimCut>> Plan(Part placed, Job job, Kernel kernel)
    {
        List<Finding> findings = [.. TrimChecks.Shop(placed, job)];
        var cuts = ImmutableArray.CreateBuilder<TrimCut>();
        ImmutableArray<Tool> tools = SecondCutter.ForCutouts(placed.Cutouts, job, kernel);
        for (int i = 0; i < placed.Cutouts.Length; i++)
        {
            string name = placed.Cutouts.Length == 1 ? "cutout" : FormattableString.Invariant($"cutout {i + 1}");
            Stage<TrimCut> cut = TrimEdges.Cutout(name, placed.Cutouts[i], tools[i], job, kernel);
            findings.AddRange(cut.Findings);
            if (cut.Value is not null)
            {
                cuts.Add(cut.Value);
            }
        }
        Stage<TrimCut> outline = TrimEdges.Outline(placed.Outer, job, kernel);
        findings.AddRange(outline.Findings);
        if (outline.Value is not null)
        {
            cuts.Add(outline.Value);
        }
        findings = [.. TrimFindings.Alike(findings)];
        return findings.Any(f => f.Severity == Severity.Error)
            ? Stage.Failed<ImmutableArray<TrimCut>>(findings)
            : Stage.Answer(cuts.ToImmutable(), findings);
    }
}
