using FixtureGen.Design;
using FixtureGen.Design.Block;
using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Design;

public sealed class PlateHolesTest
{
    private static readonly Part Plain = DesignBench.Rectangle(140, 90, 12);

    [Fact]
    public void Every_bolt_has_a_clearance_hole_and_a_counterbore_that_hides_head_and_washer()
    {
        Job job = DesignBench.Job;
        FixtureDesign design = DesignBench.Begun(Plain);
        HoleFeature[] bores = [.. DesignBench.All<HoleFeature>(design, FeatureKind.Counterbore)];
        HoleFeature[] holes = [.. DesignBench.All<HoleFeature>(design, FeatureKind.BoltHole)];
        Assert.Equal(job.Plate.Bolts.Select(b => b.At), bores.Select(b => b.At));
        Assert.Equal(job.Plate.Bolts.Select(b => b.At), holes.Select(b => b.At));
        Assert.All(bores, b => Assert.True(b.Diameter > job.Bolt.WasherDiameter && b.Diameter > job.Bolt.HeadDiameter));
        Assert.All(bores, b => Assert.True(b.TopZ - b.FloorZ > job.Bolt.WasherThickness + job.Bolt.HeadHeight));
        Assert.All(bores, b => Assert.True(b.FloorZ >= job.Rules.LeastFloor));
        Assert.All(holes, h => Assert.Equal(job.Bolt.ClearanceHole, h.Diameter));
        Assert.All(holes, h => Assert.True(h is { BreaksThrough: true, FloorZ: 0, Setup: Setup.Top }));
    }

    [Fact]
    public void A_bolt_without_relief_is_bored_from_below_with_a_warning_that_says_what_is_missing()
    {
        Job job = With(o => o.Kind == OpeningKind.Bolt ? o with { ReliefDepth = 1 } : o);
        Stage<FixtureDesign> stage = DesignBench.Begin(Plain, job);
        FixtureDesign design = DesignBench.Value(stage);
        Assert.NotNull(design.Flip);
        Assert.All(
            DesignBench.All<HoleFeature>(design, FeatureKind.BoltHole),
            h => Assert.True(h is { Setup: Setup.Underside, BreaksThrough: false })
        );
        double needed = (0.3 * job.Bolt.ClearanceHole) + 1;
        Assert.Equal(needed - 1, DesignBench.Amounts(DesignBench.Finding(stage, "opening-without-relief"))[^1], 0.01);
    }

    [Fact]
    public void Turning_over_keeps_the_block_against_its_stops()
    {
        FixtureDesign design = DesignBench.Begun(Plain, With(o => o with { ReliefDiameter = 0, ReliefDepth = 0 }));
        Flip flip = design.Flip!.Value;
        Box2 block = design.Placement.BlankBox;
        Assert.Equal(block.MaxX, flip.Apply(new Point2(block.MinX, 0)).X, 1e-9);
    }

    /// <summary>Growth of HDPE 1.5e-4 /K over 180 mm and 10 K is 0.27 mm (the shop's handbook figure; alpha L dT).</summary>
    [Fact]
    public void Pin_slot_is_longer_than_wide_by_the_growth_both_ways()
    {
        Job job = DesignBench.Job;
        double span = job.Plate.PinRound.At.DistanceTo(job.Plate.PinSlot.At);
        HoleFeature slot = Assert.Single(DesignBench.All<HoleFeature>(DesignBench.Begun(Plain), FeatureKind.PinSlot));
        Assert.Equal(2 * job.BlockMaterial.ExpansionPerK * span * job.Rules.TemperatureSwingK, slot.SlotLength, 1e-9);
        Job wide = job with
        {
            BlockMaterial = job.BlockMaterial with { ExpansionPerK = 1.5e-4 },
            Rules = job.Rules with { TemperatureSwingK = 10 },
            Plate = job.Plate with
            {
                Openings =
                [
                    .. job.Plate.Openings.Select(o =>
                        o.Kind == OpeningKind.PinSlot ? o with { At = job.Plate.PinRound.At + new Point2(180, 0) } : o
                    ),
                ],
            },
        };
        Assert.Equal(0.27, FixtureGen.Design.Block.Pins.Growth(wide), 0.001);
    }

    [Fact]
    public void The_slot_lies_along_the_pin_line_and_only_the_round_hole_takes_a_bush()
    {
        Job job = With(o => o.Kind == OpeningKind.PinSlot ? o with { At = o.At + new Point2(0, 1) } : o);
        FixtureDesign design = DesignBench.Begun(Plain, job);
        HoleFeature slot = Assert.Single(DesignBench.All<HoleFeature>(design, FeatureKind.PinSlot));
        HoleFeature round = Assert.Single(DesignBench.All<HoleFeature>(design, FeatureKind.PinHole));
        Point2 line = slot.At - round.At;
        Assert.Equal(Math.Atan2(line.Y, line.X) * 180 / Math.PI, slot.SlotAngleDeg, 1e-9);
        Assert.Equal(job.Pin.SlipHole, slot.Diameter);
        Assert.Equal(job.Pin.BushDiameter, round.Diameter);
        Job metal = job with { BlockMaterial = job.BlockMaterial with { IsPlastic = false } };
        Assert.Equal(
            job.Pin.SlipHole,
            Assert.Single(DesignBench.All<HoleFeature>(DesignBench.Begun(Plain, metal), FeatureKind.PinHole)).Diameter
        );
    }

