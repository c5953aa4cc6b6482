using System.Globalization;
using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>A pocket of 40 x 20 mm and 10 mm depth, roughed in levels and finished at full depth with a 6 mm mill of 4 mm step-down.</summary>
public sealed class LoadTest
{
    private static Job Job { get; } = TestShop.Job(TestShop.EndMill(1, 6));

    private static FixtureDesign Design { get; } =
        TestShop.Design(
            TestShop.Pocket("deep", FeatureKind.Relief, Setup.Top, TestShop.Rounded(30, 40, 70, 60, 4), 20, 10)
        );

    [Fact]
    public void Levels_within_the_step_down_and_a_thin_finish_pass() =>
        Assert.Empty(Told(Program([18, 16, 14, 12, 10], 1), Job));

    [Fact]
    public void Levels_left_out_are_told_at_the_next_level()
    {
        string text = Program([18, 12, 10], 1);
        Slip.Found(TestShop.Judge(Job, Design, text), text, 0, "step-down", "G1 X36. Z12.");
    }

    [Fact]
    public void A_finish_pass_may_be_deeper_than_the_step_down_only_while_it_is_narrow()
    {
        string text = Program([18, 16, 14, 12, 10], 2);
        VerifyResult result = TestShop.Judge(Job, Design, text);
        Slip.Found(result, text, 0, "engagement", "G1 Y44.");
        Assert.DoesNotContain("step-down", result.Findings.Select(f => f.Code));
    }

    /// <summary>
    /// The first ring takes 4.5 mm of width and 2 mm of depth at 800 mm/min: 7200 mm3/min, and at 60 N/mm2 7.2 W; the finish pass of
    /// 1 x 10 mm asks 8 W and in the corners, which it cuts wider, 9 W.
    /// </summary>
    [Fact]
    public void A_cut_beyond_the_spindles_power_is_told()
    {
        string text = Program([18, 16, 14, 12, 10], 1);
        Assert.Empty(Told(text, Weak(0.0095)));
        Slip.Found(TestShop.Judge(Weak(0.0068), Design, text), text, 0, "spindle-power", "G1 X36. Z18.");
    }

    /// <summary>
    /// At 8000 rev/min with two flutes 3400 mm/min are 0.2125 mm a tooth, over the chart's 0.197 for 6 mm; a pass of 1 mm thins the
    /// chip by 1 / (2 sqrt(1/6 x 5/6)) = 1.34, so the wall bears up to 0.27 and a slot does not.
    /// </summary>
    [Theory]
    [InlineData("G1 X66.\nG3 X67.", "G1 X66. F3400\nG3 F800 X67.", false)]
    [InlineData("G1 X66.\nG3 X67.", "G1 X66. F4600\nG3 F800 X67.", true)]
    [InlineData("G1 X64.\nG1 Y54.5", "G1 X64. F3400\nG1 F800 Y54.5", true)]
    [InlineData("G1 Y46.", "G1 Y46. F3400", false)]
    public void A_narrow_cut_bears_more_feed_than_a_slot(string good, string fast, bool told)
    {
        (string text, int line) = Slip.Make(Program([18, 16, 14, 12, 10], 1), good, fast);
        VerifyResult result = TestShop.Judge(Job, Design, text);
        Assert.Equal(told, result.Findings.Any(f => f.Code == "chip-load"));
        if (told)
        {
            Slip.Found(result, text, line, "chip-load");
        }
    }

