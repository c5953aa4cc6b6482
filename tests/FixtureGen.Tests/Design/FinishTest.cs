using FixtureGen.Design.Block;
using FixtureGen.Design.Labels;
using FixtureGen.Geometry;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Design;

public sealed class FinishTest
{
    private static readonly Part Plain = DesignBench.Rectangle(140, 90, 12);

    [Fact]
    public void A_magnet_pocket_takes_disc_and_glue_and_breathes_by_a_notch_to_the_top()
    {
        Job job = DesignBench.Job;
        FixtureDesign design = DesignBench.Finished(Plain, null, new Point2(0.2, 0.5), new Point2(0.8, 0.5));
        PocketFeature[] pockets = [.. DesignBench.All<PocketFeature>(design, FeatureKind.MagnetPocket)];
        GrooveFeature[] notches = [.. DesignBench.All<GrooveFeature>(design, FeatureKind.MagnetNotch)];
        Assert.Equal(2, pockets.Length);
        Assert.Equal(2, notches.Length);
        double depth = job.Rules.MagnetRecess + job.Magnet.Thickness + job.Rules.MagnetGlue;
        Assert.All(pockets, p => Assert.Equal(design.FixtureHeight - depth, p.FloorZ, 1e-9));
        Assert.All(pockets, p => Assert.True(p.FloorZ >= job.Rules.LeastFloor));
        double radius = Measure.Bounds(pockets[0].Area).Width / 2;
        Assert.True(radius * 2 > job.Magnet.Diameter + job.Magnet.DiameterTolerance);
        for (int i = 0; i < 2; i++)
        {
            Assert.True(notches[i].TopZ == design.FixtureHeight && notches[i].FloorZ > 0);
            Point2 middle = Measure.Bounds(pockets[i].Area).Middle;
            Assert.Equal(
                radius + (notches[i].Width / 2),
                Flatten.Points(notches[i].Removals[0].Area[0].Outer, 0.001).Max(p => p.DistanceTo(middle)),
                0.01
            );
        }
    }

    [Fact]
    public void A_magnet_too_near_a_groove_is_refused_with_the_amount()
    {
        FixtureDesign begun = DesignBench.Begun(Plain);
        Stage<FixtureDesign> stage = DesignBench.Finish(begun, DesignBench.Job, new Point2(0.05, 0.5));
        Assert.False(stage.Ok);
        Finding finding = DesignBench.Finding(stage, "magnet-wall");
        Box2 box = Measure.Bounds(begun.Zones[0].Boundary.Outer);
        double pocket =
            (
                DesignBench.Job.Magnet.Diameter
                + DesignBench.Job.Magnet.DiameterTolerance
                + DesignBench.Job.Rules.MagnetPocketClearance
            ) / 2;
        double wall = (0.05 * box.Width) - (DesignBench.Job.Gasket.GrooveWidth / 2) - pocket;
        Assert.Equal(DesignBench.Job.Rules.Wall - wall, DesignBench.Amounts(finding)[0], 0.02);
    }

    [Fact]
    public void The_label_says_part_fixture_revision_program_magnets_and_pole()
    {
        Job job = DesignBench.Job with
        {
            Title = "Trowel sheath",
            FixtureId = "TS-4",
            Revision = 2,
            ProgramNumber = 1040,
        };
        FixtureDesign design = DesignBench.Finished(Plain, job, new Point2(0.2, 0.5));
        Assert.Equal("TROWEL SHEATH TS-4 REV 2 O1040 MAGNETS 1 N UP", design.Label);
        EngravingFeature label = Assert.Single(DesignBench.All<EngravingFeature>(design, FeatureKind.Label));
        Assert.Equal(design.Label, label.Text);
        Assert.Single(DesignBench.All<EngravingFeature>(design, FeatureKind.Mark));
    }

    [Theory]
    [MemberData(nameof(DesignBench.Names), MemberType = typeof(DesignBench))]
    public void The_label_stands_on_free_face_inside_the_block(string name)
    {
        FixtureDesign design = DesignBench.Finished(DesignBench.Named(name));
        EngravingFeature label = Assert.Single(DesignBench.All<EngravingFeature>(design, FeatureKind.Label));
        Region[] cut =
        [
            .. design
                .Removals.Where(r => r.Kind is not (FeatureKind.Label or FeatureKind.Mark or FeatureKind.Skim))
                .Where(r => r.Setup == Setup.Top)
                .SelectMany(r => r.Area),
            Region.From(design.Part.Outer),
        ];
        foreach (Segment s in label.Strokes.SelectMany(s => s.Segments))
        {
            Point2 p = Measure.PointAt(s, 0.5);
            Assert.False(Inside.Contains(cut, p));
            Assert.True(Measure.Distance(p, cut) > DesignBench.Job.Rules.Wall);
            Assert.True(Inside.Contains(label.Removals[0].Area, p), "every stroke is among the removals");
        }
        Box2 text = Measure.Bounds(label.Removals[0].Area);
        Box2 block = design.Placement.BlankBox;
        Assert.True(
            text.MinX > block.MinX && text.MaxX < block.MaxX && text.MinY > block.MinY && text.MaxY < block.MaxY
        );
    }

    [Fact]
    public void Without_room_for_the_label_the_design_is_refused()
    {
        Job job = DesignBench.Job with { Title = string.Concat(Enumerable.Repeat("VERYLONGWORD", 16)) };
        Stage<FixtureDesign> stage = DesignBench.Finish(DesignBench.Begun(Plain, job), job);
        Assert.False(stage.Ok);
        DesignBench.Finding(stage, "label-no-room");
    }

