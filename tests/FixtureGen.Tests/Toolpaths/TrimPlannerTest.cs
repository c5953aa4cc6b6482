using System.Collections.Immutable;
using FixtureGen.Design.Trim;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Toolpaths;

public sealed class TrimPlannerTest
{
    /// <summary>Without the drills that would make the small holes of these parts.</summary>
    private static readonly Job Job = WithoutDrills(DemoShop.Job(DemoShop.PlainJob()));

    private static Job WithoutDrills(Job job) =>
        job with
        {
            Tools = [.. job.Tools.Where(t => t.Kind != ToolKind.Drill)],
        };

    private static Part Part(Contour outer, params ImmutableArray<Contour> cutouts) =>
        new(outer, [.. cutouts.Select(Contours.Cw)], [], [], [], []);

    private static Part Plain =>
        Part(
            Contours.RoundedRectangle(new Box2(50, 60, 160, 150), 12),
            Contours.Circle(new Point2(70, 80), 6),
            Contours.RoundedRectangle(new Box2(90, 80, 140, 120), 5),
            Contours.Slot(new Point2(80, 135), new Point2(120, 135), 3)
        );

    private static ImmutableArray<TrimCut> Cuts(Part part)
    {
        Stage<ImmutableArray<TrimCut>> stage = TrimPlanner.Plan(part, Job, new Kernel(Tolerances.House));
        Assert.True(stage.Ok, string.Join('\n', stage.Findings));
        return stage.Value;
    }

    [Fact]
    public void Outline_is_cut_last_and_every_cut_is_climb()
    {
        ImmutableArray<TrimCut> cuts = Cuts(Plain);

        Assert.Equal([TrimKind.Cutout, TrimKind.Cutout, TrimKind.Cutout, TrimKind.Outline], cuts.Select(c => c.Kind));
        Assert.True(Measure.Area(cuts[3].Path) < 0, "round the part clockwise");
        Assert.All(cuts[..3], c => Assert.True(Measure.Area(c.Path) > 0, "inside a cutout counter-clockwise"));
    }

    [Fact]
    public void Centre_line_keeps_the_cutter_radius_from_the_finished_edge_all_along()
    {
        foreach (TrimCut cut in Cuts(Plain))
        {
            foreach (Point2 p in Flatten.Points(cut.Path, 0.001))
            {
                Assert.Equal(cut.Tool.Radius, Measure.Distance(p, cut.Edge), 4);
            }
        }
    }

    [Fact]
    public void Leads_are_tangent_and_stay_in_the_scrap()
    {
        foreach (TrimCut cut in Cuts(Plain))
        {
            Point2 start = cut.Path.Segments[0].Start;
            Assert.Equal(0, cut.LeadIn.End.DistanceTo(start), 9);
            Assert.Equal(0, cut.LeadOut.Start.DistanceTo(start), 9);
            Point2 along = Measure.TangentAt(cut.Path.Segments[0], 0);
            Assert.Equal(1, along.Dot(Measure.TangentAt(cut.LeadIn.Segments[^1], 1)), 6);
            Assert.Equal(1, along.Dot(Measure.TangentAt(cut.LeadOut.Segments[0], 0)), 6);
            foreach (OpenPath lead in new[] { cut.LeadIn, cut.LeadOut })
            {
                Assert.All(
                    Flatten.Points(lead, 0.01),
                    p => Assert.True(Measure.Distance(p, cut.Edge) >= cut.Tool.Radius - 1e-3)
                );
            }
        }
    }

    [Fact]
    public void Small_slugs_are_milled_away_and_large_ones_and_the_skirt_are_tabbed()
    {
        ImmutableArray<TrimCut> cuts = Cuts(Plain);

        Assert.Equal(
            [SlugHold.MilledAway, SlugHold.Tabbed, SlugHold.MilledAway, SlugHold.Skirt],
            cuts.Select(c => c.Hold)
        );
        Assert.Equal(4, cuts[3].Tabs.Length);
        Assert.True(cuts[1].Tabs.Length >= 2);
        Assert.NotEmpty(cuts[0].Clearing);
        double swept = Measure.Area(cuts[0].Sweep);
        Assert.Equal(Math.PI * 36, swept, 3);
    }

    [Fact]
    public void Sweep_holds_the_path_and_the_leads_and_never_the_part()
    {
        TrimCut outline = Cuts(Plain)[3];
        Kernel kernel = new(Tolerances.House);

        double band =
            Measure.Area(kernel.Offset(Region.From(outline.Edge), outline.Tool.Diameter)) - Measure.Area(outline.Edge);

        Assert.InRange(Measure.Area(outline.Sweep), band, band + 60);
        ImmutableArray<Region> inPart = kernel.Intersect(
            outline.Sweep,
            kernel.Offset(Region.From(outline.Edge), -0.001)
        );
        Assert.True(inPart.Sum(r => Measure.Area(r)) < 1e-6);
    }

