using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>
/// Rapids past what stands on, in and beside the block: on the trimmed shell, whose face is at most at Z 19.1, a form of 10 mm; a bolt
/// in its counterbore, a pin, an edge stop.
/// </summary>
public sealed class ObstacleTest
{
    private static HoleFeature Counterbore(double x) =>
        new()
        {
            Name = "counterbore",
            Kind = FeatureKind.Counterbore,
            Setup = Setup.Top,
            At = new Point2(x, 10),
            Diameter = 11,
            TopZ = 18,
            FloorZ = 12,
            SlotLength = 0,
            SlotAngleDeg = 0,
            BreaksThrough = false,
            Opening = null,
            Removals = [],
        };

    /// <summary>The form stands on X 55..65, Y 35..45 up to Z 29.1; the trim cutter and its shank are 3 mm thick.</summary>
    [Theory]
    [InlineData("G0 X50. Y40.\nG0 Z29.\nG0 X70.", true)]
    [InlineData("G0 X50. Y40.\nG0 Z29.2\nG0 X70.", false)]
    [InlineData("G0 X60. Y40.\nG0 Z29.\nG0 Z40.", true)]
    [InlineData("G0 X50. Y46.6\nG0 Z22.\nG0 X70.", false)]
    [InlineData("G0 X50. Y46.4\nG0 Z22.\nG0 X70.", true)]
    [InlineData("G0 X53.6 Y30.\nG0 Z22.\nG0 Y50.", true)]
    [InlineData("G0 X53.4 Y30.\nG0 Z22.\nG0 Y50.", false)]
    public void A_form_stands_up_to_its_height(string rapids, bool hits)
    {
        Assert.Equal(hits, Collides(With(FormDirection.Up), rapids, "the form"));
        Assert.False(Collides(With(FormDirection.Down), rapids, "the form"));
    }

    /// <summary>Head and washer are 6 mm high: from the counterbore's floor at Z 12 up to 18, or from the face up to 24.</summary>
    [Theory]
    [InlineData(10, false)]
    [InlineData(10.05, false)]
    [InlineData(25, true)]
    public void A_bolt_stands_in_its_own_counterbore(double x, bool hits)
    {
        FixtureDesign design = TrimShop.Design with { Features = TrimShop.Design.Features.Add(Counterbore(x)) };
        Assert.Equal(hits, Collides(design, "G0 X5. Y10.\nG0 Z20.\nG0 X15.", "the bolt"));
        Assert.Equal(hits, Collides(design, "G0 X5. Y10.\nG0 Z23.9\nG0 X15.", "the bolt"));
        Assert.False(Collides(design, "G0 X5. Y10.\nG0 Z24.1\nG0 X15.", "the bolt"));
    }

    /// <summary>The jacket of 14 mm about X 50 Y 50 ends 6 mm over the shell, at Z 25.1; the holder of 30 mm begins 40 mm over the tip.</summary>
    [Theory]
    [InlineData("G0 X41.4 Y40.\nG0 Z20.\nG0 Y60.", false)]
    [InlineData("G0 X41.6 Y40.\nG0 Z20.\nG0 Y60.", true)]
    [InlineData("G0 X41.6 Y40.\nG0 Z25.2\nG0 Y60.", false)]
    [InlineData("G0 X41.6 Y40.\nG0 Z25.\nG0 Y60.", true)]
    public void A_jacket_is_passed_at_its_side_or_over_it(string rapids, bool hits) =>
        Assert.Equal(hits, Collides(TrimShop.Design, rapids, "the jacket"));

    /// <summary>A short tool's holder or a thick shank meets what the cutter itself passes.</summary>
    [Theory]
    [InlineData(3, 5.0, 25.0, 30, false)]
    [InlineData(3, 5.2, 25.0, 30, false)]
    [InlineData(3, 5.0, 2.0, 30, true)]
    [InlineData(8, 5.0, 25.0, 30, true)]
    [InlineData(8, 5.2, 25.0, 30, false)]
    [InlineData(3, 5.0, 2.0, 5.8, false)]
    [InlineData(3, 5.0, 2.0, 6.2, true)]
    public void Shank_and_holder_are_kept_off_too(
        double shank,
        double flutes,
        double stickOut,
        double holder,
        bool hits
    )
    {
        Tool tool = TrimShop.Job.TrimTool with
        {
            ShankDiameter = shank,
            FluteLength = flutes,
            StickOut = stickOut,
            HolderDiameter = holder,
        };
        Job job = TrimShop.Job with { TrimTool = tool, Skirt = SkirtHold.None };
        Assert.Equal(hits, Collides(TrimShop.Design, "G0 X40. Y40.\nG0 Z20.\nG0 Y60.", "the jacket", job));
    }