    [Fact]
    public void A_label_that_finds_no_room_is_cut_smaller_with_a_note()
    {
        string title = "LONG";
        while (Lettering.Width(title, DesignBench.Job.Rules.LetterHeight) < DesignBench.Job.Blank.Height)
        {
            title += "W";
        }
        Job job = DesignBench.Job with { Title = title };
        Stage<FixtureDesign> stage = DesignBench.Finish(DesignBench.Begun(Plain, job), job);
        Assert.Equal(Severity.Note, DesignBench.Finding(stage, "label-smaller").Severity);
    }

    [Fact]
    public void A_letter_that_cannot_be_cut_is_told()
    {
        Job job = DesignBench.Job with { Title = "Mug \u4e2d" };
        Stage<FixtureDesign> stage = DesignBench.Finish(DesignBench.Begun(Plain, job), job);
        DesignBench.Finding(stage, "label-letter");
        Assert.False(stage.Ok);
    }

    [Fact]
    [Trait("Speed", "Slow")]
    public void A_floor_over_a_channel_keeps_its_least_thickness()
    {
        Job job = DesignBench.Job with
        {
            Plate = DesignBench.Job.Plate with
            {
                Grooves = [],
                Openings =
                [
                    .. DesignBench.Job.Plate.Openings.Select(o =>
                        o.Kind == OpeningKind.Port ? o with { ReliefDepth = 0, ReliefDiameter = 0 } : o
                    ),
                ],
            },
        };
        FixtureDesign design = DesignBench.Finished(Plain, job);
        Assert.Empty(DepthChain.Check(design.Features, job.Rules.LeastFloor, new Kernel(Tolerances.House)));
        GrooveFeature channel = Assert.Single(DesignBench.All<GrooveFeature>(design, FeatureKind.Channel));
        Point2 over = Measure.PointAt(channel.Runs[0].Segments[0], 0.5);
        Region[] pit = [Region.From(Contours.Circle(over, 4))];
        Removal deep = new(
            Setup.Top,
            FeatureKind.MagnetPocket,
            "pit",
            [.. pit],
            design.FixtureHeight,
            channel.TopZ + 1
        );
        PocketFeature feature = new()
        {
            Name = "pit",
            Kind = FeatureKind.MagnetPocket,
            Setup = Setup.Top,
            Area = [.. pit],
            TopZ = deep.TopZ,
            FloorZ = deep.FloorZ,
            Removals = [deep],
        };
        Finding thin = Assert.Single(
            DepthChain.Check([.. design.Features, feature], job.Rules.LeastFloor, new Kernel(Tolerances.House))
        );
        Assert.Equal("floor-thin", thin.Code);
        Assert.Equal(1, DesignBench.Amounts(thin)[0], 0.01);
    }

    [Fact]
    public void Features_that_meet_or_leave_too_thin_a_wall_are_told_with_the_amount()
    {
        FixtureDesign design = DesignBench.Finished(Plain);
        PocketFeature Pit(double x) =>
            new()
            {
                Name = FormattableString.Invariant($"pit {x}"),
                Kind = FeatureKind.FormPocket,
                Setup = Setup.Top,
                Area = [],
                TopZ = 18,
                FloorZ = 10,
                Removals =
                [
                    new(
                        Setup.Top,
                        FeatureKind.FormPocket,
                        FormattableString.Invariant($"pit {x}"),
                        [Region.From(Contours.Circle(new(x, 190), 4))],
                        18,
                        10
                    ),
                ],
            };
        Kernel kernel = new(Tolerances.House);
        Box2 block = design.Placement.BlankBox;
        Assert.Empty(Conflicts.Check([Pit(60), Pit(70)], block, 1.5, kernel));
        Finding thin = Assert.Single(Conflicts.Check([Pit(60), Pit(69)], block, 1.5, kernel));
        Assert.Equal("wall-thin", thin.Code);
        Assert.Equal(1, DesignBench.Amounts(thin)[0], 0.02);
        Assert.Equal("features-meet", Assert.Single(Conflicts.Check([Pit(60), Pit(67)], block, 1.5, kernel)).Code);
        Assert.Equal("feature-over-edge", Assert.Single(Conflicts.Check([Pit(214)], block, 1.5, kernel)).Code);
    }

    [Fact]
    public void A_magnet_too_thick_for_the_block_is_refused()
    {
        Job job = DesignBench.Job with { Magnet = DesignBench.Job.Magnet with { Thickness = 17 } };
        Stage<FixtureDesign> stage = DesignBench.Finish(DesignBench.Begun(Plain, job), job, new Point2(0.2, 0.5));
        Assert.False(stage.Ok);
    }

    [Fact]
    public void Without_an_engraver_or_a_mill_the_design_is_refused()
    {
        Job blunt = DesignBench.Job with { Tools = [.. DesignBench.Job.Tools.Where(t => t.Kind != ToolKind.Engraver)] };
        DesignBench.Finding(DesignBench.Finish(DesignBench.Begun(Plain, blunt), blunt), "no-engraver");
        Job bare = DesignBench.Job with { Tools = [.. DesignBench.Job.Tools.Where(t => t.Kind == ToolKind.Engraver)] };
        FixtureDesign begun = DesignBench.Begun(Plain);
        DesignBench.Finding(DesignBench.Finish(begun, bare), "no-net-tool");
        DesignBench.Finding(DesignBench.Finish(begun, bare, new Point2(0.2, 0.5)), "no-notch-tool");
    }
}
