using FixtureGen.Model;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>A lone file is known by its program number, else by its first comment, else by its name.</summary>
public sealed class SetupGuessTest
{
    private static readonly ProgramText Known = new(Setup.Underside, 1001, "other.nc", "");

    [Theory]
    [InlineData("O1001\n(F001 REV 1 BLOCK TOP)\n", "x.nc", true, Setup.Underside)]
    [InlineData("O1001\n(F001 REV 1 BLOCK TOP)\n", "x.nc", false, Setup.Top)]
    [InlineData("O1002\n(F001 REV 1 BLOCK TOP)\n", "x.trim.nc", true, Setup.Top)]
    [InlineData("(F001 REV 1 BLOCK UNDERSIDE)\n(BLOCK TOP)\n", "top.nc", false, Setup.Underside)]
    [InlineData("(TEST F001 R1)\n(BLOCK TOP)\n", "top.nc", false, Setup.Trim)]
    [InlineData("G21\n", "test-UNDERSIDE.nc", false, Setup.Underside)]
    [InlineData("G21\n", "some.where/test top.nc", false, Setup.Top)]
    [InlineData("(HELLO)\n", "test_trim.nc", false, Setup.Trim)]
    public void The_setup_is_told_from_the_text_or_the_name(string text, string file, bool known, Setup setup) =>
        Assert.Equal(setup, Judge(text, file, known).Programs[0].Setup);

    [Fact]
    public void What_cannot_be_told_is_refused()
    {
        VerifyResult result = Judge("(HELLO)\nG21\n", "stop.nc", true);
        Assert.Equal(["setup-unknown"], result.Findings.Select(f => f.Code));
        Assert.False(result.Ok);
    }

    private static VerifyResult Judge(string text, string file, bool known) =>
        Verifier.JudgeOne(
            PocketTest.Job,
            PocketTest.Design,
            file,
            text,
            null,
            known ? [Known] : [],
            Limits.House,
            null
        );
}
