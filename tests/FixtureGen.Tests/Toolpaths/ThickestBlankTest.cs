using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Holding.Block;
using FixtureGen.Model;
using FixtureGen.Programs;
using FixtureGen.Tests.Support;
using FixtureGen.Toolpaths;
using FixtureGen.Toolpaths.Methods;
using FixtureGen.Toolpaths.Routes;
using FixtureGen.Verify;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Tests.Toolpaths;

/// <summary>A blank is never just as thick as its file says: the programs made for the nominal one are run on the others.</summary>
public sealed class ThickestBlankTest
{
    private const double Cell = 0.5;

    private static readonly Job Sheet = DemoShop.Job(DemoShop.PlainJob(more: "[locator]\nby = \"hand\"\n"));

    private static readonly Job Measured = DemoShop.Job(
        DemoShop.PlainJob(more: "[block]\nthickness = 19.3\n[locator]\nby = \"hand\"\n")
    );

    [Fact]
    public void The_thickest_blank_is_the_nominal_one_and_its_tolerance_or_what_was_measured_and_a_tenth()
    {
        Assert.Equal(19.05 + 0.381, Sheet.BlankThickest, 9);
        Assert.Equal(19.4, Measured.BlankThickest, 9);
    }

    /// <summary>The carving of the tests, which shares nothing with the planner, on a block of the greatest thickness.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    [Trait("Speed", "Slow")]
    public void No_rapid_touches_the_thickest_blank_and_no_skim_takes_more_than_the_step_down(bool measured)
    {
        Job job = measured ? Measured : Sheet;
        FixtureDesign design = DesignedBlock.Of(PartShapes.All["plain"], job);
        ImmutableArray<Operation> top = Operations(job, design, Setup.Top);
        CarveOracle oracle = new(design.Placement.BlankBox, Cell, job.BlankThickest);
        Assert.All(top.Take(1), o => Assert.Equal(OperationKind.Skim, o.Kind));
        Assert.All(
            top,
            o => Assert.True(o.Moves[0].To.Z >= job.BlankThickest + FixtureGen.Toolpaths.Moves.Heights.HopGap - 1e-9)
        );
        foreach (Operation operation in top)
        {
            oracle.Cut(operation);
        }
        Assert.Empty(oracle.BadRapids);
        Operation skim = top[0];
        Assert.Equal(job.BlankThickest - design.FixtureHeight, skim.StepDown, 1e-9);
    }

    /// <summary>Where the block is held so weakly that a skim takes several passes, none is deeper in the thickest blank and none in the air over the nominal one.</summary>
    [Theory]
    [InlineData(0.30)]
    [InlineData(0.32)]
    [InlineData(0.5)]
    [Trait("Speed", "Slow")]
    public void Every_pass_of_a_skim_is_within_the_step_down_in_the_thickest_blank(double stepDown)
    {
        Job job = Sheet with { BlockMaterial = Sheet.BlockMaterial with { StepDownRatio = stepDown / 9.525 } };
        Tool[] only =
        [
            .. job.Tools.Where(t => t.Name is "mill-3-8" || t.Kind is not (ToolKind.EndMill or ToolKind.FaceMill)),
        ];
        FixtureDesign design = DesignedBlock.Of(PartShapes.All["plain"], Sheet);
        Frame frame = OperationPlanner.TopFrame(design, job with { Tools = [.. only] }, new Kernel(Tolerances.House));
        PocketFeature skim = design.Features.OfType<PocketFeature>().Single(f => f.Kind == FeatureKind.Skim);
        Method method = SkimMethods.For(skim, frame).Single();
        Operation o = Joiner.Join("skim", method.Cuttings[0], false, [.. method.Cuttings[0].Pieces()], 30, 30);
        double[] levels = [.. o.Moves.Where(m => m is LineMove).Select(m => m.To.Z).Distinct().OrderDescending()];

        Assert.Equal(design.FixtureHeight, levels[^1], 1e-9);
        Assert.True(levels.Length > 1);
        double above = job.BlankThickest;
        foreach (double z in levels)
        {
            Assert.InRange(above - z, 0, stepDown + 1e-9);
            above = z;
        }
        Assert.True(levels[0] < job.BlankThickness + 0.1, "the first pass runs in the air over the nominal blank");
    }

    /// <summary>The judge's own reading, with the design said to be of the thinnest, the nominal and the thickest blank.</summary>
    [Theory]
    [InlineData(-1)]
    [InlineData(0)]
    [InlineData(1)]
    [Trait("Speed", "Slow")]
    public void The_judge_passes_the_same_top_program_on_every_blank_of_the_stock(int end)
    {
        FixtureDesign design = DesignedBlock.Of(PartShapes.All["plain"], Sheet);
        ImmutableArray<ProgramText> texts =
        [
            .. Plans(Sheet, design).Select(p => ProgramWriter.Write(p, Sheet.Control, Sheet).Value!),
        ];
        double raw = Sheet.BlankThickness + (end * Sheet.BlankTolerance);
        FixtureDesign other = design with
        {
            RawThickness = raw,
            Features =
            [
                .. design.Features.Select(f => f is PocketFeature { Kind: FeatureKind.Skim } s ? Up(s, raw) : f),
            ],
        };
        Job held = HeldJobs.Nominal(Sheet);
        held = held with { Limits = held.Limits with { VacuumFactor = 1 } };
        VerifyResult verdict = Verifier.Judge(new VerifyRequest(held, other, texts, Limits.House) { Drawing = null });
        Assert.True(verdict.Ok, string.Join('\n', verdict.Findings.Where(f => f.Severity == Severity.Error)));
        Assert.DoesNotContain(verdict.Findings, f => f.Code is "cuts-air" or "rapid-through-stock" or "step-down");
    }

    private static PocketFeature Up(PocketFeature skim, double raw) =>
        skim with
        {
            TopZ = raw,
            Removals = [.. skim.Removals.Select(r => r with { TopZ = raw })],
        };

    private static ImmutableArray<ProgramPlan> Plans(Job job, FixtureDesign design) =>
        DemoDesigns.Taken(OperationPlanner.Plan(design, job, new BlockHolding(design, job), Tolerances.House));

    private static ImmutableArray<Operation> Operations(Job job, FixtureDesign design, Setup setup) =>
        [.. Plans(job, design).Single(p => p.Setup == setup).Steps.Select(s => s.Operation).OfType<Operation>()];
}
