using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Design;

public sealed class CordsTest
{
    [Theory]
    [MemberData(nameof(DesignBench.Names), MemberType = typeof(DesignBench))]
    public void Each_boundary_has_one_groove_and_one_cord_a_little_longer_than_its_centre_line(string name)
    {
        Gasket gasket = DesignBench.Job.Gasket;
        FixtureDesign design = DesignBench.Begun(DesignBench.Named(name));
        GrooveFeature[] grooves = [.. DesignBench.All<GrooveFeature>(design, FeatureKind.GasketGroove)];
        Assert.Equal(design.Zones.Sum(z => z.Boundary.Contours.Count()), design.Cords.Length);
        Assert.Equal(design.Cords.Select(c => c.Centre), grooves.Select(g => g.Loops[0]));
        Assert.All(grooves, g => Assert.Equal(gasket.GrooveDepth, g.TopZ - g.FloorZ, 1e-9));
        Assert.All(
            design.Cords,
            c =>
            {
                Assert.Equal(Measure.Length(c.Centre), c.Length, 1e-9);
                Assert.InRange(c.CutLength / c.Length, 1.01, 1.02);
                Assert.Equal(0, Measure.Distance(c.Joint, c.Centre), 1e-6);
            }
        );
    }

    [Fact]
    public void The_joint_is_the_middle_of_the_longest_straight()
    {
        CordLoop cord = Assert.Single(DesignBench.Begun(DesignBench.Rectangle(140, 90, 12)).Cords);
        double longest = cord.Centre.Segments.Where(s => !s.IsArc).Max(s => s.Length);
        Assert.Contains(
            cord.Centre.Segments,
            s => !s.IsArc && s.Length > longest - 1e-6 && Measure.PointAt(s, 0.5).DistanceTo(cord.Joint) < 1e-6
        );
    }

    [Fact]
    public void A_round_part_has_its_joint_on_the_loop_all_the_same()
    {
        CordLoop cord = Assert.Single(DesignBench.Begun(DesignBench.Of(Contours.Circle(new(0, 0), 45))).Cords);
        Assert.Equal(0, Measure.Distance(cord.Joint, cord.Centre), 1e-6);
    }
}
