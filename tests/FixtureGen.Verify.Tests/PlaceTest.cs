using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>
/// Where a 6 mm mill may be: in the machine's travel of X and Y -50..150 and Z -10..120, and near the block's 100 x 100 mm, which it
/// may leave by its radius and 5 mm while it is less than 3 mm over the block's top at Z 20.
/// </summary>
public sealed class PlaceTest
{
    private static readonly Job Job = TestShop.Job(TestShop.EndMill(1, 6));

    [Theory]
    [InlineData("G0 X-50. Y-50.", false)]
    [InlineData("G0 X150. Y150.", false)]
    [InlineData("G0 Z120.", false)]
    [InlineData("G0 X-50.1", true)]
    [InlineData("G0 Y-50.1", true)]
    [InlineData("G0 X150.1", true)]
    [InlineData("G0 Y150.1", true)]
    [InlineData("G0 Z120.1", true)]
    [InlineData("G0 X10. Y10.\nG1 Z-10.1", true)]
    [InlineData("G0 X100. Y100.\nG3 X100. Y0. I0. J-50.", false)]
    [InlineData("G0 X100. Y100.\nG2 X100. Y0. I0. J-50.", false)]
    [InlineData("G0 X100.2 Y100.\nG2 X100.2 Y0. I0. J-50.", true)]
    public void The_tip_stays_in_the_machines_travel(string moves, bool outside) =>
        Assert.Equal(outside, Told(moves).Any(f => f.Code == "outside-travel"));

    [Theory]
    [InlineData("X-7.9 Y50.", 18, null)]
    [InlineData("X-8.1 Y50.", 18, Severity.Error)]
    [InlineData("X108.1 Y50.", 18, Severity.Error)]
    [InlineData("X50. Y-8.1", 18, Severity.Error)]
    [InlineData("X50. Y108.1", 18, Severity.Error)]
    [InlineData("X107.9 Y107.9", 18, null)]
    [InlineData("X-8.1 Y50.", 20.1, Severity.Warning)]
    [InlineData("X-8.1 Y50.", 22.9, Severity.Warning)]
    [InlineData("X-8.1 Y50.", 23.1, null)]
    public void Low_down_the_tip_stays_near_the_block(string place, double z, Severity? severity)
    {
        Finding[] told =
        [
            .. Told(FormattableString.Invariant($"G0 {place}\nG0 Z{z:0.0##}")).Where(f => f.Code == "outside-blank"),
        ];
        Assert.Equal(severity is { } s ? [s] : [], told.Select(f => f.Severity).Distinct());
    }

    /// <summary>A rapid may end half a millimetre over what stands there, also over a floor that was cut before; it may slide up a finished wall.</summary>
    [Theory]
    [InlineData("G0 X10. Y10.\nG0 Z20.5", false)]
    [InlineData("G0 X10. Y10.\nG0 Z20.4", true)]
    [InlineData("G0 X10. Y10.\nG0 Z21.\nG1 Z18.\nG0 Z21.", false)]
    [InlineData("G0 X10. Y10.\nG0 Z21.\nG1 Z18.\nG1 X20.\nG0 Z21.\nG0 X15.\nG0 Z18.5", false)]
    [InlineData("G0 X10. Y10.\nG0 Z21.\nG1 Z18.\nG1 X20.\nG0 Z21.\nG0 X15.\nG0 Z18.4", true)]
    [InlineData("G0 X10. Y10.\nG0 Z21.\nG1 Z18.\nG1 X20.\nG0 X10. Z21.", true)]
    [InlineData("G0 X-4. Y10.\nG0 Z10.\nG0 X-3.1", false)]
    [InlineData("G0 X-4. Y10.\nG0 Z10.\nG0 X-2.8", true)]
    public void A_rapid_keeps_off_what_stands(string rapids, bool hits) =>
        Assert.Equal(hits, Told(rapids).Any(f => f.Code == "rapid-through-stock"));

    [Fact]
    public void Without_a_tool_nothing_goes_down_into_the_block()
    {
        string text = TestShop.Program("G0 X10. Y10.\nG0 Z19.").Replace("T1 M6\n", "", StringComparison.Ordinal);
        Slip.Found(TestShop.Judge(Job, TestShop.Design(), text), text, 0, "no-tool", "G0 Z19.");
        string above = text.Replace("G0 Z19.", "G0 Z20.", StringComparison.Ordinal);
        Assert.DoesNotContain("no-tool", TestShop.Judge(Job, TestShop.Design(), above).Findings.Select(f => f.Code));
    }

    private static IEnumerable<Finding> Told(string body) =>
        TestShop.Judge(Job, TestShop.Design(), TestShop.Program(body)).Findings;
}
