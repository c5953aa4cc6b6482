using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>
/// The plate's face is Z 0, its skin 0.3 mm. Below it a tool may go only in a relief (here 14 mm wide and 6 mm deep at X 10 Y 10) or
/// in a vacuum groove (8 mm wide and 3 mm deep along Y 90 from X 30 to X 70), half a millimetre from every wall.
/// </summary>
public sealed class PlateTest
{
    private static readonly Job Job = TestShop.Job(
        TestShop.Cone(1, ToolKind.Drill, 6, 118, 0),
        TestShop.EndMill(2, 3)
    ) with
    {
        Plate = TestShop.Plate with
        {
            Grooves =
            [
                new PlateGroove(
                    "P1",
                    new OpenPath([
                        Segment.Line(new Point2(30, 90), new Point2(50, 90)),
                        Segment.Line(new Point2(50, 90), new Point2(70, 90)),
                    ]),
                    8,
                    3
                ),
            ],
        },
    };

    /// <summary>A bolt hole over the relief, drilled through.</summary>
    [Fact]
    public void A_hole_drilled_through_over_a_relief_passes()
    {
        FixtureDesign design = TestShop.Design(
            TestShop.Pocket("bolt", FeatureKind.BoltHole, Setup.Top, TestShop.Circle(10, 10, 3), 20, 0)
        );
        Slip.Nothing(TestShop.Judge(Job, design, TestShop.Program(Drilled(10, 10, -5.5), feed: 900)));
    }

    /// <summary>A cycle where the tool stands already moves nothing at first, and a hole drilled twice is one time too many.</summary>
    [Fact]
    public void A_hole_is_drilled_by_a_cycle_where_the_tool_stands_once()
    {
        FixtureDesign design = TestShop.Design(
            TestShop.Pocket("bolt", FeatureKind.BoltHole, Setup.Top, TestShop.Circle(10, 10, 3), 20, 0)
        );
        string text = TestShop.Program("G0 X10. Y10.\nG0 Z21.\nG99 G81 Z-5.5 R21.\nG80", feed: 900);
        Slip.Nothing(TestShop.Judge(Job, design, text));
        (string twice, int line) = Slip.Make(text, "G80\n", "X10.\nG80\n");
        Slip.Found(TestShop.Judge(Job, design, twice), twice, line, "cuts-air");
    }

    [Theory]
    [InlineData(10, 10, 0.3, false)]
    [InlineData(13.4, 10, -5.4, false)]
    [InlineData(13.6, 10, -5.4, true)]
    [InlineData(10, 6.4, 0.2, true)]
    [InlineData(10, 10, -5.6, true)]
    [InlineData(60, 50, 0.31, false)]
    [InlineData(60, 50, 0.29, true)]
    [InlineData(50, 90.4, -2.4, false)]
    [InlineData(32, 90.4, -2.4, false)]
    [InlineData(50, 90.6, -2.4, true)]
    [InlineData(50, 90, -2.6, true)]
    [InlineData(70.4, 90, -2.4, false)]
    [InlineData(70.6, 90, -2.4, true)]
    public void A_drill_stays_half_a_millimetre_off_the_plate(double x, double y, double z, bool hits) =>
        Hits(hits, Drilled(x, y, z), FormattableString.Invariant($"G1 Z{z:0.0##}"));

    /// <summary>A 3 mm mill keeps 2 mm from the walls with its middle: 2 mm about the groove's middle line, 5 mm about the relief's.</summary>
    [Theory]
    [InlineData("X41.9 Y90.", "G3 X38.1 Y90. I-1.9 J0.", false)]
    [InlineData("X42.1 Y90.", "G3 X37.9 Y90. I-2.1 J0.", true)]
    [InlineData("X32. Y90.", "G1 X48. Y91.9", false)]
    [InlineData("X32. Y90.", "G1 X48. Y92.1", true)]
    [InlineData("X32. Y92.1", "G1 X48. Y90.", true)]
    [InlineData("X14.9 Y10.", "G3 X5.1 Y10. I-4.9 J0.", false)]
    [InlineData("X15.1 Y10.", "G3 X4.9 Y10. I-5.1 J0.", true)]
    [InlineData("X10. Y10.", "G1 X14. Y12.9", false)]
    [InlineData("X10. Y10.", "G1 X14. Y13.1", true)]
    public void A_mill_stays_half_a_millimetre_off_the_walls(string start, string cut, bool hits) =>
        Hits(hits, $"G0 {start}\nG0 Z21.\nG1 Z-2.4\n{cut}", cut, 2);

    private static void Hits(bool hits, string body, string told, int tool = 1)
    {
        string text = TestShop.Program(body, tool);
        VerifyResult result = TestShop.Judge(Job, TestShop.Design(), text);
        Assert.Equal(hits, result.Findings.Any(f => f.Code == "below-plate-face"));
        if (hits)
        {
            Slip.Found(result, text, 0, "below-plate-face", told);
        }
    }

    private static string Drilled(double x, double y, double z) =>
        FormattableString.Invariant($"G0 X{x:0.0##} Y{y:0.0##}\nG0 Z21.\nG1 Z{z:0.0##}");
}
