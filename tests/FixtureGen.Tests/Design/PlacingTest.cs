using FixtureGen.Design;
using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Design;

public sealed class PlacingTest
{
    [Fact]
    public void A_part_that_fits_as_drawn_is_not_turned_and_lies_in_the_middle()
    {
        Placement placement = DesignBench.Value(
            Placing.Place(DesignBench.Rectangle(140, 90, 12), DesignBench.Job, Tolerances.House)
        );
        Assert.Equal(0, placement.Pose.AngleDeg);
        Assert.Equal(placement.BlankBox.Middle.X, placement.Pose.X + 70, DesignBench.Job.Rules.LeadRadius);
        Assert.Equal(placement.BlankBox.Middle.Y, placement.Pose.Y + 45, DesignBench.Job.Rules.LeadRadius);
    }

    [Fact]
    public void A_part_longer_than_the_blank_is_turned_onto_its_diagonal()
    {
        Placement placement = DesignBench.Value(
            Placing.Place(DesignBench.Rectangle(225, 46, 12), DesignBench.Job, Tolerances.House)
        );
        Assert.NotEqual(0, placement.Pose.AngleDeg % 90);
    }

    [Fact]
    public void The_stated_pose_is_kept()
    {
        Pose pose = new(30, 60, 5);
        Placement placement = DesignBench.Value(
            Placing.Place(
                DesignBench.Rectangle(140, 90, 12),
                DesignBench.Job with
                {
                    Placement = pose,
                },
                Tolerances.House
            )
        );
        Assert.Equal(pose, placement.Pose);
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void The_same_part_is_placed_the_same_way_each_time()
    {
        Placement a = DesignBench.Value(Placing.Place(DesignBench.Slotted(), DesignBench.Job, Tolerances.House));
        Placement b = DesignBench.Value(Placing.Place(DesignBench.Slotted(), DesignBench.Job, Tolerances.House));
        Assert.Equal(a, b);
    }

    [Fact]
    public void Turning_the_drawing_turns_the_placement_back()
    {
        Part part = DesignBench.Rectangle(205, 60, 12);
        Part upright = PlacedPart.Place(new Pose(3, -4, 45), part);
        Placement placement = DesignBench.Value(Placing.Place(upright, DesignBench.Job, Tolerances.House));
        Box2 relief = Measure.Bounds(PlacedPart.Place(placement.Pose, upright).Outer);
        Box2 block = placement.BlankBox;
        Assert.True(relief.MinX > block.MinX && relief.MaxX < block.MaxX);
        Assert.True(relief.MinY > block.MinY && relief.MaxY < block.MaxY);
    }

    [Fact]
    public void An_error_found_before_there_is_a_place_is_told_in_the_drawing()
    {
        Part square = new(
            DesignBench.Rectangle(140, 90, 12).Outer,
            [Contours.Cw(Contours.Rectangle(new(60, 40, 75, 55)))],
            [],
            [],
            [],
            []
        );
        Stage<Placement> stage = Placing.Place(square, DesignBench.Job, Tolerances.House);
        Finding finding = DesignBench.Finding(stage, "trim-corner-too-tight");
        Assert.Matches(@"^cutout at X(60|75)\.0 Y(40|55)\.0 of the drawing$", finding.Where);
    }

    [Fact]
    public void Too_big_says_by_how_much_and_which_blank_would_do()
    {
        Stage<Placement> stage = Placing.Place(DesignBench.Rectangle(215, 140, 12), DesignBench.Job, Tolerances.House);
        Assert.False(stage.Ok);
        Finding finding = DesignBench.Finding(stage, "part-does-not-fit");
        double relief = 215 + (2 * DesignBench.Relief);
        double room =
            DesignBench.Job.Blank.Width - (2 * (DesignBench.Job.Rules.Wall + DesignBench.Job.Plate.PlacingTolerance));
        Assert.Equal(relief - room, DesignBench.Amounts(finding)[^1], 0.1);
        Assert.Contains("hdpe-10", finding.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void Too_big_for_every_blank_says_so()
    {
        Stage<Placement> stage = Placing.Place(DesignBench.Rectangle(400, 300, 12), DesignBench.Job, Tolerances.House);
        Assert.Contains(
            "no blank of the shop",
            DesignBench.Finding(stage, "part-does-not-fit").Remedy,
            StringComparison.Ordinal
        );
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void Bolts_in_the_way_are_named_with_the_amount()
    {
        Stage<Placement> stage = Placing.Place(DesignBench.Rectangle(200, 200, 12), DesignBench.Job, Tolerances.House);
        Finding finding = DesignBench.Finding(stage, "part-does-not-fit");
        Assert.Contains("bolt", finding.Message, StringComparison.OrdinalIgnoreCase);
        Assert.True(DesignBench.Amounts(finding)[^1] > 0);
    }

    [Fact]
    public void A_stated_pose_with_a_bolt_under_the_part_is_refused_by_name()
    {
        Job job = DesignBench.Job with { Placement = new Pose(10, 10, 0) };
        Stage<FixtureDesign> stage = DesignBench.Begin(DesignBench.Rectangle(140, 90, 12), job);
        Finding finding = DesignBench.Finding(stage, "bolt-under-part");
        Assert.NotNull(finding.At);
        Assert.False(stage.Ok);
    }

    [Fact]
    public void A_stated_pose_over_the_edge_is_refused_with_the_amount()
    {
        Job job = DesignBench.Job with { Placement = new Pose(100, 60, 0) };
        Stage<FixtureDesign> stage = DesignBench.Begin(DesignBench.Rectangle(140, 90, 12), job);
        Finding finding = DesignBench.Finding(stage, "part-over-edge");
        double over = 100 + 140 + DesignBench.Relief - (job.Blank.Width - job.Rules.Wall - job.Plate.PlacingTolerance);
        Assert.Equal(over, DesignBench.Amounts(finding)[0], 0.02);
    }

    [Fact]
    public void A_part_that_can_lie_over_a_port_does()
    {
        Part part = DesignBench.Rectangle(60, 50, 8);
        Plate bare = DesignBench.Job.Plate with { Grooves = [] };
        FixtureDesign design = DesignBench.Begun(part, DesignBench.Job with { Plate = bare });
        Assert.Null(design.Flip);
        Assert.Equal(bare.Ports.First().Name, design.Zones[0].Feeds);
    }
}