    [Fact]
    public void Pins_without_relief_are_bored_blind_from_below()
    {
        Job job = With(o =>
            o.Kind is OpeningKind.PinRound or OpeningKind.PinSlot ? o with { ReliefDiameter = 0, ReliefDepth = 0 } : o
        );
        FixtureDesign design = DesignBench.Begun(Plain, job);
        Assert.All(
            design.Features.OfType<HoleFeature>().Where(h => h.Kind is FeatureKind.PinHole or FeatureKind.PinSlot),
            h =>
            {
                Assert.Equal(Setup.Underside, h.Setup);
                Assert.True(h.TopZ > job.Pin.Projection && h.TopZ <= design.FixtureHeight - job.Rules.LeastFloor);
            }
        );
    }

    [Fact]
    public void A_hole_that_would_open_the_plate_seal_is_refused_with_the_amount()
    {
        Job job = With(o => o.Kind == OpeningKind.PinRound ? o with { At = new Point2(60, 26) } : o);
        Stage<FixtureDesign> stage = DesignBench.Begin(Plain, job);
        Finding finding = DesignBench.Finding(stage, "hole-in-plate-seal");
        Assert.False(stage.Ok);
        double distance = Inside.Contains(job.Plate.SealLoop, new Point2(60, 26))
            ? -Measure.Distance(new Point2(60, 26), job.Plate.SealLoop)
            : Measure.Distance(new Point2(60, 26), job.Plate.SealLoop);
        double needed = (job.Pin.BushDiameter / 2) + (job.Plate.SealGrooveWidth / 2) + job.Plate.PlacingTolerance;
        Assert.Equal(needed - distance, DesignBench.Amounts(finding)[0], 0.01);
    }

    [Fact]
    public void A_plate_on_which_a_block_goes_two_ways_is_warned_about()
    {
        Box2 block = new(0, 0, 215.9, 215.9);
        Plate even = DesignBench.Job.Plate with
        {
            Stops = [],
            Openings =
            [
                .. DesignBench.Job.Plate.Openings.Select(o =>
                    o.Kind switch
                    {
                        OpeningKind.PinRound => o with { At = new Point2(40, 107.95) },
                        OpeningKind.PinSlot => o with { At = new Point2(175.9, 107.95) },
                        _ => o,
                    }
                ),
            ],
        };
        Assert.NotNull(OneWayOnly.OtherWay(even, block));
        Assert.Null(OneWayOnly.OtherWay(DesignBench.Job.Plate, block));
    }

    [Fact]
    public void Too_little_to_skim_says_how_much_and_what_thickness_would_do()
    {
        Job job = DesignBench.Job with { BlankThickness = DesignBench.Job.Rules.FixtureHeight + 0.05 };
        Stage<FixtureDesign> stage = DesignBench.Begin(Plain, job);
        Assert.Contains(
            "0.05 mm to skim",
            DesignBench.Finding(stage, "skim-too-thin").Message,
            StringComparison.Ordinal
        );
        Assert.False(stage.Ok);
    }

    /// <summary>0.4 mm to skim of a blank that may be 0.5 mm thinner: its face would stay raw and the cord would not seal.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Skim_that_misses_the_thinnest_blank_is_refused_until_the_block_is_measured(bool measured)
    {
        Job job = DesignBench.Job with
        {
            BlankThickness = DesignBench.Job.Rules.FixtureHeight + 0.4,
            Blank = DesignBench.Job.Blank with { ThicknessTolerance = 0.5 },
            BlockMeasured = measured,
        };
        Stage<FixtureDesign> stage = DesignBench.Begin(Plain, job);
        Assert.Equal(measured, stage.Findings.All(f => f.Code != "skim-too-thin"));
        Assert.True(
            measured
                || DesignBench
                    .Finding(stage, "skim-too-thin")
                    .Message.Contains("stays raw, 0.1 mm below the skim", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void A_blank_that_does_not_cover_the_plate_seal_is_refused()
    {
        Job job = DesignBench.Job with { Blank = DesignBench.Job.Blank with { Width = 180, Height = 215.9 } };
        Stage<FixtureDesign> stage = Designer.Begin(
            DesignBench.Rectangle(60, 50, 8),
            new Placement(new Pose(60, 80, 0), job.Blank, new Box2(0, 0, 180, 215.9)),
            job,
            Tolerances.House
        );
        DesignBench.Finding(stage, "blank-inside-plate-seal");
        Assert.False(stage.Ok);
    }

    private static Job With(Func<PlateOpening, PlateOpening> change) =>
        DesignBench.Job with
        {
            Plate = DesignBench.Job.Plate with { Openings = [.. DesignBench.Job.Plate.Openings.Select(change)] },
        };
}
