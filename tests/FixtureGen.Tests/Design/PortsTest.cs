using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Design;

public sealed class PortsTest
{
    [Fact]
    public void A_zone_over_a_port_gets_a_hole_straight_through_into_it()
    {
        Job job = DesignBench.Job;
        FixtureDesign design = DesignBench.Begun(DesignBench.Rectangle(140, 90, 12));
        HoleFeature hole = Assert.Single(DesignBench.All<HoleFeature>(design, FeatureKind.Port));
        PlateOpening port = job.Plate.Ports.First();
        Assert.Equal(port.At, hole.At);
        Assert.True(hole is { BreaksThrough: true, FloorZ: 0, Setup: Setup.Top });
        Assert.True(port.ReliefDiameter >= hole.Diameter + 1);
        Assert.Contains(design.VacuumPath, l => l.From == port.Name && l.To == hole.Name && l.SectionMm2 > 0);
    }

    [Fact]
    public void Every_zone_has_its_own_way_to_the_port()
    {
        FixtureDesign design = DesignBench.Begun(DesignBench.Dumbbell());
        Assert.Equal(2, design.Zones.Length);
        Assert.Equal(2, DesignBench.All<HoleFeature>(design, FeatureKind.Port).Count());
        Assert.All(design.Zones, z => Assert.True(Inside.Contains(z.Sealed, z.PortAt)));
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void Without_plate_grooves_the_far_zone_is_fed_by_a_channel_from_below()
    {
        Job job = DesignBench.Job with { Plate = DesignBench.Job.Plate with { Grooves = [] } };
        FixtureDesign design = DesignBench.Begun(DesignBench.Dumbbell(), job);
        Assert.NotNull(design.Flip);
        GrooveFeature[] channels = [.. DesignBench.All<GrooveFeature>(design, FeatureKind.Channel)];
        Assert.NotEmpty(channels);
        foreach (GrooveFeature channel in channels)
        {
            Assert.Equal(Setup.Underside, channel.Setup);
            Assert.Equal(0, channel.FloorZ);
            Assert.Equal(job.Plate.Ports.First().At, channel.Runs[0].Start);
            HoleFeature hole = DesignBench
                .All<HoleFeature>(design, FeatureKind.Port)
                .Single(h => h.At.DistanceTo(channel.Runs[0].End) < 1e-9);
            Assert.True(hole.FloorZ < channel.TopZ, "the hole from the top meets the channel");
            Assert.False(hole.BreaksThrough);
        }
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void A_channel_stays_inside_the_plate_seal_and_clear_of_bolts_and_pins()
    {
        Job job = DesignBench.Job with { Plate = DesignBench.Job.Plate with { Grooves = [] } };
        FixtureDesign design = DesignBench.Begun(DesignBench.Dumbbell(), job);
        foreach (GrooveFeature channel in DesignBench.All<GrooveFeature>(design, FeatureKind.Channel))
        {
            foreach (Contour wall in channel.Removals[0].Area.Select(a => a.Outer))
            {
                Assert.All(wall.Segments, s => Assert.True(Inside.Contains(job.Plate.SealLoop, s.Start)));
            }
            foreach (
                HoleFeature hole in design
                    .Features.OfType<HoleFeature>()
                    .Where(h => h.Kind is FeatureKind.PinHole or FeatureKind.PinSlot or FeatureKind.BoltHole)
            )
            {
                double wall = Measure.Distance(hole.At, channel.Runs[0]) - (channel.Width / 2) - (hole.Diameter / 2);
                Assert.True(wall >= job.Rules.Wall, hole.Name);
            }
        }
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void A_port_without_relief_is_passed_over_with_a_finding()
    {
        Plate plate = DesignBench.Job.Plate with
        {
            Grooves = [],
            Openings =
            [
                .. DesignBench.Job.Plate.Openings.Select(o =>
                    o.Kind == OpeningKind.Port ? o with { ReliefDiameter = 0, ReliefDepth = 0 } : o
                ),
            ],
        };
        Stage<FixtureDesign> stage = DesignBench.Begin(
            DesignBench.Rectangle(140, 90, 12),
            DesignBench.Job with
            {
                Plate = plate,
            }
        );
        FixtureDesign design = DesignBench.Value(stage);
        DesignBench.Finding(stage, "opening-without-relief");
        Assert.Single(DesignBench.All<GrooveFeature>(design, FeatureKind.Channel));
        Assert.DoesNotContain(
            design.Features.OfType<HoleFeature>(),
            h => h is { Kind: FeatureKind.Port, BreaksThrough: true }
        );
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void A_plate_without_a_port_feeds_nothing_and_is_refused()
    {
        Plate plate = DesignBench.Job.Plate with
        {
            Grooves = [],
            Openings = [.. DesignBench.Job.Plate.Openings.Where(o => o.Kind != OpeningKind.Port)],
        };
        Stage<FixtureDesign> stage = DesignBench.Begin(
            DesignBench.Rectangle(140, 90, 12),
            DesignBench.Job with
            {
                Plate = plate,
            }
        );
        DesignBench.Finding(stage, "no-port");
        Assert.False(stage.Ok);
    }

    /// <summary>Over a hole the engraver's point presses the shell in: the port goes beside a mark.</summary>
    [Fact]
    public void A_hole_keeps_out_from_under_a_mark_on_the_shell()
    {
        Point2 port = DesignBench.Job.Plate.Ports.First().At;
        Part plain = DesignBench.Rectangle(140, 90, 12);
        Placement placement = DesignBench.Value(
            FixtureGen.Design.Placing.Place(plain, DesignBench.Job, Tolerances.House)
        );
        Point2 at = port - new Point2(placement.Pose.X, placement.Pose.Y);
        OpenPath stroke = new([Segment.Line(at - new Point2(6, 0), at + new Point2(6, 0))]);
        Part marked = plain with { Engravings = [new EngraveMark([stroke], "", at, 3, 0)] };
        FixtureDesign design = DesignBench.Begun(marked, DesignBench.Job with { Placement = placement.Pose });
        HoleFeature hole = Assert.Single(DesignBench.All<HoleFeature>(design, FeatureKind.Port));
        Assert.True(
            Measure.Distance(hole.At, design.Part.Engravings[0].Strokes[0].Segments[0]) > (hole.Diameter / 2) + 0.9
        );
    }

    [Fact]
    public void A_hole_keeps_out_of_the_way_of_a_magnet_the_drawing_asks_for()
    {
        Point2 port = DesignBench.Job.Plate.Ports.First().At;
        Placement placement = DesignBench.Value(
            FixtureGen.Design.Placing.Place(DesignBench.Rectangle(140, 90, 12), DesignBench.Job, Tolerances.House)
        );
        Part part = DesignBench.Rectangle(140, 90, 12) with
        {
            MagnetWishes = [port - new Point2(placement.Pose.X, placement.Pose.Y)],
        };
        FixtureDesign design = DesignBench.Begun(part, DesignBench.Job with { Placement = placement.Pose });
        HoleFeature hole = Assert.Single(DesignBench.All<HoleFeature>(design, FeatureKind.Port));
        Assert.True(hole.At.DistanceTo(port) > (DesignBench.Job.Magnet.Diameter + hole.Diameter) / 2);
    }
}
