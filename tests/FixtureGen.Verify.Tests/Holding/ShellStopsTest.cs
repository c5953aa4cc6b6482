using FixtureGen.Model;
using FixtureGen.Verify.Holding;
using FixtureGen.Verify.Tests.Support;
using Xunit;

namespace FixtureGen.Verify.Tests.Holding;

/// <summary>
/// What stops a shell, and how strongly: pin of 6.35 mm in a hole of a 1.5 mm shell that yields at 38 N/mm2, worked by hand (bearing at
/// 1.0 times the yield, shear-out by von Mises' 0.577).
/// </summary>
public sealed class ShellStopsTest
{
    private static Job Job { get; } =
        TrimShop.Job with
        {
            Locator = LocatorKind.Pins,
            LocatorPins = [new Point2(13, 50), new Point2(87, 50)],
            Shell = new Shell("shell", 1.5, 1.65, 0.1, 0.2) { ThicknessMin = 1.5 },
            Rules = TrimShop.Job.Rules with { LocatorPinDiameter = 6.35 },
            ShellMaterial = TrimShop.Job.ShellMaterial with { Sheet = new SheetStrength(38, 2200, 0.35, 0.003) },
        };

    /// <summary>Far from every edge the hole bears 362.0 N.</summary>
    [Fact]
    public void A_pin_bears_in_its_hole() => Assert.Equal(362.0, First(Job).Hold, 0.1);

    // from the hole to the block's edge 6.35 mm: 2 x 0.577 x 38 x 1.5 x 3.175 = 208.9 N
    [Fact]
    public void A_pin_near_the_edge_shears_out() =>
        Assert.Equal(208.9, First(Job with { LocatorPins = [new Point2(6.35, 50), new Point2(87, 50)] }).Hold, 0.1);

    [Fact]
    public void The_second_pin_sits_in_a_slot_along_the_line_of_both()
    {
        Grip[] stops = new ShellStops(Job, TrimShop.Design).Whole;
        Assert.Equal(default, stops[0].Across);
        Assert.Equal(1, Math.Abs(stops[1].Across.Y), 1e-9);
        Grip[] round = new ShellStops(Job with { LocatorHoles = LocatorHoles.Round }, TrimShop.Design).Whole;
        Assert.Equal(default, round[1].Across);
    }

    // 0.577 x 38 x 4 mm x 0.5 mm = 43.9 N
    [Fact]
    public void While_the_outline_is_cut_pins_in_the_scrap_hold_through_bridges_only()
    {
        Assert.All(new ShellStops(Job, TrimShop.Design).Cut, c => Assert.Empty(c));
        Grip[][] both = new ShellStops(Job, TrimShop.Tabbed).Cut;
        Assert.Equal(2, both.Length);
        Assert.Equal(0.577 * 38 * 4 * 0.5, Assert.Single(both[0]).Hold, 0.01);
        Assert.Equal(2, both[1].Length);
    }

    /// <summary>A job turned on the blank has its pins turned with it, about the drawing's origin.</summary>
    [Fact]
    public void Pins_are_placed_with_the_part()
    {
        FixtureDesign turned = TrimShop.Design with
        {
            Placement = TrimShop.Design.Placement with { Pose = new Pose(100, 0, 90) },
        };
        Point2 at = new ShellStops(Job, turned).Whole[0].At;
        Assert.Equal(50, at.X, 1e-9);
        Assert.Equal(13, at.Y, 1e-9);
    }

    [Fact]
    public void Without_figures_for_the_sheet_nothing_counts()
    {
        Job unknown = Job with { ShellMaterial = TrimShop.Job.ShellMaterial };
        Assert.Empty(new ShellStops(unknown, TrimShop.Tabbed).Whole);
        Assert.All(new ShellStops(unknown, TrimShop.Tabbed).Cut, c => Assert.Empty(c));
    }

    private static Grip First(Job job) => new ShellStops(job, TrimShop.Design).Whole[0];
}
