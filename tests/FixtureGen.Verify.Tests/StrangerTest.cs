using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>
/// The same pocket in another hand's manner: over the work before the height is set, rows to and fro instead of rings, a height of
/// its own for every retract, lifted at feed, walls cut against the climb. Nothing of it does harm, so little is said.
/// </summary>
public sealed class StrangerTest
{
    private const string Rows = """
        G0 X40. Y50.
        G0 G43 H1 Z25.
        G0 Z21.5
        G1 Z20.1
        G1 X60. Z18.5
        G1 X40.
        G1 X36. Y46.
        G1 X64.
        G1 Y48.
        G1 X36.
        G1 Y50.
        G1 X64.
        G1 Y52.
        G1 X36.
        G1 Y54.
        G1 X64.
        G1 Z22.
        G0 Z24.
        G0 X40. Y50.
        G0 Z20.
        G1 Z18.6
        G1 X60. Z17.
        G1 X40.
        G1 X36. Y46.
        G1 X64.
        G1 Y48.
        G1 X36.
        G1 Y50.
        G1 X64.
        G1 Y52.
        G1 X36.
        G1 Y54.
        G1 X64.
        G1 Z23.
        G0 Z26.
        G0 X50. Y50.
        G0 Z19.
        G1 Z17.
        G1 Y57.
        G1 X66.
        G2 X67. Y56. I0. J-1.
        G1 Y44.
        G2 X66. Y43. I-1. J0.
        G1 X34.
        G2 X33. Y44. I0. J1.
        G1 Y56.
        G2 X34. Y57. I1. J0.
        G1 X52.
        G1 Y54.
        G1 Z24.5
        """;

    [Fact]
    public void A_harmless_program_in_another_manner_passes_with_few_words()
    {
        string text = TestShop.Program(Rows).Replace("G0 G43 H1 Z40.\n", "", StringComparison.Ordinal);
        VerifyResult result = TestShop.Judge(PocketTest.Job, PocketTest.Design, text);
        string[] told = [.. result.Findings.Select(f => $"{f.Where} {f.Severity} {f.Code} {f.Message}")];
        Assert.True(result.Ok, string.Join('\n', told));
        // its rings run against the climb and it is lifted at feed rate: both are so
        Assert.True(told.Length <= 4, string.Join('\n', told));
    }

    /// <summary>Each harmless change of a good program, by itself, is passed without a word.</summary>
    [Theory]
    [InlineData("F800", "F1000")]
    [InlineData("S8000", "S9000")]
    [InlineData("G0 Z21.", "G0 Z20.6")]
    [InlineData("G1 Z20.", "G1 Z20.05")]
    [InlineData("(PINS OUT)", "(PINS OUT, FIXTURE CLEAN)")]
    [InlineData("G1 X36. Y43.", "G1 X50. Y44.\nG1 X36. Y43.")]
    [InlineData("G0 Z40.\nM5 M9", "G0 Z40.\nM9\nM5")]
    public void A_harmless_edit_passes_without_a_word(string good, string better)
    {
        (string text, _) = Slip.Make(TestShop.Program(PocketTest.Rings), good, better);
        VerifyResult result = TestShop.Judge(PocketTest.Job, PocketTest.Design, text);
        Assert.Empty(result.Findings.Select(f => $"{f.Where} {f.Severity} {f.Code} {f.Message}"));
    }
}
