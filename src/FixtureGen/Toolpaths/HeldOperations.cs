using System.Collections.Immutable;
using FixtureGen.Model;

namespace FixtureGen.Toolpaths;

/// <summary>Follows how the block is held through the programs that cut it: by the plate's vacuum alone until the stop of the top program asks for the bolts.</summary>
public static class HeldOperations
{
    /// <summary>Every operation on the block in order, with bolts in or not and the plate seal broken or not while it runs. The trim is not among them.</summary>
    public static ImmutableArray<(Operation Op, bool Bolted, bool SealBroken)> Follow(IEnumerable<ProgramPlan> plans)
    {
        var held = ImmutableArray.CreateBuilder<(Operation, bool, bool)>();
        foreach (ProgramPlan plan in plans.Where(p => p.Setup != Setup.Trim))
        {
            bool bolted = false;
            bool broken = false;
            foreach (ProgramStep step in plan.Steps)
            {
                bolted |= step.Kind == ProgramStepKind.Stop && plan.Setup == Setup.Top;
                if (step.Operation is { } operation)
                {
                    broken |= operation.BreaksPlateSeal;
                    held.Add((operation, bolted, broken));
                }
            }
        }
        return held.ToImmutable();
    }
}
