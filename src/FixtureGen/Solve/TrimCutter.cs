using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Design.Trim;
using FixtureGen.Holding;
using FixtureGen.Model;

namespace FixtureGen.Solve;

/// <summary>
/// Upcut or downcut. An edge at a helix angle b that is pushed with Ft along its motion is also pushed with Ft tan b along the
/// cutter's axis (the edge's normal force resolved; the same as a helical gear's thrust): an upcut pulls the shell off its seal
/// by that, a downcut presses it on. But an upcut carries the chips out of the slot, and a downcut packs them into the relief
/// below, where they heat up and thermoplastics weld to themselves again (common practice, no source). Where the job leaves the
/// cutter open the solver takes the one that trims a batch soonest; of equals the first of upcut, straight and downcut.
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
    /// What each direction of the same cutter gives on the same design at the same passes and feed, and the reason in words with
    /// figures. A straight cutter that does not stand in the changer is not tried.
    /// </summary>
    /// <param name="holding">The answer for the job's own cutter.</param>
    public static CutDirection Compare(FixtureDesign design, Job job, HoldingResult holding, Tolerances tolerances)
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
            bool byMagnets = job.HoldBy == HoldBy.Magnets;
            double put = byMagnets ? holding.MagnetsOnly.Factor : holding.VacuumOnly.Factor;
            LimitedFactors held =
                helix == job.TrimTool.Helix
                    ? new LimitedFactors(put, holding.MagnetsStopping.Stays)
                    : Swapped(design, tried, tolerances);
            return new DirectionTrial(
                helix,
                standing?.Name ?? "",
                standing is not null,
                TrimChip.Cutting(job, tool).Axial,
                byMagnets ? 0 : held.Put,
                held.Stopping,
                held.Share(job.Limits) >= 1
            )
            {
                MagnetsOnly = byMagnets ? held.Put : null,
            };
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
}
