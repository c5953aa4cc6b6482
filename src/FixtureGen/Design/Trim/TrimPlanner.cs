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

    /// <summary>What a cutout is called, by its place in the drawing from 0.</summary>
    internal static string NameOf(int index, int count) =>
        count == 1 ? "cutout" : FormattableString.Invariant($"cutout {index + 1}");

    /// <summary>
    /// Corners for a second cutter, cutouts that are not drilled in the drawing's order, then the outline. Failed where a cutout is smaller than the cutter or its neck too narrow
    /// for it, a corner keeps more than the job allows, the outline has no room for leads, or tabs, flutes, kind of tool or
    /// depth of a mark cannot be; each finding says by how much.
    /// </summary>
    public static Stage<ImmutableArray<TrimCut>> Plan(Part placed, Job job, Kernel kernel)
    {
        List<Finding> findings = [.. TrimChecks.Shop(placed, job)];
        var cuts = ImmutableArray.CreateBuilder<TrimCut>();
        var corners = ImmutableArray.CreateBuilder<TrimCut>();
        ImmutableArray<Tool> tools = SecondCutter.ForCutouts(placed.Cutouts, job, kernel);
        ImmutableArray<Tool?> drills = DrillChoice.ForCutouts(placed.Cutouts, job, kernel);
        for (int i = 0; i < placed.Cutouts.Length; i++)
        {
            if (drills[i] is not null)
            {
                continue;
            }
            string name = NameOf(i, placed.Cutouts.Length);
            if (job.SmallHoles == SmallHoles.Drill && !SecondCutter.Fits(placed.Cutouts[i], job.TrimTool, kernel))
            {
                Tool? nearest = DrillChoice.Nearest(placed.Cutouts[i], job).FirstOrDefault();
                findings.Add(TrimFindings.NoDrill(name, placed.Cutouts[i], nearest, job));
                continue;
            }
            Stage<TrimCut> cut = TrimEdges.Cutout(name, placed.Cutouts[i], tools[i], job, kernel);
            Take(cut);
        }
        Take(TrimEdges.Outline(placed.Outer, job, kernel));
        findings = [.. TrimFindings.Alike(findings)];
        return findings.Any(f => f.Severity == Severity.Error)
            ? Stage.Failed<ImmutableArray<TrimCut>>(findings)
            : Stage.Answer<ImmutableArray<TrimCut>>([.. corners, .. cuts], findings);

        void Take(Stage<TrimCut> planned)
        {
            Finding? refused = planned.Findings.FirstOrDefault(f =>
                f is { Code: "trim-corner-too-tight", Severity: Severity.Error }
            );
            if (planned.Value is not { } cut)
            {
                findings.AddRange(planned.Findings);
                return;
            }
            if (refused is not null)
            {
                (ImmutableArray<TrimCut> second, cut, Finding? still) = Second(cut, refused);
                corners.AddRange(second);
                findings.AddRange(planned.Findings.Where(f => f != refused));
                findings.AddRange(still is null ? [] : [still]);
            }
            else
            {
                findings.AddRange(planned.Findings);
            }
            cuts.Add(cut);
        }

        (ImmutableArray<TrimCut> Corners, TrimCut Cut, Finding? Still) Second(TrimCut cut, Finding refused)
        {
            (ImmutableArray<TrimCut> second, TrimCut beside) = CornerCuts.Plan(cut, job, kernel);
            if (!second.IsEmpty && job.InnerCorners == InnerCorners.SecondCutter)
            {
                return (second, beside, null);
            }
            return CornerCuts.Best(cut, job, kernel) is { } best
                ? ([], cut, TrimFindings.WithSecond(refused, best.Tool, best.Left, !second.IsEmpty))
                : ([], cut, refused);
        }
    }
}
