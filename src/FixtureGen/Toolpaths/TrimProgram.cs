using System.Collections.Immutable;
using FixtureGen.Cutting;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Toolpaths.Methods;
using FixtureGen.Toolpaths.Moves;
using FixtureGen.Toolpaths.Routes;

namespace FixtureGen.Toolpaths;

/// <summary>
/// The production trim: vacuum on and proven, a stop to count the magnets, marks, drilled holes, cutouts, the outline last, vacuum off;
/// no word of vacuum where magnets alone hold the shell. Between cuts the
/// tool travels above shell, forms, jackets and locator pins.
/// </summary>
internal static class TrimProgram
{
    public static Stage<ProgramPlan> Plan(FixtureDesign design, Job job, Kernel kernel)
    {
        double shellTop = design.FixtureHeight + job.Shell.ThicknessMax;
        double forms = design
            .Part.Forms.Where(f => f.Direction == FormDirection.Up)
            .Select(f => f.Height)
            .DefaultIfEmpty(0)
            .Max();
        double jackets = design.Magnets.IsEmpty ? 0 : job.Magnet.JacketHeight;
        double pins = job.Locator == LocatorKind.Pins ? job.Rules.LocatorPinProjection : 0;
        double clearance = shellTop + Math.Max(pins, Math.Max(forms, jackets)) + Heights.ClearanceGap;
        ImmutableArray<Operation> operations = [.. Operations(design, job, clearance, kernel)];
        return Stage.Answer(
            new ProgramPlan(
                Setup.Trim,
                ProgramNumbers.ForSetup(job, Setup.Trim),
                OperatorText.Trim(design, job),
                OperationPlanner.SafeZ(job, clearance),
                job.HoldBy == HoldBy.Magnets
                    ?
                    [
                        new ProgramStep(ProgramStepKind.Stop, null, OperatorText.CountMagnets(design, job)),
                        .. operations.Select(o => new ProgramStep(ProgramStepKind.Operation, o, "")),
                    ]
                    :
                    [
                        new ProgramStep(ProgramStepKind.VacuumOn, null, ""),
                        .. Look(design, job),
                        .. operations.Select(o => new ProgramStep(ProgramStepKind.Operation, o, "")),
                        new ProgramStep(ProgramStepKind.VacuumOff, null, ""),
                    ]
            )
        );
    }

    /// <summary>The vacuum is proven and a person has counted the magnets; one stop where the control has no switch to wait for.</summary>
    private static IEnumerable<ProgramStep> Look(FixtureDesign design, Job job)
    {
        string level = OperatorText.Vacuum(job);
        string count = OperatorText.CountMagnets(design, job);
        if (job.Control.VacuumWait.Length == 0)
        {
            return [new ProgramStep(ProgramStepKind.VacuumWait, null, $"{level}. {count}")];
        }
        return
        [
            new ProgramStep(ProgramStepKind.VacuumWait, null, level),
            new ProgramStep(ProgramStepKind.Stop, null, count),
        ];
    }

    private static IEnumerable<Operation> Operations(FixtureDesign design, Job job, double clearance, Kernel kernel)
    {
        Heights heights = new(design.FixtureHeight + job.Shell.ThicknessMax, clearance, clearance);
        ImmutableArray<Piece> marks = [.. TrimMarks.Pieces(design, job, heights)];
        if (!marks.IsEmpty)
        {
            yield return Joiner.Join("marks", TrimMarks.Cutting(job), false, marks, clearance, clearance);
        }
        foreach (
            IGrouping<Tool, DrilledHole> alike in design.DrilledHoles.GroupBy(h => h.Tool).OrderBy(g => g.Key.Number)
        )
        {
            yield return Joiner.Join(
                "drilled holes",
                new ToolCut(alike.Key, OperationKind.Drill, ShellDrill.Data(job, alike.Key), 0, () => []),
                false,
                [.. alike.Select(h => Drilling.InShell(h, ShellDrill.Data(job, alike.Key), heights))],
                clearance,
                clearance
            );
        }
        foreach (
            IGrouping<Tool, TrimCut> alike in design
                .TrimCuts.Where(c => c.Kind is TrimKind.Cutout or TrimKind.Corner)
                .GroupBy(c => c.Tool)
                .OrderBy(g => g.Key == job.TrimTool)
                .ThenBy(g => g.Key.Number)
        )
        {
            string name =
                alike.Key == job.TrimTool ? "cutouts"
                : alike.All(c => c.Kind == TrimKind.Corner) ? "inner corners"
                : alike.All(c => c.Kind == TrimKind.Cutout) ? "small cutouts"
                : "small cutouts and inner corners";
            yield return Trim(name, OperationKind.TrimCutout, alike.Key, [.. alike]);
        }
        yield return Trim(
            "outline",
            OperationKind.TrimOutline,
            job.TrimTool,
            [.. design.TrimCuts.Where(c => c.Kind == TrimKind.Outline)]
        );

        Operation Trim(string name, OperationKind kind, Tool tool, ImmutableArray<TrimCut> cuts)
        {
            CutData data = TrimFeeds.For(job, tool);
            return Joiner.Join(
                name,
                new ToolCut(tool, kind, data, 0, () => []),
                false,
                [.. cuts.Select(c => TrimPasses.Piece(c, job, data, heights, kernel))],
                clearance,
                clearance
            );
        }
    }
}
