using System.Collections.Immutable;
using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Design;

/// <summary>Plugs raised from a thick block: inside their form at every height, no higher than it, and only where they are asked for or needed.</summary>
public sealed class PlugsTest
{
    private static readonly Kernel Exact = new(Tolerances.House);

    private static FormRegion Flat { get; } =
        new(Contours.RoundedRectangle(new Box2(45, 35, 115, 85), 12), FormDirection.Up, 15, 6);

    private static FormRegion Cap { get; } =
        new(Contours.Circle(new(80, 60), 30), FormDirection.Up, 12, 0) { Top = FormTop.Cap };

    /// <summary>A block of 38.1 mm, its face at 20 mm.</summary>
    private static Job Thick { get; } =
        DesignBench.Job with
        {
            BlankThickness = 38.1,
            Blank = DesignBench.Job.Blank with { Thickness = 38.1 },
            Rules = DesignBench.Job.Rules with { FixtureHeight = 20 },
        };

    private static Part With(FormRegion form) => DesignBench.Rectangle(160, 120, 12) with { Forms = [form] };

    private static FixtureDesign Raised(FormRegion form) =>
        DesignBench.Finished(With(form with { Plug = PlugWish.Always }), Thick);

    [Theory]
    [InlineData(PlugWish.Auto, true)]
    [InlineData(PlugWish.Always, true)]
    [InlineData(PlugWish.Never, false)]
    public void A_weak_form_gets_a_plug_unless_it_must_not(PlugWish wish, bool plug)
    {
        Stage<FixtureDesign> stage = DesignBench.Begin(With(Flat with { Plug = wish }), Thick);
        Assert.Equal(plug, stage.Ok);
        Assert.Equal(plug, stage.Value!.Features.Any(f => f.Kind == FeatureKind.Plug));
        Assert.Equal(!plug, stage.Findings.Any(f => f.Code is "form-buckles" or "form-strained"));
    }

    [Fact]
    public void A_form_that_stands_alone_gets_none_unless_it_is_asked_for()
    {
        FormRegion stiff = Cap with { ThicknessMin = 3, Height = 28 };
        FixtureDesign left = DesignBench.Begun(With(stiff), Thick);
        Assert.True(Assert.Single(left.Bearings).StandsAlone);
        Assert.DoesNotContain(left.Features, f => f.Kind == FeatureKind.Plug);
        Assert.Contains(
            DesignBench.Begin(With(stiff with { Height = 15, Plug = PlugWish.Always }), Thick).Value!.Features,
            f => f.Kind == FeatureKind.Plug
        );
    }

    [Fact]
    public void Every_terrace_keeps_the_running_clearance_from_the_drafted_wall()
    {
        FixtureDesign design = Raised(Flat);
        Contour edge = design.Part.Forms[0].Edge;
        double tangent = Math.Tan(6 * Math.PI / 180);
        foreach ((Region foot, double top) in Terraces(design))
        {
            double wall = (top - design.FixtureHeight) * tangent;
            Assert.True(Nearest(foot, edge) >= wall + Thick.Rules.RunningClearance - 1e-6);
        }
        Assert.InRange(Nearest(Terraces(design)[0].Foot, edge), 0, Thick.Rules.RunningClearance + 0.2);
        Assert.Equal(20 + 15 - Thick.Rules.RunningClearance, Terraces(design)[^1].Top, 1e-9);
    }

    /// <summary>A sphere through the edge and the pole: no point of a terrace comes nearer to it than the clearance.</summary>
    [Fact]
    public void Every_terrace_of_a_cap_lies_inside_its_sphere_by_the_clearance()
    {
        FixtureDesign design = Raised(Cap);
        double radius = ((30 * 30) + (12 * 12)) / 24.0;
        Point2 middle = Measure.Bounds(design.Part.Forms[0].Edge).Middle;
        double centre = design.FixtureHeight + 12 - radius;
        foreach ((Region foot, double top) in Terraces(design))
        {
            double out2 = Flatten.Points(foot.Outer, 0.001).Max(p => p.DistanceTo(middle));
            double away = radius - Math.Sqrt((out2 * out2) + ((top - centre) * (top - centre)));
            Assert.True(away >= Thick.Rules.RunningClearance - 2e-3, FormattableString.Invariant($"{away} at Z {top}"));
        }
    }

