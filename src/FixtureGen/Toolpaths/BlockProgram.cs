using System.Collections.Immutable;
using FixtureGen.Holding.Block;
using FixtureGen.Model;
using FixtureGen.Toolpaths.Methods;

namespace FixtureGen.Toolpaths;

/// <summary>
/// A block setup as a program: vacuum on and proven, the operations that keep the plate's seal, the stop for the bolts,
/// vacuum off, the operations that break the seal.
/// </summary>
internal static class BlockProgram
{
    public static Stage<ProgramPlan> Plan(Frame frame, FixtureDesign design, BlockHolding hold)
    {
        if (frame.Setup == Setup.Top && design.RawThickness - design.SkimmedZ < frame.Job.Rules.LeastSkim - 1e-9)
        {
            return Stage.Failed<ProgramPlan>(
                ToolpathFindings.NoSkim(design.RawThickness, design.SkimmedZ, frame.Job.Rules.LeastSkim)
            );
        }
        Stage<ImmutableArray<Operation>> operations = BlockPlan.Held(frame, hold);
        if (!operations.Ok)
        {
            return Stage.Failed<ProgramPlan>(operations.Findings);
        }
        return Stage.Answer(
            new ProgramPlan(
                frame.Setup,
                ProgramNumbers.ForSetup(frame.Job, frame.Setup),
                OperatorText.Block(design, frame.Job, frame.Setup),
                OperationPlanner.SafeZ(frame.Job, frame.Heights.Clearance),
                [.. Steps(operations.Value, design, frame.Job)]
            ),
            operations.Findings
        );
    }

    private static IEnumerable<ProgramStep> Steps(ImmutableArray<Operation> operations, FixtureDesign design, Job job)
    {
        yield return new ProgramStep(ProgramStepKind.VacuumOn, null, "");
        yield return new ProgramStep(ProgramStepKind.VacuumWait, null, OperatorText.Vacuum(job));
        foreach (Operation op in operations.Where(o => !o.BreaksPlateSeal))
        {
            yield return new ProgramStep(ProgramStepKind.Operation, op, "");
        }
        ImmutableArray<Operation> breaking = [.. operations.Where(o => o.BreaksPlateSeal)];
        if (!breaking.IsEmpty)
        {
            yield return new ProgramStep(ProgramStepKind.Stop, null, OperatorText.BoltsIn(design, job));
            // Chips of what opens the plate's seal would go to the pump: the bolts hold, so the vacuum is off by then.
            yield return new ProgramStep(ProgramStepKind.VacuumOff, null, OperatorText.PortNext);
            foreach (Operation op in breaking)
            {
                yield return new ProgramStep(ProgramStepKind.Operation, op, "");
            }
            yield break;
        }
        yield return new ProgramStep(ProgramStepKind.VacuumOff, null, "");
    }
}
