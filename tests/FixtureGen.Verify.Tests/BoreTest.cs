using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>A bore of 10 mm and 3 mm depth by a helix of half turns with a 6 mm mill: climb cut counter-clockwise.</summary>
public sealed class BoreTest
{
    private const string Helix = """
        G0 X52. Y50.
        G0 Z20.6
        G1 Z20.
        G3 X48. Y50. Z19.5 I-2. J0.
        G3 X52. Y50. Z19. I2. J0.
        G3 X48. Y50. Z18.5 I-2. J0.
        G3 X52. Y50. Z18. I2. J0.
        G3 X48. Y50. Z17.5 I-2. J0.
        G3 X52. Y50. Z17. I2. J0.
        G3 X48. Y50. I-2. J0.
        G3 X52. Y50. I2. J0.
        """;

    private static FixtureDesign Design { get; } =
        TestShop.Design(
            TestShop.Pocket("bore", FeatureKind.MagnetPocket, Setup.Top, TestShop.Circle(50, 50, 5), 20, 17)
        );

    [Fact]
    public void A_climb_cut_bore_has_no_finding() => Assert.Empty(Told(TestShop.Program(Helix)));

    [Fact]
    public void One_turn_the_other_way_is_told()
    {
        (string text, int line) = Slip.Make(
            TestShop.Program(Helix),
            "G3 X48. Y50. Z18.5 I-2. J0.",
            "G2 X48. Y50. Z18.5 I-2. J0."
        );
        VerifyResult result = TestShop.Judge(PocketTest.Job, Design, text);
        Slip.Found(result, text, line, "odd-turn");
        Assert.All(result.Findings, f => Assert.Equal(line, f.Line));
    }

    [Fact]
    public void A_bore_against_the_climb_is_told_once()
    {
        string text = TestShop.Program(Helix.Replace("G3", "G2", StringComparison.Ordinal));
        Assert.Equal(["bore-conventional"], TestShop.Judge(PocketTest.Job, Design, text).Findings.Select(f => f.Code));
    }

    /// <summary>Heights, positions and feeds in inches mean the same.</summary>
    [Fact]
    public void The_same_bore_in_inches_is_the_same_motion()
    {
        const string inches = """
            G0 X2.04724 Y1.9685
            G0 Z0.811
            G1 Z0.7874 F31.496
            """;
        string text = TestShop
            .Program(inches)
            .Replace("G21", "G20", StringComparison.Ordinal)
            .Replace("Z40.", "Z1.5748", StringComparison.Ordinal);
        Motion last = TestShop
            .Judge(PocketTest.Job, Design, text)
            .Programs[0]
            .Motions.Last(m => m.Kind == MotionKind.Line);
        Assert.Equal(52, last.To.X, 3);
        Assert.Equal(50, last.To.Y, 3);
        Assert.Equal(20, last.To.Z, 3);
        Assert.Equal(800, last.FeedMmPerMin, 2);
    }

    [Fact]
    public void Comments_behind_semicolons_are_read_as_those_in_parentheses()
    {
        Job job = PocketTest.Job with { Control = TestShop.Control with { Comment = CommentForm.Semicolon } };
        string text = string.Join(
            '\n',
            TestShop.Program(Helix).Split('\n').Select(l => l.StartsWith('(') ? "; " + l.Trim('(', ')') : l)
        );
        Assert.Empty(TestShop.Judge(job, Design, text).Findings.Select(f => f.Code + " " + f.Message));
    }

    private static string[] Told(string text) =>
        [.. TestShop.Judge(PocketTest.Job, Design, text).Findings.Select(f => $"{f.Where} {f.Code} {f.Message}")];
}
