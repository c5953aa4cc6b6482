using FixtureGen.Design.Block;
using FixtureGen.Design.Vacuum;
using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Design;

public sealed class WishedPortTest
{
    private static readonly Part Plain = DesignBench.Rectangle(140, 90, 12);
    private static readonly FixtureDesign Free = DesignBench.Begun(Plain);

    private static Job Asking(Job job, params Point2[] plate) =>
        job with
        {
            Placement = Free.Placement.Pose,
            Ports = [.. plate.Select(p => Transform.Apply(Transform.Inverse(Free.Placement.Pose), p))],
        };

    [Fact]
    public void A_port_asked_for_where_it_would_be_anyway_changes_nothing()
    {
        FixtureDesign design = DesignBench.Begun(Plain, Asking(DesignBench.Job, Free.Zones[0].PortAt));
        Assert.True(design.Zones[0].PortAt.DistanceTo(Free.Zones[0].PortAt) < 1e-9);
        Assert.Equal(Free.Zones[0].Feeds, design.Zones[0].Feeds);
    }

    [Fact]
    public void A_little_beside_the_plate_port_the_hole_keeps_within_its_relief()
    {
        PlateOpening port = DesignBench.Job.Plate.Ports.First();
        Point2 at = port.At + new Point2(0.4, 0.3);
        FixtureDesign design = DesignBench.Begun(Plain, Asking(DesignBench.Job, at));
        HoleFeature hole = Assert.Single(DesignBench.All<HoleFeature>(design, FeatureKind.Port));
        Assert.True(hole.At.DistanceTo(at) < 1e-9);
        Assert.True(hole.BreaksThrough);
        Assert.True(0.5 + (hole.Diameter / 2) + BreakThrough.Beside <= (port.ReliefDiameter / 2) + 1e-9);
    }

    [Fact]
    public void A_hole_that_no_tool_makes_is_not_asked_for()
    {
        PlateOpening port = DesignBench.Job.Plate.Ports.First();
        Job job = DesignBench.Job with { Plate = DesignBench.Job.Plate with { Grooves = [] } };
        double room = (port.ReliefDiameter / 2) - BreakThrough.Beside;
        Point2 at = port.At + new Point2(room - (PortSize.UsualDiameter / 2) + 0.4, 0);
        FixtureDesign design = DesignBench.Begun(Plain, Asking(job, at));
        foreach (HoleFeature hole in DesignBench.All<HoleFeature>(design, FeatureKind.Port))
        {
            Assert.True(
                hole.Diameter >= PortSize.UsualDiameter || job.Tools.Any(t => t.Diameter == hole.Diameter),
                "a size of the shop's tools"
            );
        }
    }

    [Fact]
    public void Away_from_port_and_groove_it_is_fed_by_a_channel_to_just_there()
    {
        Job job = DesignBench.Job with { Plate = DesignBench.Job.Plate with { Grooves = [] } };
        Point2 at = Free.Zones[0].PortAt + new Point2(18, 6);
        FixtureDesign design = DesignBench.Begun(Plain, Asking(job, at));
        GrooveFeature channel = Assert.Single(DesignBench.All<GrooveFeature>(design, FeatureKind.Channel));
        Assert.True(channel.Runs[0].End.DistanceTo(at) < 1e-9);
        Assert.True(design.Zones[0].PortAt.DistanceTo(at) < 1e-9);
    }

    [Theory]
    [InlineData(0.0)]
    [InlineData(1.0)]
    public void Too_near_the_groove_it_is_refused_by_what_lacks_and_the_remedy_mends_it(double inside)
    {
        Contour loop = Free.Zones[0].Boundary.Outer;
        Point2 middle = Measure.Bounds(loop).Middle;
        Point2 edge = Measure.Closest(middle, loop);
        Point2 inward = (middle - edge) * (1 / middle.DistanceTo(edge));
        Job asking = Asking(DesignBench.Job, edge + (inward * (inside + 0.01)));
        Stage<FixtureDesign> stage = DesignBench.Begin(Plain, asking);
        Assert.False(stage.Ok);
        Finding finding = DesignBench.Finding(stage, "port-misplaced");
        PortFault fault = Assert.Single(PortClearances.Find(stage.Value!, asking, Tolerances.House));
        double needed = DesignBench.Job.Rules.Land + (DesignBench.Job.Gasket.GrooveWidth / 2) + (3.175 / 2);
        Assert.Equal(needed - inside - 0.01, fault.ShortBy, 1e-6);
        Assert.Equal(fault.ShortBy, DesignBench.Amounts(finding)[0], 0.01);
    }

    [Fact]
    public void Outside_every_zone_it_is_refused_with_the_way_back()
    {
        Box2 zone = Measure.Bounds(Free.Zones[0].Boundary.Outer);
        Stage<FixtureDesign> stage = DesignBench.Begin(
            Plain,
            Asking(DesignBench.Job, new Point2(zone.MaxX + 7, zone.Middle.Y))
        );
        Assert.False(stage.Ok);
        double needed = 7 + DesignBench.Job.Rules.Land + (DesignBench.Job.Gasket.GrooveWidth / 2) + (3.175 / 2);
        Assert.Equal(needed, DesignBench.Amounts(DesignBench.Finding(stage, "port-outside-zones"))[0], 0.01);
    }

    [Fact]
    public void Two_for_one_zone_are_one_too_many()
    {
        Point2 at = Free.Zones[0].PortAt;
        Stage<FixtureDesign> stage = DesignBench.Begin(Plain, Asking(DesignBench.Job, at, at + new Point2(10, 0)));
        Assert.False(stage.Ok);
        DesignBench.Finding(stage, "port-surplus");
    }
}
