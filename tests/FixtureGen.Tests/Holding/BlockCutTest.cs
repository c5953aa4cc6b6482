using FixtureGen.Cutting;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

/// <summary>The cutting load stands where the tool cuts, and nowhere else.</summary>
public sealed class BlockCutTest
{
    [Fact]
    public void A_flat_arc_of_ten_metres_radius_loads_its_own_ends_only()
    {
        Point2[] places = BlockCut.Places(
            Cut(new(0, 0, 18), new ArcMove(new(40, 0, 18), new(20, -10_000), false, 900))
        );

        Assert.All(places, p => Assert.InRange(p.DistanceTo(new(20, 0)), 0, 21));
    }

    [Fact]
    public void A_half_turn_loads_its_far_side_and_a_full_turn_all_four()
    {
        Point2[] half = BlockCut.Places(Cut(new(-5, 0, 18), new ArcMove(new(5, 0, 18), new(0, 0), false, 900)));
        Point2[] full = BlockCut.Places(Cut(new(5, 0, 18), new ArcMove(new(5, 0, 18), new(0, 0), true, 900)));

        Assert.Contains(half, p => p.DistanceTo(new(0, 5)) < 1e-9);
        Assert.DoesNotContain(half, p => p.DistanceTo(new(0, -5)) < 1e-9);
        Assert.All(
            new Point2[] { new(5, 0), new(0, 5), new(-5, 0), new(0, -5) },
            far => Assert.Contains(full, p => p.DistanceTo(far) < 1e-9)
        );
    }

    // Two lips of kc fz D/2 (times the dull-tool factor) thrust; the shear is the radial share of it and balances otherwise.
    [Fact]
    public void A_drill_thrusts_with_each_lips_chip()
    {
        Job job = DemoShop.Job(DemoShop.PlainJob());
        Operation drill = Cut(new(0, 0, 25), new DrillMove(new(3, 4, 21), 21, -1, 0, 0, 200)) with
        {
            Kind = OperationKind.Drill,
            Tool = job.TrimTool with { Diameter = 6, Flutes = 2 },
            SpindleRpm = 2000,
            FeedMmPerMin = 200,
        };

        (CutForce force, double load) = BlockCut.Load(drill, job, 25);

        double lip = job.BlockMaterial.SpecificForceMax * job.DullFactor * 0.05 * 3;
        Assert.Equal(lip, force.Axial, 1e-9);
        Assert.Equal(0.5 * lip, force.Shear, 1e-9);
        Assert.Equal(Math.Sqrt(1.25) * lip, load, 1e-9);
        Assert.Equal(21, BlockCut.Height(drill));
    }

    // A 60 degree point 0.2 mm wide at its tip is 0.2 + 2 x 0.3 tan 30 = 0.54641 mm wide 0.3 mm above it.
    [Fact]
    public void An_engraver_cuts_as_wide_as_its_cone_is_at_the_face()
    {
        Job job = DemoShop.Job(DemoShop.PlainJob());
        Tool point = job.Tools.First(t => t.Kind == ToolKind.Engraver) with
        {
            Diameter = 6,
            TipDiameter = 0.2,
            TipAngleDeg = 60,
            Flutes = 1,
        };
        Operation engraving = Cut(new(0, 0, 30), new LineMove(new(10, 0, 24.7), 300)) with
        {
            Kind = OperationKind.Engrave,
            Tool = point,
            SpindleRpm = 10_000,
            FeedMmPerMin = 300,
        };

        (CutForce force, double load) = BlockCut.Load(engraving, job, 25);

        double tangential = job.BlockMaterial.SpecificForceMax * job.DullFactor * 0.3 * 0.03;
        Assert.Equal(tangential, force.Tangential, 1e-9);
        Assert.Equal(0, force.Axial);
        Assert.Equal(Math.Sqrt(1.25) * tangential, load, 1e-9);
    }

    private static Operation Cut(Point3 from, Move move) =>
        new()
        {
            Name = "relief",
            Kind = OperationKind.Clear,
            Tool = DemoShop.Job(DemoShop.PlainJob()).TrimTool,
            SpindleRpm = 18_000,
            FeedMmPerMin = 900,
            StepDown = 1,
            StepOver = 1,
            LimitedBy = "",
            Features = [],
            BreaksPlateSeal = false,
            Moves = [new RapidMove(from), move],
        };
}