    [Fact]
    public void The_skim_stops_at_the_plug_and_the_rest_goes_down_to_the_face()
    {
        FixtureDesign design = Raised(Flat);
        PocketFeature skim = Assert.Single(DesignBench.All<PocketFeature>(design, FeatureKind.Skim));
        PocketFeature plug = Assert.Single(DesignBench.All<PocketFeature>(design, FeatureKind.Plug));
        Assert.Equal(skim.FloorZ, plug.TopZ, 1e-9);
        Assert.Equal(design.FixtureHeight, plug.FloorZ, 1e-9);
        Assert.Equal(skim.FloorZ + Thick.Rules.LeastSkim, design.BlankLeastSafe(Thick), 1e-9);
    }

    [Fact]
    public void The_net_goes_round_the_plug_and_the_whole_projection_is_reached()
    {
        FixtureDesign design = Raised(Flat);
        SealedZone zone = Assert.Single(design.Zones);
        Region foot = Assert.Single(zone.Plugs);
        GrooveFeature net = Assert.Single(DesignBench.All<GrooveFeature>(design, FeatureKind.Net));
        ImmutableArray<Region> area = [.. net.Removals.SelectMany(r => r.Area)];
        Assert.Empty(Exact.Intersect(area, Exact.Offset([foot], -0.03)));
        ImmutableArray<Region> round = Exact.Difference(Exact.Offset([foot], net.Width / 2), [foot]);
        Assert.True(Measure.Area(Exact.Difference(round, area)) < 0.5);
        Assert.Equal(Measure.Area(zone.Sealed), Measure.Area(zone.Reached), 1);
    }

    [Fact]
    public void A_plug_that_the_blank_is_too_thin_for_says_by_how_much()
    {
        Job thin = DesignBench.Job;
        Stage<FixtureDesign> stage = DesignBench.Begin(With(Flat), Thick with { BlankThickness = 34 });
        double needed = 20 + 15 - thin.Rules.RunningClearance + thin.Rules.LeastSkim;
        double[] amounts = DesignBench.Amounts(DesignBench.Finding(stage, "plug-too-tall"));
        Assert.Equal(needed, amounts[0], 0.011);
        Assert.Equal(needed - 34, amounts[^1], 0.011);
    }

    [Fact]
    public void A_plug_finds_the_shells_place_and_stops_it()
    {
        Job job = Thick with { Locator = LocatorKind.Form };
        FixtureDesign design = DesignBench.Begun(With(Flat), job);
        Assert.NotEmpty(FixtureGen.Holding.Stopping.Stops.Find(design, job).Outline);
        Stage<FixtureDesign> none = DesignBench.Begin(With(Flat with { Plug = PlugWish.Never }), job);
        DesignBench.Finding(none, "no-form-to-nest");
    }

    private static (Region Foot, double Top)[] Terraces(FixtureDesign design)
    {
        Removal[] levels = [.. design.Removals.Where(r => r.Kind == FeatureKind.Plug).OrderBy(r => r.FloorZ)];
        return
        [
            .. levels.Select(
                (r, i) =>
                    (
                        Region.From(Contours.Ccw(Assert.Single(Assert.Single(r.Area).Holes))),
                        i + 1 < levels.Length ? levels[i + 1].FloorZ : r.TopZ
                    )
            ),
        ];
    }

    private static double Nearest(Region foot, Contour edge) =>
        Flatten.Points(foot.Outer, 0.001).Min(p => Measure.Distance(p, edge));
}
