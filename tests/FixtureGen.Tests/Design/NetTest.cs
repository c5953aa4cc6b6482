using FixtureGen.Design;
using FixtureGen.Design.Seals;
using FixtureGen.Design.Vacuum;
using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Design;

public sealed class NetTest
{
    [Theory]
    [MemberData(nameof(DesignBench.Names), MemberType = typeof(DesignBench))]
    public void No_point_of_a_zone_is_farther_from_the_net_than_stated(string name)
    {
        FixtureDesign design = DesignBench.Finished(DesignBench.Named(name));
        Region[] net = [.. DesignBench.All<GrooveFeature>(design, FeatureKind.Net).SelectMany(g => g.Removals[0].Area)];
        foreach (SealedZone zone in design.Zones)
        {
            Box2 box = Measure.Bounds(zone.Sealed);
            for (double y = box.MinY; y < box.MaxY; y += 2.7)
            {
                for (double x = box.MinX; x < box.MaxX; x += 2.7)
                {
                    Point2 p = new(x, y);
                    if (Inside.Contains(zone.Sealed, p) && !Inside.Contains(net, p))
                    {
                        Assert.InRange(Measure.Distance(p, net), 0, DesignBench.Job.Rules.NetReach + 1.5);
                    }
                }
            }
        }
    }

    [Theory]
    [MemberData(nameof(DesignBench.Names), MemberType = typeof(DesignBench))]
    [Trait("Speed", "Slow")]
    public void The_net_keeps_a_land_from_gasket_grooves_and_pockets_and_hangs_together_with_the_port(string name)
    {
        FixtureDesign begun = DesignBench.Begun(DesignBench.Named(name));
        FixtureDesign design = DesignBench.Value(
            Designer.Finish(begun, DesignBench.AMagnet(begun), DesignBench.Job, Tolerances.House)
        );
        double land = DesignBench.Job.Rules.Land - 0.01;
        NetTopologySuite.Geometries.Geometry walls = NtsShape.Of(
            design
                .Removals.Where(r => r.Kind is FeatureKind.GasketGroove or FeatureKind.MagnetPocket)
                .SelectMany(r => r.Area)
        );
        foreach (GrooveFeature net in DesignBench.All<GrooveFeature>(design, FeatureKind.Net))
        {
            Assert.InRange(NtsShape.Of(net.Removals[0].Area).Distance(walls), land, double.MaxValue);
            foreach (Region piece in net.Removals[0].Area)
            {
                Assert.Contains(
                    DesignBench.All<HoleFeature>(design, FeatureKind.Port),
                    h => Inside.Contains(piece, h.At) || Measure.Distance(h.At, piece) < h.Diameter / 2
                );
            }
        }
    }

    [Fact]
    public void The_net_is_cut_by_one_end_mill_and_no_wider_than_two_shells()
    {
        Job job = DesignBench.Job;
        GrooveFeature net = Assert.Single(
            DesignBench.All<GrooveFeature>(DesignBench.Finished(DesignBench.Rectangle(140, 90, 12)), FeatureKind.Net)
        );
        Assert.Contains(job.Tools, t => t.Kind == ToolKind.EndMill && Math.Abs(t.Diameter - net.Width) < 1e-9);
        Assert.True(net.Width <= 2 * job.Shell.Thickness);
    }

    [Fact]
    public void Where_the_shell_is_thinner_than_half_the_smallest_mill_the_dimple_is_told()
    {
        Job job = DesignBench.Job with { Shell = DesignBench.Job.Shell with { Thickness = 0.8 } };
        FixtureDesign begun = DesignBench.Begun(DesignBench.Rectangle(140, 90, 12), job);
        Stage<FixtureDesign> stage = DesignBench.Finish(begun, job);
        Assert.Contains("micrometres", DesignBench.Finding(stage, "net-wide").Message, StringComparison.Ordinal);
    }

    /// <summary>
    /// Built-in strip: w = p b^4 / (384 D) (Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, from memory).
    /// 3 mm wide, 1 mm thick, 0.1 MPa, E 2000, v 0.38: D = 194.8 N.mm, w = 0.1 x 81 / (384 x 194.8) = 1.083e-4 mm.
    /// </summary>
    [Fact]
    public void Dimple_of_a_built_in_strip() => Assert.Equal(1.083e-4, NetWidth.Dimple(3, 1, 0.1), 1e-7);

    [Fact]
    public void Every_zone_hangs_on_a_port_in_the_vacuum_path()
    {
        FixtureDesign design = DesignBench.Finished(DesignBench.Dumbbell());
        Assert.Empty(VacuumGraph.Check(design.Zones, design.VacuumPath, DesignBench.Job.Plate));
        Assert.All(design.VacuumPath, l => Assert.True(l.SectionMm2 > 0));
        VacuumLink cut = design.VacuumPath.First(l => l.To == "net 1");
        Finding off = Assert.Single(
            VacuumGraph.Check(design.Zones, design.VacuumPath.Remove(cut), DesignBench.Job.Plate)
        );
        Assert.Equal("zone-cut-off", off.Code);
    }

    [Fact]
    public void A_magnet_on_the_port_blocks_it()
    {
        FixtureDesign begun = DesignBench.Begun(DesignBench.Rectangle(140, 90, 12));
        Stage<FixtureDesign> stage = Designer.Finish(
            begun,
            [new MagnetPlace(begun.Zones[0].PortAt, Locked: true, FromDrawing: false)],
            DesignBench.Job,
            Tolerances.House
        );
        Assert.False(stage.Ok);
        DesignBench.Finding(stage, "port-blocked");
        DesignBench.Finding(stage, "magnet-wall");
    }
}
