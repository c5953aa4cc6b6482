using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>Travel over a block of 20 mm: heights that a program goes to once only are slips that happen to do no harm.</summary>
public sealed class TravelTest
{
    private static string Good { get; } =
        TestShop.Program("G0 X10. Y10.\nG0 X20.\nG0 X10.\nG0 X20.\n" + PocketTest.Rings);

    [Fact]
    public void Travel_at_one_height_passes() => Slip.Nothing(Judge(Good));

    [Theory]
    [InlineData("lone-height", "G0 X40. Y45.\n", "G0 X40. Y45.\nG0 Z30.\n", false)]
    [InlineData("lone-height", "G0 X40. Y45.\n", "G0 X40. Y45.\nG0 Z30.\nG0 Z40.\nG0 Z30.\n", false)]
    [InlineData("lone-height", "G0 X10. Y10.\n", "G0 Z38.\nG0 X10. Y10.\nG0 Z40.\n", true)]
    [InlineData("lone-height", "G0 Z21.", "G0 Z21.4", false)]
    [InlineData("lone-height", "G0 Z21.", "G0 Z20.55", false)]
    [InlineData("lone-height", "G0 Z21.", "G0 Z21.6", true)]
    [InlineData("lone-height", "G0 X10. Y10.\n", "G0 X10. Y10.\nG0 Z21.2\nG0 Z40.\n", false)]
    [InlineData("lone-height", "G0 X10. Y10.\n", "G0 X10. Y10.\nG0 Z20.6\nG0 Z21.3\nG0 Z40.\n", true)]
    [InlineData("lone-travel", "G0 X10. Y10.\nG0 X20.\n", "G0 X10. Y10.\nG0 Z21.\nG0 X20.\nG0 Z40.\n", true)]
    [InlineData("lone-travel", "G0 X10. Y10.\nG0 X20.\n", "G0 X10. Y10.\nG0 Z24.\nG0 X20.\nG0 Z40.\n", false)]
    [InlineData("lone-travel", "G0 X10. Y10.\nG0 X20.\n", "G0 X10. Y10.\nG0 Z21.\nG0 X20.\nG0 X15.\nG0 Z40.\n", false)]
    [InlineData("lone-travel", "G0 X10. Y10.\nG0 X20.\nG0 X10.\nG0 X20.", "G0 X10. Y10.\nG0 Z21.", false)]
    public void A_height_of_its_own_is_told(string code, string good, string other, bool told)
    {
        (string text, int line) = Slip.Make(Good, good, other);
        VerifyResult result = Judge(text);
        Assert.Equal(told, result.Findings.Any(f => f.Code == code));
        if (told)
        {
            Slip.Found(result, text, line, code);
        }
    }

    /// <summary>More than three oddities of one kind are a manner, not slips.</summary>
    [Theory]
    [InlineData(3, 3)]
    [InlineData(4, 0)]
    public void A_manner_is_not_told(int heights, int told)
    {
        string each = string.Concat(
            Enumerable.Range(0, heights).Select(i => FormattableString.Invariant($"G0 Z{30 + i}.\n"))
        );
        string text = Good.Replace("G0 X10. Y10.\n", "G0 X10. Y10.\n" + each + "G0 Z40.\n", StringComparison.Ordinal);
        Assert.Equal(told, Judge(text).Findings.Count(f => f.Code == "lone-height"));
    }

    /// <summary>From home a tool stands at the machine's top: there it may go sideways first, then down.</summary>
    [Theory]
    [InlineData("G0 G43 H1 Z40.\n", "G0 X40. Y45.\nG0 G43 H1 Z40.\n", "")]
    [InlineData("G0 X10. Y10.\n", "G0 Z23.5\nG0 X10. Y10.\nG0 Z40.\n", "arrives-low")]
    [InlineData("G0 X10. Y10.\n", "G0 Z23.5\nG1 X10. Y10. F800.\nG0 Z40.\n", "arrives-low")]
    [InlineData("G53 G0 Z0.\nM65", "G53 G0 Z0.\nG53 G0 X0. Y0.\nM65", "")]
    [InlineData("G0 Z40.\nM5 M9", "G0 Z29.\nM5 M9", "retract-before-home")]
    [InlineData("G0 Z40.\nM5 M9", "G0 Z41.\nM5 M9", "")]
    public void The_way_in_and_home_is_high(string good, string other, string code)
    {
        int last = Good.LastIndexOf(good, StringComparison.Ordinal);
        string text = Good[..last] + other + Good[(last + good.Length)..];
        string[] codes =
        [
            .. Judge(text).Findings.Select(f => f.Code).Where(c => c is not "lone-height" and not "cuts-air"),
        ];
        Assert.Equal(code.Length > 0 ? [code] : [], codes);
    }

    [Fact]
    public void Going_down_and_saying_so_twice_is_still_arriving_low()
    {
        (string text, int line) = Slip.Make(Good, "G0 X10. Y10.\n", "G0 Z23.5\nG0 Z23.5\nG0 X10. Y10.\nG0 Z40.\n");
        Slip.Found(Judge(text), text, line, "arrives-low");
    }

    private static VerifyResult Judge(string text) => TestShop.Judge(PocketTest.Job, PocketTest.Design, text);
}
