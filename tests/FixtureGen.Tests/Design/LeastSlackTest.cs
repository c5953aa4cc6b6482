using FixtureGen.Design;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Design;

/// <summary>The least slack of a shell: what locates it leaves so much room, or says by how much it is too tight.</summary>
public sealed class LeastSlackTest
{
    private static readonly Part Cup = DesignBench.Rectangle(160, 120, 12) with
    {
        Forms = [new(Contours.Circle(new(80, 60), 12), FormDirection.Down, 6, 3)],
    };

    private static Job Stated(string slack, string more) =>
        DemoShop.Job(
            DemoShop.PlainJob(
                more: $"[shell]\nthickness = 1.5\nthickness_max = 1.65\nthickness_min = 1.35\nslack_max = 0.6\n{slack}\n{more}"
            )
        );

    /// <summary>A cup of 24 mm: the pocket is 24 + 2 x 0.25 without, 24 + 2 x 0.4 with a least slack of 0.4; and as much deeper.</summary>
    [Fact]
    public void A_nest_is_as_loose_as_the_least_slack_asks_for()
    {
        foreach ((string slack, double room) in (ReadOnlySpan<(string, double)>)[("", 0.25), ("slack_min = 0.4", 0.4)])
        {
            FixtureDesign design = DesignBench.Begun(Cup, Stated(slack, "[locator]\nby = \"form\""));
            PocketFeature pocket = Assert.Single(DesignBench.All<PocketFeature>(design, FeatureKind.FormPocket));
            Assert.Equal(24 + (2 * room), Measure.Bounds(pocket.Area).Width, 1e-6);
            Assert.Equal(design.FixtureHeight - 6 - room, pocket.FloorZ, 1e-9);
        }
    }

    [Fact]
    public void A_nest_that_is_stated_tighter_is_refused_with_the_amount()
    {
        Job job = Stated("slack_min = 0.4", "[locator]\nby = \"form\"\n[rules]\nrunning_clearance = 0.3");
        Finding f = DesignBench.Finding(Placing.Place(Cup, job, Tolerances.House), "nest-too-tight");
        Assert.Equal(Severity.Error, f.Severity);
        Assert.Equal(
            "the nest leaves 0.3 mm round the form, 0.1 mm less than the shell's least slack of 0.4 mm: it would bind before it seats",
            f.Message
        );
        Assert.Equal(
            "raise rules.running_clearance to 0.4 mm or more, or lower shell.slack_min if the shells are that alike",
            f.Remedy
        );
    }

    /// <summary>0.4 mm to every side is 0.8 mm on the hole's diameter.</summary>
    [Fact]
    public void Locator_holes_are_wider_than_their_pins_by_twice_the_least_slack()
    {
        Assert.Equal(0.2, Stated("", "").Rules.LocatorHoleClearance, 9);
        Assert.Equal(0.8, Stated("slack_min = 0.4", "").Rules.LocatorHoleClearance, 9);
    }

    [Fact]
    public void Locator_holes_that_are_stated_tighter_are_refused_with_the_amount()
    {
        Job job = Stated(
            "slack_min = 0.4",
            "[locator]\nby = \"pins\"\npins = [[-12, 45], [152, 45]]\n[rules]\nlocator_hole_clearance = 0.5"
        );
        Finding f = DesignBench.Finding(
            DesignBench.Begin(DesignBench.Rectangle(140, 90, 12), job),
            "locator-hole-tight"
        );
        Assert.Equal(Severity.Error, f.Severity);
        Assert.Equal(
            "the shell's holes are 0.5 mm wider than the locator pins, 0.3 mm less than twice the shell's least slack of 0.4 mm: it would bind on the pins",
            f.Message
        );
    }
}
