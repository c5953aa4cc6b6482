using FixtureGen.Cutting;
using FixtureGen.Design.Forms;
using FixtureGen.Holding.Magnets;
using FixtureGen.Holding.Seal;
using FixtureGen.Holding.Sliding;
using FixtureGen.Model;

namespace FixtureGen.Holding;

/// <summary>Reads the trim of a design into loads: marks engraved first, then the drilled holes, then every cut with leads and inner rings.</summary>
internal static class TrimLoadsOf
{
    private const double StepLength = 1;

    /// <summary>A drill's lips push in turn every way; the edge's own angles lie between these.</summary>
    private const int Ways = 8;

    public static TrimLoads Design(FixtureDesign design, Job job, SealStates seals, double slip)
    {
        List<TrimWork> works = [];
        List<TrimStep> steps = [];
        Tool? engraver = job.Tools.FirstOrDefault(t => t.Kind == ToolKind.Engraver);
        if (engraver is not null)
        {
            foreach ((EngraveMark mark, int i) in design.Part.Engravings.Select((m, i) => (m, i)))
            {
                CutForce force = TrimChip.Engraving(job, engraver, FormTops.Higher(design, mark, job));
                double share = Stopping(job, TrimChip.EngravingFeed(job, engraver), slip, force);
                double along = 0;
                foreach (OpenPath stroke in mark.Strokes)
                {
                    TrimLoads.Walk(stroke.Segments, StepLength, works.Count, ref along, steps);
                }
                works.Add(
                    new TrimWork(FormattableString.Invariant($"mark {i + 1}"), force, share, SealStates.Whole)
                    {
                        HasOwnFeed = true,
                    }
                );
            }
        }
        foreach ((DrilledHole hole, int i) in design.DrilledHoles.Select((h, i) => (h, i)))
        {
            CutForce force = ShellDrill.Force(job, hole.Tool);
            for (int k = 0; k < Ways; k++)
            {
                (double sin, double cos) = Math.SinCos(2 * Math.PI * k / Ways);
                steps.Add(new TrimStep(works.Count, 0, hole.At, new Point2(cos, sin)));
            }
            double share = Stopping(job, ShellDrill.Data(job, hole.Tool).Feed, slip, force);
            works.Add(new TrimWork(hole.Name, force, share, seals.DuringHole(i)) { HasOwnFeed = true });
        }
        bool outline = false;
        foreach ((TrimCut cut, int i) in design.TrimCuts.Select((c, i) => (c, i)))
        {
            // from a corner of the outline on the skirt is being cut off
            outline |= cut.Kind == TrimKind.Outline || cut.AtEdgeOf == design.TrimCuts[^1].Name;
            CutForce force = TrimChip.Cutting(job, cut.Tool);
            double along = 0;
            IEnumerable<Segment> runs =
            [
                .. cut.Clearing.SelectMany(c => c.Segments),
                .. cut.LeadIn.Segments,
                .. cut.Path.Segments,
                .. cut.LeadOut.Segments,
            ];
            TrimLoads.Walk(runs, StepLength, works.Count, ref along, steps);
            double share = Stopping(job, TrimChip.CuttingFeed(job, cut.Tool), slip, force);
            works.Add(new TrimWork(cut.Name, force, share, seals.During(i), outline));
        }
        Material shell = job.ShellMaterial;
        double middle = (shell.SpecificForceMin + shell.SpecificForceMax) / 2;
        return new TrimLoads([.. works], [.. steps], job.Shell.ThicknessMax)
        {
            NominalShare = middle / shell.SpecificForceMax * (job.Shell.Thickness / job.Shell.ThicknessMax),
        };
    }

    private static double Stopping(Job job, double feed, double slip, CutForce force)
    {
        Machine machine = job.Plate.Machine;
        double reaction = feed / 60 * machine.VacuumReactionSeconds;
        return StoppingLoad.Share(reaction, machine.FeedHoldDistance, slip, force.ChipThickness);
    }
}