    /// <summary>Shank and holder both reach over the jacket, 3 mm beside the path: the shank's 4 mm are told, once.</summary>
    [Fact]
    public void One_motion_hits_a_thing_once_and_the_amount_is_told()
    {
        Tool tool = TrimShop.Job.TrimTool with { ShankDiameter = 8, HolderDiameter = 9, FluteLength = 5, StickOut = 5 };
        Job job = TrimShop.Job with { TrimTool = tool, Skirt = SkirtHold.None };
        Finding hit = Assert.Single(Hits(TrimShop.Design, "G0 X40. Y40.\nG0 Z20.\nG0 Y60.", "the jacket", job));
        Assert.Equal($"the shank of {tool.Name} hits the jacket by 1 mm; it stands up to Z 25.1", hit.Message);
    }

    /// <summary>The washer is 10 mm wide, the head 8.5: a cutter of 3 mm passes 6.5 mm beside the bolt.</summary>
    [Theory]
    [InlineData("G0 X5. Y16.4\nG0 Z20.\nG0 X15.", true)]
    [InlineData("G0 X5. Y16.6\nG0 Z20.\nG0 X15.", false)]
    public void A_bolt_is_as_wide_as_its_washer(string rapids, bool hits) =>
        Assert.Equal(hits, Collides(TrimShop.Design, rapids, "the bolt"));

    /// <summary>The pin of 6 mm about X 90 Y 50 ends 8 mm over the plate.</summary>
    [Theory]
    [InlineData("G0 X94.4 Y40.\nG0 Z7.9\nG0 Y60.", true)]
    [InlineData("G0 X94.6 Y40.\nG0 Z7.9\nG0 Y60.", false)]
    [InlineData("G0 X94.4 Y40.\nG0 Z8.1\nG0 Y60.", false)]
    public void A_pin_stands_in_the_block(string rapids, bool hits) =>
        Assert.Equal(hits, Collides(TrimShop.Design, rapids, "the pin"));

    /// <summary>The stop of 6 mm touches the blank at X 0 Y 50 from the left and ends at Z 25; the end mill is 6 mm thick.</summary>
    [Theory]
    [InlineData("G0 X2.9 Y30.\nG0 Z24.\nG0 Y70.", true)]
    [InlineData("G0 X3.1 Y30.\nG0 Z24.\nG0 Y70.", false)]
    [InlineData("G0 X2.9 Y30.\nG0 Z25.1\nG0 Y70.", false)]
    [InlineData("G0 X-8. Y55.9\nG0 Z24.\nG0 X2.", true)]
    [InlineData("G0 X-8. Y56.1\nG0 Z24.\nG0 X2.", false)]
    public void An_edge_stop_stands_beside_the_blank(string rapids, bool hits) =>
        Assert.Equal(hits, MeetsStop(TestShop.EndMill(1, 6), rapids));

    /// <summary>A point of 60 degrees and 0.1 mm is 0.627 mm wide of its middle 1 mm over the tip, where the stop ends.</summary>
    [Theory]
    [InlineData("G0 X0.6 Y30.\nG0 Z24.\nG0 Y70.", true)]
    [InlineData("G0 X0.65 Y30.\nG0 Z24.\nG0 Y70.", false)]
    public void A_cone_is_as_wide_as_it_is_where_the_thing_ends(string rapids, bool hits) =>
        Assert.Equal(hits, MeetsStop(TestShop.Cone(1, ToolKind.Engraver, 3, 60, 0.1), rapids));

    private static bool MeetsStop(Tool tool, string rapids)
    {
        EdgeStop stop = new(new Point2(0, 50), new Point2(1, 0)) { Diameter = 6, Height = 25 };
        Job job = TestShop.Job(tool) with { Plate = TestShop.Plate with { Stops = [stop] } };
        return TestShop
            .Judge(job, TestShop.Design(), TestShop.Program(rapids))
            .Findings.Any(f => Collision(f, "the edge stop"));
    }

    private static FixtureDesign With(FormDirection direction) =>
        TrimShop.Design with
        {
            Part = TrimShop.Design.Part with
            {
                Forms = [new FormRegion(TestShop.Rectangle(55, 35, 65, 45), direction, 10, 3)],
            },
        };

    private static bool Collides(FixtureDesign design, string rapids, string what, Job? job = null) =>
        Hits(design, rapids, what, job).Any();

    private static IEnumerable<Finding> Hits(FixtureDesign design, string rapids, string what, Job? job)
    {
        string text = TrimShop
            .Program(TrimShop.Once)
            .Replace("G0 Z40.\nM5", "G0 Z40.\n" + rapids + "\nG0 Z40.\nM5", StringComparison.Ordinal);
        return TestShop
            .Judge(job ?? TrimShop.Job with { Skirt = SkirtHold.None }, design, text, Setup.Trim)
            .Findings.Where(f => Collision(f, what));
    }

    private static bool Collision(Finding finding, string what) =>
        finding.Code == "collision" && finding.Message.Contains(what, StringComparison.Ordinal);
}
