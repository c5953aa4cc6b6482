using FixtureGen.Design;
using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Design;

public sealed class LocatorsTest
{
    private static readonly Part Plain = DesignBench.Rectangle(140, 90, 12);

    [Fact]
    public void Nothing_stated_is_an_error()
    {
        Stage<FixtureDesign> stage = DesignBench.Begin(Plain, DesignBench.Job with { Locator = null });
        Assert.False(stage.Ok);
        DesignBench.Finding(stage, "no-locator");
    }

    [Fact]
    public void By_hand_warns_with_the_slack() =>
        Assert.Equal(
            Severity.Warning,
            DesignBench.Finding(DesignBench.Begin(Plain, DesignBench.Job), "located-by-hand").Severity
        );

    [Fact]
    public void Pins_stand_in_the_scrap_clear_of_the_relief()
    {
        Job job = DesignBench.Job with { Locator = LocatorKind.Pins, LocatorPins = [new(-12, 45), new(152, 45)] };
        FixtureDesign design = DesignBench.Begun(Plain, job);
        HoleFeature[] pins = [.. DesignBench.All<HoleFeature>(design, FeatureKind.LocatorHole)];
        Assert.Equal(2, pins.Length);
        Region[] relief = [.. DesignBench.All<PocketFeature>(design, FeatureKind.Relief).SelectMany(r => r.Area)];
        Assert.All(
            pins,
            p =>
            {
                Assert.InRange(Measure.Distance(p.At, relief) - (p.Diameter / 2), job.Rules.Wall - 0.001, 1000);
                Assert.True(p.FloorZ >= job.Rules.LeastFloor);
            }
        );
    }

    [Fact]
    public void A_pin_in_the_trim_cutters_way_is_refused_with_the_amount()
    {
        Job job = DesignBench.Job with
        {
            Locator = LocatorKind.Pins,
            LocatorPins = [new(-3, 45), new(152, 45)],
            Placement = new Pose(37.95, 60, 0),
        };
        Stage<FixtureDesign> stage = DesignBench.Begin(Plain, job);
        Assert.False(stage.Ok);
        double needed = DesignBench.Relief + (job.Rules.LocatorPinDiameter / 2) + job.Rules.Wall;
        Assert.Equal(needed - 3, DesignBench.Amounts(DesignBench.Finding(stage, "locator-in-the-way"))[0], 0.1);
    }

    [Fact]
    public void One_pin_is_too_few()
    {
        Job job = DesignBench.Job with { Locator = LocatorKind.Pins, LocatorPins = [new(-12, 45)] };
        DesignBench.Finding(DesignBench.Begin(Plain, job), "too-few-locator-pins");
    }

    /// <summary>Rigid PVC/acrylic sheet shrinks by 0.003 to 0.006 (from memory): 0.49 mm of difference over 164 mm, worked by hand.</summary>
    [Fact]
    public void Two_round_holes_far_apart_bind_a_shell_that_shrank_otherwise()
    {
        Finding f = DesignBench.Finding(DesignBench.Begin(Plain, RoundHoles(0.003, 0.006)), "locator-over-constrained");
        Assert.Equal(Severity.Warning, f.Severity);
        Assert.Equal(
            "round holes over two pins 164 mm apart: shells of different batches differ by 0.49 mm over that distance, 0.29 mm more than the holes' clearance of 0.2 mm",
            f.Message
        );
        Assert.Equal(
            "write holes = \"round-and-slot\", set the pins less than 66.67 mm apart, or widen rules.locator_hole_clearance to 0.5 mm",
            f.Remedy
        );
    }

    /// <summary>Its own remedies mend it: a slot, nearer pins, a wider hole; and a shell that hardly shrinks needs none.</summary>
    [Fact]
    public void A_slot_nearer_pins_a_wider_hole_or_a_shell_that_hardly_shrinks_do_not_bind()
    {
        Job round = RoundHoles(0.003, 0.006);
        Job[] good =
        [
            round with
            {
                LocatorHoles = LocatorHoles.RoundAndSlot,
            },
            round with
            {
                Rules = round.Rules with { LocatorHoleClearance = 0.5 },
            },
            RoundHoles(0.003, 0.0042),
        ];
        Assert.All(
            good,
            job =>
                Assert.DoesNotContain(DesignBench.Begin(Plain, job).Findings, f => f.Code == "locator-over-constrained")
        );
    }

    [Fact]
    public void A_shell_whose_shrinkage_nobody_states_is_told_what_it_may_not_exceed()
    {
        Job job = RoundHoles(0, 0);
        Job unknown = job with { ShellMaterial = job.ShellMaterial with { Sheet = null } };
        Finding f = DesignBench.Finding(DesignBench.Begin(Plain, unknown), "locator-over-constrained");
        Assert.EndsWith(
            "it must not differ by more than the holes' clearance of 0.2 mm",
            f.Message,
            StringComparison.Ordinal
        );
    }

