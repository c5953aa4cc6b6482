using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests.Holding;

/// <summary>The block on the plate's vacuum while a pocket is cut, and on its bolts after.</summary>
public sealed class BlockHoldTest
{
    private static Job Job { get; } =
        TestShop.Job(TestShop.EndMill(1, 6), TestShop.Cone(2, ToolKind.Drill, 6, 118, 0)) with
        {
            Plate = TestShop.Plate with { FrictionBlockOnPlate = 0.2 },
        };

    private static FixtureDesign Design { get; } =
        TestShop.Design(
            TestShop.Pocket("pocket", FeatureKind.FormPocket, Setup.Top, TestShop.Rectangle(30, 30, 70, 70), 20, 16),
            new HoleFeature
            {
                Name = "bolt",
                Kind = FeatureKind.BoltHole,
                Setup = Setup.Top,
                At = new Point2(10, 10),
                Diameter = 5.5,
                TopZ = 20,
                FloorZ = 0,
                SlotLength = 0,
                SlotAngleDeg = 0,
                BreaksThrough = true,
                Opening = null,
                Removals = [],
            },
            new HoleFeature
            {
                Name = "bolt 2",
                Kind = FeatureKind.BoltHole,
                Setup = Setup.Top,
                At = new Point2(90, 90),
                Diameter = 5.5,
                TopZ = 20,
                FloorZ = 0,
                SlotLength = 0,
                SlotAngleDeg = 0,
                BreaksThrough = true,
                Opening = null,
                Removals = [],
            }
        );

    private const string Slot = """
        G0 X40. Y40.
        G0 Z21.
        G1 Z19.9 F100.
        G1 X60. Z18. F800.
        G1 X40.
        G1 X60.
        """;

    [Fact]
    public void A_slot_that_the_vacuum_holds_passes()
    {
        VerifyResult result = Judge(Slot);
        Assert.DoesNotContain(result.Findings, f => f.Code == "block-hold-below-limit");
        Assert.InRange(Factor(result), 2, 10);
    }

    [Theory]
    [InlineData("F800.", "F4000.", "F4000.")]
    [InlineData("S8000", "S1600", "G1 X60. Z18.")]
    [InlineData("G1 X40.\n", "G1 Z14. F100.\nG1 X40. F1600.\n", "G1 X40. F1600.")]
    public void A_heavier_cut_is_refused_at_its_first_line(string good, string bad, string told)
    {
        (string text, _) = Slip.Make(TestShop.Program(Slot), good, bad);
        VerifyResult result = TestShop.Judge(Job, Design, text);
        Finding finding = Assert.Single(result.Findings, f => f.Code == "block-hold-below-limit");
        Assert.Equal(Severity.Error, finding.Severity);
        Assert.Contains(told, text.Split('\n')[finding.Line!.Value - 1], StringComparison.Ordinal);
        Assert.True(Factor(result) < 2);
        Assert.Contains("take no more than", finding.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void The_factor_goes_the_other_way_with_the_feed()
    {
        double slow = Factor(Judge(Slot.Replace("F800.", "F400.", StringComparison.Ordinal)));
        Assert.Equal(2 * Factor(Judge(Slot)), slow, 0.02 * slow);
    }

    /// <summary>After the stop the bolts hold it, also with the vacuum off.</summary>
    [Fact]
    public void Bolts_hold_more_than_the_vacuum()
    {
        const string Bolted = "G0 Z40.\nM5\n(PINS OUT, FIT 2 BOLTS)\nM0\nS8000 M3\n";
        string beside = Slot.Replace("Y40.", "Y50.", StringComparison.Ordinal);
        VerifyResult vacuum = Judge(Slot + "\n" + Bolted + beside);
        Assert.Equal(2, vacuum.Programs[0].Hold.Block.Length);
        Assert.Equal([false, true], vacuum.Programs[0].Hold.Block.Select(b => b.Bolted));
        Assert.True(vacuum.Programs[0].Hold.Block[1].Least.Factor > 3 * vacuum.Programs[0].Hold.Block[0].Least.Factor);
        VerifyResult off = Judge(Bolted + "M65\n" + Slot);
        Assert.True(Assert.Single(off.Programs[0].Hold.Block).Least.Factor > 3);
    }

    /// <summary>A plate cord that pushes as hard as the vacuum pulls leaves nothing.</summary>
    [Fact]
    public void The_plates_cord_takes_its_push_from_the_vacuum()
    {
        Job hard = Job with { Plate = Job.Plate with { SealReactionNPerMm = 1 } };
        VerifyResult result = TestShop.Judge(hard, Design, TestShop.Program(Slot));
        Assert.Equal(0, Factor(result));
        Assert.Contains(result.Findings, f => f.Code == "block-hold-below-limit");
    }

    // 60 N/mm2 x 1.5 dull x 0.05 mm a tooth x 3 mm of lip: 13.5 N, half of it unbalanced; it may lift by all of it
    [Fact]
    public void A_drill_is_counted_by_its_lips()
    {
        Job strict = Job with { Limits = new HouseLimits(2, 0, 999) };
        const string Drill = "G0 X50. Y50.\nG0 Z21.\nG1 Z16. F800.";
        VerifyResult result = TestShop.Judge(strict, Design, TestShop.Program(Drill, tool: 2));
        Finding finding = Assert.Single(result.Findings, f => f.Code == "block-hold-below-limit");
        Assert.Contains("under 6.8 N", finding.Message, StringComparison.Ordinal);
    }

    /// <summary>A thin lap down a wall is held far better than a slot as deep: its chip is thin and the helix leaves it below before it comes in above.</summary>
    [Fact]
    public void A_finishing_lap_is_a_light_cut()
    {
        const string Slots = "G0 X40. Y40.\nG0 Z21.\nG1 Z19.9 F100.\nG1 X60. Z18. F800.\nG1 X40. Z16.\nG1 X60.\n";
        const string Lap = "G1 Y40.3 F100.\nG1 X40. F800.\n";
        VerifyResult both = Judge(Slots + Lap);
        Assert.Equal(Factor(Judge(Slots)), Factor(both), 0.02 * Factor(both));
    }

    private static VerifyResult Judge(string body) => TestShop.Judge(Job, Design, TestShop.Program(body));

    private static double Factor(VerifyResult result) => result.Programs[0].Hold.Block.Min(b => b.Least.Factor);
}
