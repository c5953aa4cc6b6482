using System.Collections.Immutable;
using FixtureGen.Design;
using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Design;

/// <summary>Domes lie within the seal wherever the flange round them has room for the loop.</summary>
public sealed class SealedFormsTest
{
    private static readonly Kernel Exact = new(Tolerances.House);

    /// <summary>The shell that kept 13.6 cm2 in two scraps: 165 x 125 mm with a 110 x 70 mm form, 20 mm high.</summary>
    private static Part Domed(double flange = 27.5, params Contour[] cutouts) =>
        DesignBench.Rectangle(110 + (2 * flange), 70 + (2 * flange), 12, cutouts) with
        {
            Forms =
            [
                new(
                    Contours.RoundedRectangle(new Box2(flange, flange, flange + 110, flange + 70), 12),
                    FormDirection.Up,
                    20,
                    5
                ),
            ],
        };

    private static Job Job =>
        DesignBench.Job with
        {
            Shell = DesignBench.Job.Shell with { Thickness = 2, ThicknessMin = 1.8, ThicknessMax = 2.2 },
        };

    /// <summary>The zones as they are, whatever the form bears.</summary>
    private static FixtureDesign Begun(Part part) => DesignBench.Begin(part, Job).Value!;

    private static FixtureDesign Finished(Part part) => DesignBench.Value(DesignBench.Finish(Begun(part), Job));

    [Fact]
    public void Most_of_a_domed_shell_is_under_vacuum_in_one_zone()
    {
        Part part = Domed();
        FixtureDesign design = Finished(part);
        SealedZone zone = Assert.Single(design.Zones);
        double shell = Measure.Area(Region.From(part.Outer));
        Assert.InRange(Measure.Area(zone.Reached) / shell, 0.6, 1);
        Assert.Equal(Measure.Area(zone.Sealed), Measure.Area(zone.Reached), 1);
    }

    [Fact]
    public void The_loop_keeps_half_a_groove_and_a_land_from_the_form()
    {
        FixtureDesign design = Begun(Domed());
        Contour form = design.Part.Forms[0].Edge;
        double nearest = design
            .Zones.SelectMany(z => z.Boundary.Contours)
            .SelectMany(c => Flatten.Points(c, 0.01))
            .Min(p => Measure.Distance(p, form));
        Assert.True(nearest >= DesignBench.Keep(Job) - 0.01);
    }

    [Fact]
    public void A_groove_of_the_net_opens_into_the_hollow_by_its_width()
    {
        FixtureDesign design = Finished(Domed());
        Region hollow = Region.From(Contours.Ccw(design.Part.Forms[0].Edge));
        GrooveFeature net = Assert.Single(DesignBench.All<GrooveFeature>(design, FeatureKind.Net));
        ImmutableArray<Region> area = [.. net.Removals.SelectMany(r => r.Area)];
        Assert.True(Measure.Area(Exact.Intersect(area, [hollow])) >= net.Width * net.Width);
    }

    /// <summary>Its form stands near one edge; beside it there is room for a zone of its own.</summary>
    private static Part NearAnEdge(double flange) =>
        DesignBench.Rectangle(165, 150, 12) with
        {
            Forms =
            [
                new(Contours.RoundedRectangle(new Box2(30, flange, 135, flange + 50), 12), FormDirection.Up, 20, 5),
            ],
        };

    [Fact]
    public void A_flange_too_narrow_says_by_how_much_and_a_wider_one_by_that_will_do()
    {
        Stage<FixtureDesign> narrow = DesignBench.Begin(NearAnEdge(7), Job);
        Finding finding = DesignBench.Finding(narrow, "flange-too-narrow");
        Assert.Equal(Severity.Warning, finding.Severity);
        Assert.Empty(narrow.Value!.Zones.SelectMany(z => z.Hollows));
        double by = DesignBench.Amounts(finding)[0];
        Assert.InRange(by, 0.5, 10);
        Stage<FixtureDesign> wider = DesignBench.Begin(NearAnEdge(7 + by + 0.05), Job);
        Assert.DoesNotContain(wider.Findings, f => f.Code == "flange-too-narrow");
        Assert.Single(wider.Value!.Zones[0].Hollows);
        Stage<FixtureDesign> still = DesignBench.Begin(NearAnEdge(7 + by - 0.05), Job);
        Assert.Contains(still.Findings, f => f.Code == "flange-too-narrow");
    }

    /// <summary>"Take a thinner cord" was said by its groove's width alone: what is said now was tried and goes round the form.</summary>
    [Theory]
    [InlineData(4)]
    [InlineData(7)]
    [InlineData(9)]
    [InlineData(10)]
    public void What_is_said_to_go_round_a_form_does(double flange)
    {
        Job job = Job with { Open = OpenKeys.None };
        Finding told = DesignBench.Finding(DesignBench.Begin(NearAnEdge(flange), job), "flange-too-narrow");
        bool GoesRound(Job stated) =>
            DesignBench.Begin(NearAnEdge(flange), stated).Findings.All(f => f.Code != "flange-too-narrow");
        Job[] others =
        [
            .. job.OtherGaskets.Where(g => g.Section < job.Gasket.Section).Select(g => job with { Gasket = g }),
        ];
        if (told.Remedy.StartsWith("no cord", StringComparison.Ordinal))
        {
            Assert.DoesNotContain(others, GoesRound);
            return;
        }
        Job said =
            others.FirstOrDefault(j => told.Remedy.Contains($"\"{j.Gasket.Name}\"", StringComparison.Ordinal)) ?? job;
        double land = told.Remedy.Contains("land = \"1.5 mm\"", StringComparison.Ordinal) ? 1.5 : job.Rules.Land;
        Assert.True(GoesRound(said with { Rules = said.Rules with { Land = land } }), told.Remedy);
    }

    [Fact]
    public void A_flange_too_narrow_all_round_is_an_error_that_says_so()
    {
        Stage<Placement> stage = Placing.Place(Domed(8), Job, Tolerances.House);
        Assert.False(stage.Ok);
        Assert.Equal(Severity.Error, DesignBench.Finding(stage, "flange-too-narrow").Severity);
    }

    [Fact]
    public void A_slot_between_dome_and_edge_does_not_lead_its_loop_over_the_dome()
    {
        Part part = Domed(27.5, Contours.Slot(new(60, 14), new(100, 14), 5));
        FixtureDesign design = Begun(part);
        Region form = Region.From(Contours.Ccw(design.Part.Forms[0].Edge));
        foreach (Contour loop in design.Zones.SelectMany(z => z.Boundary.Contours))
        {
            Assert.True(Flatten.Points(loop, 0.01).All(p => !Inside.Contains(form, p)));
        }
    }

    [Fact]
    public void A_form_that_a_cutout_opens_stays_outside_the_seal()
    {
        Part part = Domed(27.5, Contours.Circle(new(82, 62), 8));
        FixtureDesign design = Begun(part);
        Point2 middle = Transform.Apply(design.Placement.Pose, new Point2(82, 62));
        Assert.DoesNotContain(design.Zones, z => Inside.Contains(z.Sealed, middle));
    }
}