    private static Job RoundHoles(double from, double to) =>
        DesignBench.Job with
        {
            Locator = LocatorKind.Pins,
            LocatorPins = [new(-12, 45), new(152, 45)],
            LocatorHoles = LocatorHoles.Round,
            ShellMaterial = DesignBench.Job.ShellMaterial with
            {
                Sheet = new SheetStrength(38, Interval.Between(1100, 2360), 0.38, Interval.Between(from, to)),
            },
        };

    [Fact]
    public void A_form_as_locator_needs_one_that_hangs_down()
    {
        Job job = DesignBench.Job with { Locator = LocatorKind.Form };
        DesignBench.Finding(DesignBench.Begin(Plain, job), "no-form-to-nest");
    }

    [Fact]
    public void A_hanging_form_gets_a_pocket_with_running_clearance_and_is_kept_out_of_the_seal()
    {
        Job job = DesignBench.Job with { Locator = LocatorKind.Form };
        Part part = DesignBench.Rectangle(160, 120, 12) with
        {
            Forms = [new(Contours.Circle(new(80, 60), 12), FormDirection.Down, 6, 3)],
        };
        FixtureDesign design = DesignBench.Begun(part, job);
        PocketFeature pocket = Assert.Single(DesignBench.All<PocketFeature>(design, FeatureKind.FormPocket));
        Assert.Equal(24 + (2 * job.Rules.RunningClearance), Measure.Bounds(pocket.Area).Width, 1e-6);
        Assert.Equal(design.FixtureHeight - 6 - job.Rules.RunningClearance, pocket.FloorZ, 1e-9);
        Assert.False(Inside.Contains(design.Zones[0].Boundary, Measure.Bounds(pocket.Area).Middle));
    }

    [Fact]
    public void A_form_too_deep_for_the_block_or_too_sharp_for_the_cutter_is_refused()
    {
        Job job = DesignBench.Job with { Locator = LocatorKind.Form };
        Part deep = DesignBench.Rectangle(160, 120, 12) with
        {
            Forms = [new(Contours.Circle(new(80, 60), 12), FormDirection.Down, 17, 3)],
        };
        Finding thin = DesignBench.Finding(Placing.Place(deep, job, Tolerances.House), "floor-thin");
        Assert.Contains("hdpe-8-5-thick", thin.Remedy, StringComparison.Ordinal);
        Part sharp = DesignBench.Rectangle(160, 120, 12) with
        {
            Forms = [new(Contours.Rectangle(new Box2(70, 50, 90, 70)), FormDirection.Down, 6, 3)],
        };
        Finding corner = DesignBench.Finding(Placing.Place(sharp, job, Tolerances.House), "form-corner-tight");
        // A disc of radius R in a corner of radius r stays (R - r)(sqrt 2 - 1) away from it; the pocket is the form outset by
        // the running clearance, which rounds its corners by as much.
        double cutter = job.Tools.Where(t => t.Kind == ToolKind.EndMill).Min(t => t.Radius);
        double left = (cutter - job.Rules.RunningClearance) * (Math.Sqrt(2) - 1);
        Assert.Equal(left, DesignBench.Amounts(corner)[0], 0.02);
    }

    [Fact]
    public void A_dome_that_a_hole_opens_warns_and_has_a_loop_round_it()
    {
        Part part = DesignBench.Rectangle(160, 120, 12, Contours.Circle(new(80, 60), 4)) with
        {
            Forms = [new(Contours.Circle(new(80, 60), 12), FormDirection.Up, 6, 3)],
        };
        Stage<FixtureDesign> stage = DesignBench.Begin(part, DesignBench.Job);
        Assert.Equal(Severity.Warning, DesignBench.Finding(stage, "form-up-in-seal").Severity);
        Assert.Equal(Severity.Error, DesignBench.Finding(stage, "cutout-on-form").Severity);
        Assert.Empty(DesignBench.All<PocketFeature>(stage.Value!, FeatureKind.FormPocket));
    }

    [Fact]
    public void A_keep_out_stays_outside_the_seal()
    {
        Contour keepOut = Contours.Circle(new(40, 60), 6);
        Part part = DesignBench.Rectangle(160, 120, 12) with { KeepOuts = [keepOut] };
        FixtureDesign design = DesignBench.Begun(part);
        Point2 middle = Transform.Apply(design.Placement.Pose, new Point2(40, 60));
        Assert.DoesNotContain(design.Zones, z => Inside.Contains(z.Sealed, middle));
    }
}
