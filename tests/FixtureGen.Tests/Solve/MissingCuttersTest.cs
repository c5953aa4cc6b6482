using System.Collections.Immutable;
using FixtureGen.Holding.Block;
using FixtureGen.Model;
using FixtureGen.Solve.Search;
using FixtureGen.Tests.Support;
using FixtureGen.Tests.Toolpaths;
using FixtureGen.Toolpaths;
using Xunit;

namespace FixtureGen.Tests.Solve;

/// <summary>What the rack lacks is told by what it would save, worked out by planning the block with it.</summary>
[Trait("Speed", "Slow")]
public sealed class MissingCuttersTest
{
    [Fact]
    public void A_rack_without_a_face_mill_and_the_small_drill_is_told_what_they_would_save()
    {
        (Job full, FixtureDesign design) = DemoDesigns.Of("label-clip");
        Job poor = full with
        {
            Tools =
            [
                .. full.Tools.Where(t =>
                    t is not ({ Kind: ToolKind.FaceMill } or { Kind: ToolKind.Drill, Diameter: < 4 })
                ),
            ],
        };
        ImmutableArray<MissingCutter> missing = Missing(poor, design);
        Assert.Contains(missing, m => m is { Kind: ToolKind.FaceMill, MinutesSaved: > 0.1 });
        Assert.Contains(missing, m => m is { Kind: ToolKind.Drill, MinutesSaved: > 0.1, DiameterMm: > 3 and < 4 });
        Assert.Equal(missing.OrderByDescending(m => m.MinutesSaved), missing);
        Assert.DoesNotContain(Missing(full, design), m => m.Kind == ToolKind.FaceMill);
    }

    [Fact]
    public void A_face_mill_that_turns_too_fast_is_told_with_the_size_that_would_do()
    {
        (Job job, FixtureDesign design) = DemoDesigns.Of("pruner-sheath");
        Job fast = job with { Plate = job.Plate with { Machine = job.Plate.Machine with { MinSpindleRpm = 6000 } } };
        Stage<ImmutableArray<ProgramPlan>> plans = OperationPlanner.Plan(
            design,
            fast,
            new BlockHolding(design, fast),
            Tolerances.House
        );
        Finding finding = Assert.Single(plans.Findings, f => f.Code == "face-mill-unused");
        Assert.Equal(
            "face-1-1-2 is left alone and the face is skimmed by an end mill: at the spindle's least 6000 rev/min its teeth run at 718 m/min, hdpe takes 500.",
            finding.Message
        );
        Assert.Equal("Take one of at most 26 mm.", finding.Remedy);
    }

    private static ImmutableArray<MissingCutter> Missing(Job job, FixtureDesign design) =>
        MissingCutters.Find(
            design,
            job,
            DemoDesign.Good(OperationPlanner.Plan(design, job, new BlockHolding(design, job), Tolerances.House)),
            Tolerances.House
        );
}