    /// <summary>
    /// Two pockets roughed in steps leave a rib between them; the pass along the wall runs through it at full depth. The rib is
    /// little beside the pass's whole way, but a thick one fills the cutter's width; of a fin, 2 mm are left in the cutter's middle.
    /// </summary>
    [Theory]
    [InlineData(4, false, true)]
    [InlineData(1, false, false)]
    [InlineData(4, true, false)]
    public void A_rib_left_standing_is_a_slot_where_the_pass_meets_it(double rib, bool fin, bool told)
    {
        double end = 47 - (rib / 2);
        double again = 53 + (rib / 2);
        List<string> lines = [];
        foreach ((double from, double to) in new[] { (33.0, end), (again, 67.0) })
        {
            lines.AddRange([$"G0 X{Point(from)} Y43.", "G0 Z21.", "G1 Z20."]);
            double z = 20;
            foreach (double level in (double[])[16.5, 13, 10])
            {
                lines.AddRange([$"G1 X{Point(to)} Z{Point((z + level) / 2)}", $"G1 X{Point(from)} Z{Point(level)}"]);
                foreach (double y in (double[])[43, 39, 47.5, 52, 57])
                {
                    lines.AddRange([$"G1 Y{Point(y)}", $"G1 X{Point(to)}", $"G1 X{Point(from)}"]);
                }
                lines.Add("G1 Y43.");
                z = level;
            }
            lines.Add("G0 Z21.");
        }
        foreach (double y in fin ? (double[])[39, 47] : [])
        {
            lines.Add($"G0 X40. Y{Point(y)}");
            foreach (double level in (double[])[16.5, 13, 10])
            {
                lines.AddRange(["G0 X40.", $"G0 Z{Point(level + 0.5)}", $"G1 Z{Point(level)}", "G1 X60.", "G0 Z21."]);
            }
        }
        lines.AddRange(["G0 X33. Y43.", "G0 Z10.5", "G1 Z10.", "G1 X67."]);
        string text = TestShop.Program(string.Join('\n', lines));
        FixtureDesign design = TestShop.Design(
            TestShop.Pocket("deep", FeatureKind.Relief, Setup.Top, TestShop.Rectangle(30, 36, 70, 60), 20, 10)
        );
        VerifyResult result = TestShop.Judge(Job, design, text);
        int last = Array.LastIndexOf(text.Split('\n'), "G1 X67.") + 1;
        Assert.Equal(told ? [last] : [], result.Findings.Where(f => f.Code == "step-down").Select(f => f.Line ?? 0));
        Assert.DoesNotContain("engagement", result.Findings.Select(f => f.Code));
    }

    private static Job Weak(double kilowatt) =>
        Job with
        {
            Plate = Job.Plate with { Machine = Job.Plate.Machine with { SpindlePowerKw = kilowatt } },
        };

    private static string[] Told(string text, Job job) =>
        [.. TestShop.Judge(job, Design, text).Findings.Select(f => $"{f.Where} {f.Code} {f.Message}")];

    /// <summary>At each level two ramps along the middle, a ring round them and one that leaves stock at the wall; at the end the wall.</summary>
    private static string Program(double[] levels, double stock)
    {
        List<string> lines = ["G0 X36. Y50.", "G0 Z21.", "G1 Z20."];
        double z = 20;
        foreach (double level in levels)
        {
            lines.AddRange(["G1 X64. Z" + Point((z + level) / 2), "G1 X36. Z" + Point(level), "G1 X64."]);
            lines.AddRange(["G1 Y54.5", "G1 X36.", "G1 Y45.5", "G1 X64.", "G1 Y50."]);
            lines.AddRange(["G1 X" + Point(67 - stock), "G1 Y" + Point(57 - stock), "G1 X" + Point(33 + stock)]);
            lines.AddRange(["G1 Y" + Point(43 + stock), "G1 X" + Point(67 - stock), "G1 Y50.", "G1 X36."]);
            z = level;
        }
        lines.AddRange(["G3 X33. Y47. I0. J-3.", "G1 Y44.", "G3 X34. Y43. I1. J0.", "G1 X66.", "G3 X67. Y44. I0. J1."]);
        lines.AddRange(["G1 Y56.", "G3 X66. Y57. I-1. J0.", "G1 X34.", "G3 X33. Y56. I0. J-1.", "G1 Y46."]);
        return TestShop.Program(string.Join('\n', lines));
    }

    private static string Point(double value) => value.ToString("0.0##", CultureInfo.InvariantCulture);
}
