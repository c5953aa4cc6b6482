using System.Collections.Immutable;
using FixtureGen.Design;
using FixtureGen.Design.Block;
using FixtureGen.Design.Vacuum;
using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Design;

public sealed class ReachedAreaTest
{
    /// <summary>A plate with a single way to its vacuum, so that nothing feeds the far end of a zone from below.</summary>
    private static readonly Job OnePort = DesignBench.Job with { Plate = DesignBench.Job.Plate with { Grooves = [] } };

    private readonly Kernel _kernel = new(Tolerances.House);

    /// <summary>A straight groove 3 wide and 40 long reaches 25 mm round it: 40 x 53 and a disc of 26.5 (a stadium, closed form).</summary>
    [Fact]
    public void A_straight_groove_reaches_a_stadium()
    {
        ImmutableArray<Region> plate = [Region.From(Contours.Rectangle(new Box2(0, 0, 200, 100)))];
        ImmutableArray<Region> net = _kernel.Stroke(new OpenPath([Segment.Line(new(80, 50), new(120, 50))]), 3);

        ImmutableArray<Region> reached = ReachedArea.Around(net, [], plate, 25, _kernel);

        Assert.Equal((40 * 53) + (Math.PI * 26.5 * 26.5), Measure.Area(reached), 1e-6);
    }

    /// <summary>What lies on the other side of a gasket is near enough, and no air comes there.</summary>
    [Fact]
    public void A_piece_without_a_groove_is_not_reached()
    {
        Region left = Region.From(Contours.Rectangle(new Box2(0, 0, 40, 30)));
        Region right = Region.From(Contours.Rectangle(new Box2(50, 0, 60, 30)));
        ImmutableArray<Region> net = _kernel.Stroke(new OpenPath([Segment.Line(new(20, 5), new(20, 25))]), 3);

        Assert.Equal(1200, Measure.Area(ReachedArea.Around(net, [], [left, right], 45, _kernel)), 1e-6);
    }

    [Fact]
    public void All_of_a_zone_counts_until_its_net_is_laid_and_then_what_is_reached()
    {
        FixtureDesign begun = DesignBench.Begun(DesignBench.Rectangle(190, 46, 12), OnePort);
        SealedZone whole = Assert.Single(begun.Zones);
        Assert.Equal(whole.Sealed, whole.Reached);

        SealedZone zone = Assert.Single(DesignBench.Value(Cut(begun, OnePort)).Zones);

        double unreached = Measure.Area(zone.Sealed) - Measure.Area(zone.Reached);
        Assert.InRange(unreached, 500, Measure.Area(zone.Sealed) / 2);
    }

    /// <summary>
    /// Two magnets asked for side by side across a long zone: the net ends before them. Once the far end counted at full
    /// vacuum.
    /// </summary>
    [Fact]
    public void Magnets_that_cut_the_net_are_named_with_what_they_cost()
    {
        FixtureDesign begun = DesignBench.Begun(DesignBench.Rectangle(190, 46, 12), OnePort);
        Stage<FixtureDesign> stage = Cut(begun, OnePort);
        SealedZone zone = DesignBench.Value(stage).Zones[0];
        Finding cut = DesignBench.Finding(stage, "net-cut-by-magnets");
        string lost = FindingWords.Area(Measure.Area(zone.Sealed) - Measure.Area(zone.Reached));
        Assert.Equal(
            $"{lost} of the zone lie farther than 25 mm from any vacuum groove, with magnet 1 (asked for) in the way of one: the vacuum is not counted there",
            cut.Message
        );
        Assert.Equal($"move magnet 1 (asked for) out of its way: the net then reaches {lost} more", cut.Remedy);
    }

    /// <summary>Over a plate whose grooves feed both ends the same two cost a land, and both are named.</summary>
    [Fact]
    public void Magnets_that_the_net_passes_at_a_wall_are_named()
    {
        Job job = DesignBench.Job;
        Stage<FixtureDesign> stage = Cut(DesignBench.Begun(DesignBench.Rectangle(190, 46, 12)), job);
        Finding near = DesignBench.Finding(stage, "net-near-pocket");
        Assert.DoesNotContain(stage.Findings, f => f.Code is "net-reach" or "net-cut-by-magnets");
        Assert.Equal(
            "the vacuum net passes magnets 1 (asked for), 2 (asked for) at a wall of 1.5 mm instead of a land of 3.2 mm: with a land it would reach less of the zone",
            near.Message
        );
    }

    [Fact]
    public void Room_that_lands_leave_no_net_is_told_with_the_reach_that_would_count_it()
    {
        Finding finding = NetFindings.NetReach(2, new Point2(12.34, 5), 4321, 25, 8.2);
        Assert.Equal("zone 2 at X12.3 Y5.0", finding.Where);
        Assert.Equal(
            "43.2 cm2 of the zone lie farther than 25 mm from any vacuum groove, this point by 8.2 mm: lands leave no room for one, and the vacuum is not counted there",
            finding.Message
        );
        Assert.EndsWith("a net_reach of 34 mm counts it", finding.Remedy, StringComparison.Ordinal);
    }

    /// <summary>Two pockets across the zone with a wall between them, locked.</summary>
    private static Stage<FixtureDesign> Cut(FixtureDesign begun, Job job)
    {
        Box2 box = Measure.Bounds(begun.Zones[0].Boundary);
        ImmutableArray<MagnetPlace> two =
        [
            .. new[] { -1, 1 }.Select(side => new MagnetPlace(
                new(box.MinX + 45, box.Middle.Y + (side * 7.3)),
                Locked: true,
                FromDrawing: false
            )),
        ];
        return Designer.Finish(begun, two, job, Tolerances.House);
    }
}