    [Fact]
    public void Square_inner_corner_says_how_much_is_left_standing_and_where()
    {
        Contour bay = Contours.FromPoints([
            new(50, 50),
            new(150, 50),
            new(150, 150),
            new(120, 150),
            new(120, 100),
            new(80, 100),
            new(80, 150),
            new(50, 150),
        ]);

        Stage<ImmutableArray<TrimCut>> stage = TrimPlanner.Plan(Part(bay), Job, new Kernel(Tolerances.House));

        // both corners have one cause and are one finding
        Finding first = Assert.Single(stage.Findings, f => f.Code == "trim-corner-too-tight");
        Assert.Contains("(2 corners", first.Message, StringComparison.Ordinal);
        // A disc of radius r in a square corner stays r (sqrt 2 - 1) away from the corner itself: 0.658 mm for r = 1.5875.
        Assert.Contains("0.658 mm", first.Message, StringComparison.Ordinal);
        Assert.Equal(100, first.At!.Value.Y, 6);
        Assert.False(stage.Ok);

        Job lenient = Job with { Rules = Job.Rules with { CornerLeft = 0.7 } };
        Stage<ImmutableArray<TrimCut>> accepted = TrimPlanner.Plan(Part(bay), lenient, new Kernel(Tolerances.House));
        Assert.True(accepted.Ok);
        Assert.Single(accepted.Findings, f => f is { Code: "trim-corner-too-tight", Severity: Severity.Warning });
        Assert.Contains("corner_left = \"0.7 mm\"", first.Remedy, StringComparison.Ordinal);
        Assert.All(accepted.Findings, f => Assert.StartsWith("Nothing to do", f.Remedy, StringComparison.Ordinal));
    }

    [Fact]
    public void Cutout_smaller_than_the_cutter_is_refused_with_the_amount()
    {
        Part part = Part(
            Contours.RoundedRectangle(new Box2(50, 60, 160, 150), 12),
            Contours.Circle(new Point2(70, 80), 1.5)
        );

        Stage<ImmutableArray<TrimCut>> stage = TrimPlanner.Plan(part, Job, new Kernel(Tolerances.House));

        Finding f = Assert.Single(stage.Findings, f => f.Severity == Severity.Error);
        Assert.Equal("cutout-smaller-than-cutter", f.Code);
        Assert.Contains("3 mm wide, 0.175 mm less", f.Message, StringComparison.Ordinal);
    }

    /// <summary>A bay of 3 mm that the 3.175 mm cutter stays out of: no rule may leave its whole depth standing.</summary>
    [Fact]
    public void A_bay_narrower_than_the_cutter_is_not_told_to_be_left()
    {
        Contour bay = Contours.FromPoints([
            new(50, 50),
            new(150, 50),
            new(150, 150),
            new(101.5, 150),
            new(101.5, 120),
            new(98.5, 120),
            new(98.5, 150),
            new(50, 150),
        ]);
        Stage<ImmutableArray<TrimCut>> stage = TrimPlanner.Plan(Part(bay), Job, new Kernel(Tolerances.House));
        Finding finding = Assert.Single(stage.Findings, f => f.Severity == Severity.Error);
        Assert.Equal("trim-corner-too-tight", finding.Code);
        // never as much as the bay is deep: what a second cutter leaves of its corners, as it was tried
        Assert.Contains(
            "mill-2mm, was tried and leaves 0.414 mm: [rules] corner_left = \"0.5 mm\"",
            finding.Remedy,
            StringComparison.Ordinal
        );
        Assert.Contains("widen it to at least 3.175 mm", finding.Remedy, StringComparison.Ordinal);
    }

    /// <summary>A cutter of the rack is named only where it goes through: 2.5 mm through a hole of 3 mm, none through one of 1.5 mm.</summary>
    [Theory]
    [InlineData(1.5, true)]
    [InlineData(0.75, false)]
    public void A_thinner_cutter_is_tried_before_it_is_told(double radius, bool fits)
    {
        Part part = Part(
            Contours.RoundedRectangle(new Box2(50, 60, 160, 150), 12),
            Contours.Circle(new Point2(70, 80), radius)
        );
        Tool thin = Job.TrimTool with { Name = "thin-2-5", Diameter = 2.5 };
        Job two = Job with { Tools = [.. Job.Tools, thin] };
        Stage<ImmutableArray<TrimCut>> stage = TrimPlanner.Plan(part, two, new Kernel(Tolerances.House));
        string remedy = Assert.Single(stage.Findings, f => f.Severity == Severity.Error).Remedy;
        Assert.Equal(fits, remedy.Contains("trim_tool = \"thin-2-5\"", StringComparison.Ordinal));
        if (fits)
        {
            Assert.DoesNotContain(
                TrimPlanner.Plan(part, two with { TrimTool = thin }, new Kernel(Tolerances.House)).Findings,
                f => f.Severity == Severity.Error
            );
        }
    }

    [Fact]
    public void Holes_alike_are_one_finding_with_all_their_places()
    {
        Part part = Part(
            Contours.RoundedRectangle(new Box2(50, 60, 160, 150), 12),
            [.. Enumerable.Range(0, 5).Select(i => Contours.Circle(new Point2(70 + (15 * i), 80), 1.5))]
        );
        Finding finding = Assert.Single(
            TrimPlanner.Plan(part, Job, new Kernel(Tolerances.House)).Findings,
            f => f.Severity == Severity.Error
        );
        Assert.Contains("The same of 4 more: cutout 2 at X85.0 Y80.0", finding.Message, StringComparison.Ordinal);
    }
}
