using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Design;

public sealed class SkirtLandTest
{
    private static readonly Job Held = DesignBench.Job with { Skirt = SkirtHold.SealedLand };

    [Fact]
    [Trait("Speed", "Slow")]
    public void The_scrap_has_its_own_sealed_land_outside_the_relief()
    {
        Stage<FixtureDesign> stage = DesignBench.Begin(DesignBench.Rectangle(90, 70, 12), Held);
        FixtureDesign design = DesignBench.Value(DesignBench.Finish(DesignBench.Value(stage), Held));
        Assert.Single(design.Zones);
        Assert.Single(design.Cords);
        Assert.NotEmpty(design.SkirtZones);
        Assert.Equal(design.SkirtZones.Sum(z => z.Boundary.Contours.Count()), design.SkirtCords.Length);
        Assert.All(
            design.SkirtZones,
            z => Assert.DoesNotContain(z.Boundary.Outer.Segments, s => Inside.Contains(design.Part.Outer, s.Start))
        );
        double radius = DesignBench.BendRadius(Held) - 0.01;
        NetTopologySuite.Geometries.Geometry skirt = NtsShape.Of(design.SkirtZones.Select(z => z.Boundary));
        Assert.InRange(NtsShape.SticksOut(skirt, radius), 0, 0.03);
        Assert.InRange(NtsShape.SticksOut(NtsShape.Complement(skirt, 4 * radius), radius), 0, 0.03);
        Assert.Equal(1 + design.SkirtZones.Length, DesignBench.All<GrooveFeature>(design, FeatureKind.Net).Count());
        Assert.Equal(Severity.Note, DesignBench.Finding(stage, "skirt-reach").Severity);
    }

    [Fact]
    public void Without_room_for_it_the_design_is_refused_with_the_amount()
    {
        Stage<FixtureDesign> stage = DesignBench.Begin(DesignBench.Rectangle(180, 160, 12), Held);
        Assert.False(stage.Ok);
        Finding finding = DesignBench.Finding(stage, "skirt-land-no-room");
        double[] told = DesignBench.Amounts(finding);
        Assert.Equal(told[1] - told[0], told[2], 0.02);
    }

    /// <summary>"Take a larger blank, a thinner cord" was said without a try: what is said now does.</summary>
    [Theory]
    [InlineData(180, 160)]
    [InlineData(150, 130)]
    [InlineData(160, 144)]
    [InlineData(164, 146)]
    public void What_is_said_to_give_it_room_does(double width, double height)
    {
        Part part = DesignBench.Rectangle(width, height, 12);
        bool HasRoom(Job job) => DesignBench.Begin(part, job).Findings.All(f => f.Code != "skirt-land-no-room");
        if (DesignBench.Begin(part, Held).Findings.FirstOrDefault(f => f.Code == "skirt-land-no-room") is not { } none)
        {
            return;
        }
        Job[] others = [.. Held.OtherGaskets.Select(g => Held with { Gasket = g })];
        Job? cord = others.FirstOrDefault(j => none.Remedy.Contains($"\"{j.Gasket.Name}\"", StringComparison.Ordinal));
        double land = none.Remedy.StartsWith("state [rules] land", StringComparison.Ordinal) ? 1.5 : Held.Rules.Land;
        if (none.Remedy.StartsWith("no cord", StringComparison.Ordinal))
        {
            Assert.DoesNotContain(others, HasRoom);
        }
        else
        {
            Job stated = cord ?? Held;
            Assert.True(HasRoom(stated with { Rules = stated.Rules with { Land = land } }), none.Remedy);
        }
        TestContext.Current.TestOutputHelper?.WriteLine(none.Remedy);
    }

    [Fact]
    public void Tabs_need_no_land() => Assert.Empty(DesignBench.Begun(DesignBench.Rectangle(90, 70, 12)).SkirtZones);
}
