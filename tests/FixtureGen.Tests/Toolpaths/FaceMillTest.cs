using FixtureGen.Cutting;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using FixtureGen.Toolpaths.Methods;
using Xunit;

namespace FixtureGen.Tests.Toolpaths;

/// <summary>Faces are skimmed by what is made for it, by its own chart, and its force counts every tooth that cuts.</summary>
public sealed class FaceMillTest
{
    private static readonly Job Job = DemoDesign.Job("pruner-sheath");

    private static readonly Box2 Block = new(0, 0, Job.Blank.Width, Job.Blank.Height);

    private static Tool Face(double inches, int teeth) =>
        Job.Tools.First(t => t.Kind == ToolKind.FaceMill) with
        {
            Diameter = inches * Units.MmPerInch,
            Flutes = teeth,
            MaxRpm = 0,
        };

    // n = 12 v / (pi D), F = n z f (Machinery's Handbook, speeds and feeds): 2 in fly cutter 1000 ft/min .006 in, 3 in with 4 teeth
    // 1500 ft/min .005, 2.5 in with 3 teeth 1200 ft/min .008, worked by hand.
    [Theory]
    [InlineData(2, 1, 1000, 0.006, 1909.9, 11.46)]
    [InlineData(3, 4, 1500, 0.005, 1909.9, 38.20)]
    [InlineData(2.5, 3, 1200, 0.008, 1833.5, 44.00)]
    public void It_runs_by_the_facing_chart(
        double inches,
        int teeth,
        double feet,
        double chip,
        double rpm,
        double inchesPerMinute
    )
    {
        Machine strong = Job.Plate.Machine with
        {
            MaxSpindleRpm = 100_000,
            MinSpindleRpm = 100,
            MaxFeedMmPerMin = 100_000,
            SpindlePowerKw = 100,
        };
        double speed = feet * 0.3048;
        Material material = Job.BlockMaterial with
        {
            Facing = new FaceChart(speed, speed, chip * Units.MmPerInch, chip * Units.MmPerInch),
        };
        Tool tool = Face(inches, teeth);
        CutData data = Feeds.For(tool, material, strong, 0.8 * tool.Diameter, 0.5);
        Assert.InRange(data.Rpm, rpm - 10, rpm);
        Assert.InRange(data.Feed / Units.MmPerInch, inchesPerMinute * 0.985, inchesPerMinute);
    }

    /// <summary>Of 0.8 diameters wide arccos(-0.6) = 126.9 degrees are engaged: one tooth of two, two of three or four, three of six.</summary>
    [Theory]
    [InlineData(1, 1)]
    [InlineData(2, 1)]
    [InlineData(3, 2)]
    [InlineData(4, 2)]
    [InlineData(6, 3)]
    public void Teeth_that_cut_at_once_push_at_once(int teeth, int atOnce)
    {
        double one = Force(1);
        Assert.Equal(atOnce * one, Force(teeth), 9);

        double Force(int n)
        {
            Tool tool = Face(1.5, n);
            return CuttingForce.Peak(tool, Job.BlockMaterial, 1, 0.8 * tool.Diameter, 0.1, 1).Tangential;
        }
    }

    [Fact]
    public void A_demo_block_is_skimmed_by_it_and_quicker_than_without()
    {
        double with = SkimMinutes(Job);
        double without = SkimMinutes(Job with { Tools = [.. Job.Tools.Where(t => t.Kind != ToolKind.FaceMill)] });
        Assert.True(with < 0.6 * without, FormattableString.Invariant($"{with:0.00} of {without:0.00} min"));
    }

    /// <summary>Where the spindle turns no slower than its teeth bear, the material has no chart, or no room is left beside the block, it stays in the rack.</summary>
    [Fact]
    public void It_is_used_only_where_it_can_run()
    {
        Machine machine = Job.Plate.Machine;
        Assert.Single(SkimMethods.FaceMills(Job, Block));
        Assert.Empty(SkimMethods.FaceMills(On(machine with { MinSpindleRpm = 8000 }), Block));
        Assert.Empty(
            SkimMethods.FaceMills(
                Job with
                {
                    Blank = Job.Blank,
                    BlockMaterial = Job.BlockMaterial with { Facing = null },
                },
                Block
            )
        );
        Assert.Empty(SkimMethods.FaceMills(On(machine with { Travel = machine.Travel with { MinY = -10 } }), Block));

        Job On(Machine other) => Job with { Plate = Job.Plate with { Machine = other } };
    }

    private static double SkimMinutes(Job job)
    {
        (Frame frame, PocketFeature skim) = Skim(job);
        return SkimMethods.For(skim, frame).Min(m => m.Minutes);
    }

    private static (Frame Frame, PocketFeature Skim) Skim(Job job)
    {
        FixtureDesign design = DemoDesigns.Of("pruner-sheath").Design;
        Frame frame = FixtureGen.Toolpaths.OperationPlanner.TopFrame(design, job, SampleBlock.NewKernel());
        return (frame, design.Features.OfType<PocketFeature>().Single(f => f.Kind == FeatureKind.Skim));
    }
}
