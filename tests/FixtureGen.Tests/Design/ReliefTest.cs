using FixtureGen.Design;
using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Design;

public sealed class ReliefTest
{
    [Theory]
    [MemberData(nameof(DesignBench.Names), MemberType = typeof(DesignBench))]
    public void The_trim_cutter_never_comes_nearer_to_the_block_than_the_clearance(string name)
    {
        Job job = DesignBench.Job;
        FixtureDesign design = DesignBench.Begun(DesignBench.Named(name));
        Region[] relieved =
        [
            .. design
                .Features.OfType<PocketFeature>()
                .Where(p => p.Kind is FeatureKind.Relief or FeatureKind.CutoutRelief)
                .SelectMany(p => p.Area),
        ];
        foreach (
            Segment s in design
                .TrimCuts.SelectMany(c => c.Sweep)
                .SelectMany(r => r.Contours)
                .SelectMany(c => c.Segments)
        )
        {
            Point2 p = Measure.PointAt(s, 0.5);
            Assert.True(Inside.Contains(relieved, p), p.ToString());
            Assert.InRange(Measure.Distance(p, relieved), job.Rules.SideClearance - 0.001, double.MaxValue);
        }
    }

    [Fact]
    public void The_inner_wall_stands_the_clearance_inside_the_finished_edge()
    {
        Job job = DesignBench.Job;
        FixtureDesign design = DesignBench.Begun(DesignBench.Rectangle(140, 90, 12));
        PocketFeature relief = Assert.Single(DesignBench.All<PocketFeature>(design, FeatureKind.Relief));
        Contour inner = Assert.Single(Assert.Single(relief.Area).Holes);
        double c = job.Rules.SideClearance;
        Assert.Equal(
            ((140 - (2 * c)) * (90 - (2 * c))) - ((4 - Math.PI) * (12 - c) * (12 - c)),
            -Measure.Area(inner),
            0.01
        );
        Assert.All(inner.Segments, s => Assert.Equal(c, Measure.Distance(s.Start, design.Part.Outer), 0.001));
    }

    [Theory]
    [MemberData(nameof(DesignBench.Names), MemberType = typeof(DesignBench))]
    public void Chips_have_a_way_out_to_the_edge_that_no_bolt_or_pin_stands_in(string name)
    {
        FixtureDesign design = DesignBench.Begun(DesignBench.Named(name));
        PocketFeature relief = Assert.Single(DesignBench.All<PocketFeature>(design, FeatureKind.Relief));
        Box2 box = Measure.Bounds(relief.Area);
        Box2 block = design.Placement.BlankBox;
        Assert.True(box.MinX < block.MinX || box.MaxX > block.MaxX || box.MinY < block.MinY || box.MaxY > block.MaxY);
        foreach (HoleFeature hole in design.Features.OfType<HoleFeature>().Where(h => h.Kind != FeatureKind.Port))
        {
            Assert.False(Inside.Contains(relief.Area, hole.At), hole.Name);
            double wall = Measure.Distance(hole.At, relief.Area) - (hole.Diameter / 2);
            Assert.InRange(wall, DesignBench.Job.Rules.Wall - 0.01, double.MaxValue);
        }
    }

    [Fact]
    public void Relief_is_deeper_than_the_trim_tip_and_keeps_the_least_floor()
    {
        FixtureDesign design = DesignBench.Begun(DesignBench.WithHole());
        Rules rules = DesignBench.Job.Rules;
        double floor = rules.FixtureHeight - rules.TipBelowShell - rules.ReliefFloorBelowTip;
        Assert.All(
            design.Removals.Where(r => r.Kind is FeatureKind.Relief or FeatureKind.CutoutRelief),
            r => Assert.Equal(floor, r.FloorZ, 1e-9)
        );
        Assert.True(floor >= rules.LeastFloor);
    }

    [Fact]
    public void A_milled_slug_leaves_no_island_and_a_tabbed_one_keeps_its_support()
    {
        Part part = DesignBench.Rectangle(
            160,
            130,
            12,
            Contours.Circle(new(40, 65), 6),
            Contours.RoundedRectangle(new Box2(85, 40, 130, 90), 8)
        );
        FixtureDesign design = DesignBench.Begun(part);
        PocketFeature[] pockets = [.. DesignBench.All<PocketFeature>(design, FeatureKind.CutoutRelief)];
        Assert.Equal(2, pockets.Length);
        Assert.Empty(Assert.Single(pockets[0].Area).Holes);
        Assert.Single(Assert.Single(pockets[1].Area).Holes);
    }

    /// <summary>A slot 8 mm wide takes two cuts of 3.175 + 0.5 mm: 0.65 mm would stand between them.</summary>
    [Fact]
    public void A_fin_thinner_than_a_wall_between_two_passes_is_cleared()
    {
        Region[] Relief(double slot)
        {
            double left = 75 - (slot / 2);
            double right = 75 + (slot / 2);
            Part part = DesignBench.Rounded(
                3,
                2,
                0,
                0,
                150,
                0,
                150,
                110,
                right,
                110,
                right,
                80,
                left,
                80,
                left,
                110,
                0,
                110
            );
            FixtureDesign design = DesignBench.Begun(part);
            Point2 middle = Transform.Apply(design.Placement.Pose, new Point2(75, 95));
            return
            [
                .. DesignBench
                    .All<PocketFeature>(design, FeatureKind.Relief)
                    .SelectMany(r => r.Area)
                    .Where(a => Inside.Contains(a, middle)),
            ];
        }
        Assert.Single(Relief(8));
        Assert.Empty(Relief(12));
    }

    [Fact]
    public void Without_a_way_out_the_design_is_refused()
    {
        Part part = DesignBench.Rectangle(140, 90, 12);
        Job job = DesignBench.Job;
        Placement placement = DesignBench.Value(Placing.Place(part, job, Tolerances.House));
        Box2 b = placement.BlankBox;
        Plate fenced = job.Plate with
        {
            Openings =
            [
                .. job.Plate.Openings,
                .. Enumerable
                    .Range(0, 11)
                    .SelectMany(i =>
                        new Point2[]
                        {
                            new(20 + (18 * i), 24),
                            new(20 + (18 * i), 192),
                            new(15, 20 + (18 * i)),
                            new(201, 20 + (18 * i)),
                        }
                    )
                    .Select(
                        (p, i) =>
                            job.Plate.Bolts.First() with
                            {
                                Name = FormattableString.Invariant($"fence {i}"),
                                At = p,
                            }
                    ),
            ],
        };
        Stage<FixtureDesign> stage = Designer.Begin(part, placement, job with { Plate = fenced }, Tolerances.House);
        DesignBench.Finding(stage, "no-break-out");
        Assert.False(stage.Ok);
    }
}
