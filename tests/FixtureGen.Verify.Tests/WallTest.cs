using System.Globalization;
using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>Side gouges by hand: how far a cutter's flank passes a wall that stands at its height.</summary>
public sealed class WallTest
{
    private static readonly Job Job = TestShop.Job(
        TestShop.EndMill(1, 6),
        TestShop.Cone(2, ToolKind.Engraver, 6, 60, 0.4),
        TestShop.Ball(3, 6)
    );

    /// <summary>
    /// Two pockets of one depth that share a part of an edge: the shared part is no wall, the rest of that edge is one. The mill's
    /// middle runs over the edge at X 50 with its flank 3 mm to either side.
    /// </summary>
    [Theory]
    [InlineData(45, 65, 52, 0)]
    [InlineData(45, 65, 47.5, 0.5)]
    [InlineData(45, 65, 57.5, 0.5)]
    [InlineData(35, 55, 48, 0)]
    [InlineData(35, 55, 42.5, 0.5)]
    [InlineData(35, 55, 52.5, 0.5)]
    public void Pockets_side_by_side_have_no_wall_between_them(double from, double to, double y, double bite)
    {
        FixtureDesign design = TestShop.Design(
            Pocket("left", 30, 40, 50, 60, 17),
            Pocket("right", 50, from, 70, to, 17)
        );
        Bites(design, FormattableString.Invariant($"G0 X40. Y{y:0.0##}\nG0 Z21.\nG1 Z17.\nG1 X60."), "G1 X60.", bite);
    }

    /// <summary>
    /// Up a ramp out of a pocket of floor 16 into one of floor 18: the wall at X 50 stands until the tip is at Z 18, less the gouge
    /// that is allowed. At 1 in 4 that is 2.08 mm before the wall; at 1 in 3.3 it is before the flank comes there.
    /// </summary>
    [Theory]
    [InlineData("G1 Z16.\nG1 X60. Z21.", "G1 X60. Z21.", 0.92)]
    [InlineData("G1 Z16.\nG1 X60. Z22.", "G1 X60. Z22.", 0)]
    [InlineData("G1 Z16.\nG1 X48.\nG1 X60. Z18.", "G1 X48.", 1)]
    public void A_ramp_cuts_a_wall_only_where_it_is_lower_than_its_top(string cut, string told, double bite) =>
        Bites(Step, "G0 X40. Y50.\nG0 Z23.\n" + cut, told, bite);

    [Theory]
    [InlineData("G1 Z21.\nG1 X40. Z16.", "G1 X40. Z16.", 0.92)]
    [InlineData("G1 Z22.\nG1 X40. Z16.", "G1 X40. Z16.", 0)]
    public void A_ramp_down_likewise(string cut, string told, double bite) =>
        Bites(Step, "G0 X60. Y50.\nG0 Z23.\n" + cut, told, bite);

    /// <summary>
    /// Up a ramp out of a pocket of floor 16 into one of floor 18 that ends at X 56: the wall at X 50 is passed with the tip at 18.03,
    /// the one behind is met by all that the flank goes beyond it.
    /// </summary>
    [Fact]
    public void A_ramp_meets_also_a_wall_that_stands_higher_than_the_one_it_passes() =>
        Bites(
            TestShop.Design(Pocket("upper", 50, 40, 56, 60, 18), Pocket("lower", 30, 40, 50, 60, 16)),
            "G0 X40. Y50.\nG0 Z23.\nG1 Z17.5\nG1 X54.5 Z18.6",
            "G1 X54.5 Z18.6",
            1.5
        );

    /// <summary>A cutter that comes down beside the block and runs along it half a millimetre too near.</summary>
    [Theory]
    [InlineData(-2.5, 0.5)]
    [InlineData(-3, 0)]
    public void The_blocks_own_sides_are_walls(double x, double bite) =>
        Bites(
            TestShop.Design(Pocket("shallow", 30, 40, 70, 60, 19)),
            FormattableString.Invariant($"G0 X{x:0.0} Y-6.\nG0 Z15.\nG1 Y50."),
            "G1 Y50.",
            bite
        );

