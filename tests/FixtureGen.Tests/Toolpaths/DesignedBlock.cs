using System.Collections.Immutable;
using FixtureGen.Design;
using FixtureGen.Model;
using FixtureGen.Solve;
using Xunit;

namespace FixtureGen.Tests.Toolpaths;

/// <summary>A part placed and designed, with its magnets.</summary>
internal static class DesignedBlock
{
    public static FixtureDesign Of(Part part, Job job)
    {
        Placement placement = Taken(Placing.Place(part, job, Tolerances.House));
        FixtureDesign begun = Taken(Designer.Begin(part, placement, job, Tolerances.House));
        ImmutableArray<MagnetPlace> magnets = Taken(MagnetPlacement.Choose(begun, job, Tolerances.House));
        return Taken(Designer.Finish(begun, magnets, job, Tolerances.House));
    }

    private static T Taken<T>(Stage<T> stage)
    {
        Assert.True(stage.Ok, string.Join('\n', stage.Findings));
        return stage.Value!;
    }
}
