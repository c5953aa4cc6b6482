using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Design;
using FixtureGen.Design.Trim;
using FixtureGen.Holding;
using FixtureGen.Model;

namespace FixtureGen.Solve;

/// <summary>
/// Upcut or downcut. An edge at a helix angle b that is pushed with Ft along its motion is also pushed with Ft tan b along the
/// cutter's axis (the edge's normal force resolved; the same as a helical gear's thrust): an upcut pulls the shell off its seal
/// by that, a downcut presses it on. But an upcut carries the chips out of the slot, and a downcut packs them into the relief
/// below, where they heat up and thermoplastics weld to themselves again (common practice, no source). So the first of
/// upcut, straight and downcut that meets the house limits is right; where none does, the one that holds best.
/// </summary>
public static class TrimCutter
{
    private static readonly ImmutableArray<HelixDirection> ByChips =
    [
        HelixDirection.Up,
        HelixDirection.Straight,
        HelixDirection.Down,
    ];

    /// <summary>
    /// The draft with the direction of its trim cutter chosen among the changer's; with the job's own where it names the cutter
    /// itself. Never a finding: a design that cannot be made with any of them is refused when it is made.
    /// </summary>
    public static Draft Choose(Part part, Placement placement, Job job, Tolerances tolerances)
    {
        Draft own = new(part, placement, job, tolerances);
        if (job.TrimToolStated)
        {
            return own;
        }
        (Draft Draft, (double, double) Held)? best = null;
        foreach (Tool tool in ByChips.Select(h => InRack(job, h)).OfType<Tool>())
        {
            Draft tried = new(part, placement, job with { TrimTool = tool }, tolerances);
            LimitedFactors held = Held(tried, tolerances) ?? default;
            double share = held.Share(job.Limits);
            if (best is null || (share, held.Sum(job.Limits)).CompareTo(best.Value.Held) > 0)
            {
                best = (tried, (share, held.Sum(job.Limits)));
            }
            if (share >= 1)
            {
                break;
            }
        }
        return best?.Draft ?? own;
    }

    /// <summary>
    /// What each direction of the same cutter gives, and the reason in words with figures. Where the job names the cutter the
    /// others hold the same design; where it leaves it open each has the magnets that it would get, and 0 where nothing can be
    /// designed. A straight cutter that does not stand in the changer is not tried.
    /// </summary>
    /// <param name="holding">The answer for the job's own cutter.</param>
    public static CutDirection Compare(
        Part part,
        FixtureDesign design,
        Job job,
        HoldingResult holding,
        Tolerances tolerances
    )
    {
        ImmutableArray<DirectionTrial> trials =
        [
            .. ByChips
                .Where(h => h != HelixDirection.Straight || job.TrimTool.Helix == h || InRack(job, h) is not null)
                .Select(Trial),
        ];
        return new CutDirection(
            job.TrimTool.Helix,
            job.TrimToolStated,
            trials,
            CutReason.Explain(trials, job.TrimTool.Helix, job.TrimToolStated, job.Limits)
        );

        DirectionTrial Trial(HelixDirection helix)
        {
            Tool? standing = InRack(job, helix);
            Tool tool = standing ?? job.TrimTool with { Helix = helix };
            Job tried = job with { TrimTool = tool };
            LimitedFactors? held =
                helix == job.TrimTool.Helix
                    ? new LimitedFactors(holding.VacuumOnly.Factor, holding.MagnetsStopping.Stays)
                : job.TrimToolStated ? Swapped(design, tried, tolerances)
                : Held(new Draft(part, design.Placement, tried, tolerances), tolerances);
            return new DirectionTrial(
                helix,
                standing?.Name ?? "",
                standing is not null,
                TrimChip.Cutting(job, tool).Axial,
                held?.Vacuum ?? 0,
                held?.Stopping ?? 0,
                held?.Share(job.Limits) >= 1
            );
        }
    }

    /// <summary>The design as it is, trimmed with the job's cutter.</summary>
    private static LimitedFactors Swapped(FixtureDesign design, Job job, Tolerances tolerances)
    {
        ImmutableArray<TrimCut> cuts = TrimPlanner.Recut(design.TrimCuts, job.TrimTool);
        return new HoldingContext(design with { TrimCuts = cuts }, job, tolerances).Limited(design.Magnets);
    }

    /// <summary>A cutter of the changer that runs the very same path: the job's own if it turns that way, else the first alike.</summary>
    private static Tool? InRack(Job job, HelixDirection helix)
    {
        Tool own = job.TrimTool;
        return own.Helix == helix
            ? own
            : job.Tools.FirstOrDefault(t =>
                t.Helix == helix
                && t.Kind == own.Kind
                && t.Flutes == own.Flutes
                && Math.Abs(t.Diameter - own.Diameter) < 1e-6
                && t.FluteLength >= job.Shell.ThicknessMax + job.Rules.TipBelowShell
            );
    }

    /// <summary>The hold with the magnets that this cutter would get; null where nothing can be designed.</summary>
    private static LimitedFactors? Held(Draft draft, Tolerances tolerances) =>
        draft is { Begun: { Ok: true, Value: { } begun } }
        && draft is { Magnets: { Ok: true, Value: var magnets } }
        && Designer.Finish(begun, magnets, draft.Job, tolerances) is { Ok: true, Value: { } design }
            ? HoldingAnalysis.Context(design, draft.Job, tolerances).Value?.Limited(design.Magnets)
            : null;
}