    /// <summary>
    /// A 60 degree point of 0.4 mm in a groove of floor 15 inside a pocket of floor 17: 1.355 mm wide of its middle at Z 17, 3 mm at
    /// the top. The groove's wall is 2 mm off; the pocket's at Y 40 is what the wide part meets.
    /// </summary>
    [Theory]
    [InlineData(43.1, 0)]
    [InlineData(42.5, 0.5)]
    public void The_wide_part_of_a_cone_is_kept_off_the_upper_wall(double y, double bite)
    {
        FixtureDesign design = TestShop.Design(
            Pocket("wide", 30, 40, 70, 60, 17),
            Pocket("groove", 30, y - 2, 70, y + 2, 15)
        );
        string place = FormattableString.Invariant($"G0 X45. Y{y:0.0##}\nG0 Z21.\nG1 Z15.\nG1 X55.");
        Bites(design, place, "G1 X55.", bite, 2);
        Bites(design, place.Replace("Z15.", "Z14.5", StringComparison.Ordinal), "G1 X55.", bite, 2);
    }

    /// <summary>A ball of 3 mm radius 1 mm deep is sqrt(5) mm wide of its middle at the top.</summary>
    [Theory]
    [InlineData(42.25, 0)]
    [InlineData(42.2, 0.0361)]
    public void A_ball_is_as_wide_as_it_is_deep(double y, double bite) =>
        Bites(
            TestShop.Design(Pocket("shallow", 30, 40, 70, 60, 19)),
            FormattableString.Invariant($"G0 X45. Y{y:0.0##}\nG0 Z21.\nG1 Z19.\nG1 X55."),
            "G1 X55.",
            bite,
            3
        );

    /// <summary>A block whose width is no whole number of cells: the last cell's centre lies beyond it and may be cut.</summary>
    [Fact]
    public void What_lies_beyond_the_block_may_be_cut()
    {
        Box2 box = new(0, 0, 100.03, 100.03);
        FixtureDesign design = TestShop.Design(Pocket("rim", 60, 0, 100.03, 100.03, 18)) with
        {
            Placement = TestShop.Design().Placement with { BlankBox = box },
        };
        string text = TestShop.Program("G0 X99. Y-4.\nG0 Z21.\nG0 Z18.\nG1 Y104.");
        Assert.DoesNotContain(
            TestShop.Judge(Job, design, text).Findings.Select(f => f.Code),
            c => c.StartsWith("gouge", StringComparison.Ordinal)
        );
    }

    private static FixtureDesign Step { get; } =
        TestShop.Design(Pocket("upper", 20, 40, 80, 60, 18), Pocket("lower", 30, 40, 50, 60, 16));

    private static Feature Pocket(string name, double x0, double y0, double x1, double y1, double floor) =>
        TestShop.Pocket(name, FeatureKind.Relief, Setup.Top, TestShop.Rectangle(x0, y0, x1, y1), 20, floor);

    private static void Bites(FixtureDesign design, string body, string told, double bite, int tool = 1)
    {
        string text = TestShop.Program(body, tool);
        VerifyResult result = TestShop.Judge(Job, design, text);
        Finding[] found = [.. result.Findings.Where(f => f.Code == "gouge-side")];
        if (bite == 0)
        {
            Assert.Empty(found.Select(f => f.Message));
            return;
        }
        int line = Array.FindIndex(text.Split('\n'), l => l.StartsWith(told, StringComparison.Ordinal)) + 1;
        Finding one = Assert.Single(found, f => f.Line == line);
        Assert.StartsWith(
            string.Create(CultureInfo.InvariantCulture, $"the cutter goes {bite:0.0000} mm into a wall"),
            one.Message,
            StringComparison.Ordinal
        );
    }
}
