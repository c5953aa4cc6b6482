using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
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
    public void Two_turns_the_other_way_are_both_told_and_each_once()
    {
        (string once, int first) = Slip.Make(TestShop.Program(Helix), "G3 X48. Y50. Z19.5", "G2 X48. Y50. Z19.5");
        (string text, int second) = Slip.Make(once, "G3 X48. Y50. Z17.5", "G2 X48. Y50. Z17.5");
        Assert.Equal([first, second], Odd(text).Select(f => f.Line ?? 0));
    }

    /// <summary>
    /// Half turns down by their senses, G2 or G3: the fewer are the slip, and of two halves the clockwise one, which cuts against the
    /// climb; of two turns neither is the rule.
    /// </summary>
    [Theory]
    [InlineData("32", "")]
    [InlineData("323", " 2")]
    [InlineData("232", " 2")]
    [InlineData("3322", " 3 4")]
    [InlineData("2233", " 1 2")]
    public void The_sense_of_most_turns_is_the_helix_own(string senses, string odd)
    {
        string turns = string.Concat(
            senses.Select(
                (s, i) =>
                    FormattableString.Invariant(
                        $"G{s} X{(i % 2 == 0 ? 48 : 52)}. Y50. Z{19.5 - (0.5 * i):0.0} I{(i % 2 == 0 ? -2 : 2)}. J0.\n"
                    )
            )
        );
        string text = TestShop.Program("G0 X52. Y50.\nG0 Z20.6\nG1 Z20.\n" + turns);
        int before = Array.IndexOf(text.Split('\n'), "G1 Z20.") + 1;
        Assert.Equal(odd, string.Concat(Others(text).Select(f => FormattableString.Invariant($" {f.Line - before}"))));
    }

    /// <summary>The rounds on the floor end the bore; they are no turns of the helix.</summary>
    [Fact]
    public void Level_turns_are_not_held_against_the_helix()
    {
        string level = Helix
            .Replace("G3 X48. Y50. I", "G2 X48. Y50. I", StringComparison.Ordinal)
            .Replace("G3 X52. Y50. I", "G2 X52. Y50. I", StringComparison.Ordinal);
        Assert.NotEqual(Helix, level);
        Assert.Empty(Others(TestShop.Program(level)));
    }

    private static IEnumerable<Finding> Others(string text) =>
        TestShop
            .Judge(PocketTest.Job, Design, text)
            .Findings.Where(f => f.Message.EndsWith("than the rest of its helix", StringComparison.Ordinal));

    /// <summary>One whole turn that is all that is fed.</summary>
    [Fact]
    public void A_single_turn_against_the_climb_is_told()
    {
        string text = TestShop.Program(
            "G0 X52. Y50.\nG0 Z20.5\nG2 X48. Y50. Z19.5 I-2. J0.\nG2 X52. Y50. Z18.5 I2. J0."
        );
        VerifyResult result = TestShop.Judge(PocketTest.Job, Design, text);
        Slip.Found(result, text, 0, "bore-conventional", "G2 X48.");
    }

    [Fact]
    public void A_bore_against_the_climb_is_told_once()
    {
        string text = TestShop.Program(Helix.Replace("G3", "G2", StringComparison.Ordinal));
        string atOnce = text.Replace("G0 Z20.6\nG1 Z20.\n", "G0 Z20.5\n", StringComparison.Ordinal);
        Assert.Contains(
            "bore-conventional",
            TestShop.Judge(PocketTest.Job, Design, atOnce).Findings.Select(f => f.Code)
        );
        Assert.Equal(["bore-conventional"], TestShop.Judge(PocketTest.Job, Design, text).Findings.Select(f => f.Code));
    }

    [Fact]
    public void A_turn_that_falls_unlike_the_others_is_told()
    {
        (string text, int line) = Slip.Make(TestShop.Program(Helix), "Y50. Z18.5", "Y50. Z18.3");
        Slip.Found(TestShop.Judge(PocketTest.Job, Design, text), text, line, "uneven-descent");
    }

    /// <summary>A bore in two widths: every helix is held against its own turns only.</summary>
    [Theory]
    [InlineData("G3 X49. Y50. Z18.9", "G2 X49. Y50. Z18.9", true)]
    [InlineData("G3 X48. Y50. Z17.9", "G2 X48. Y50. Z17.9", true)]
    [InlineData("G3 X5", "G3 X5", false)]
    public void Turns_of_two_radii_are_two_helices(string good, string bad, bool told)
    {
        const string two = """
            G0 X51. Y50.
            G0 Z20.6
            G1 Z20.
            G3 X49. Y50. Z19.7 I-1. J0.
            G3 X51. Y50. Z19.4 I1. J0.
            G3 X49. Y50. Z18.9 I-1. J0.
            G3 X51. Y50. Z18.4 I1. J0.
            G1 X52.
            G3 X48. Y50. Z18.2 I-2. J0.
            G3 X52. Y50. Z18. I2. J0.
            G3 X48. Y50. Z17.9 I-2. J0.
            G3 X52. Y50. Z17. I2. J0.
            """;
        (string text, int line) = Slip.Make(TestShop.Program(two), good, bad);
        Assert.Equal(told ? [line] : [], Odd(text).Select(f => f.Line ?? 0));
    }

    /// <summary>The first helix one way round, the second the other: each by itself is even.</summary>
    [Fact]
    public void Helices_of_two_radii_may_turn_two_ways()
    {
        const string two = """
            G0 X51. Y50.
            G0 Z20.6
            G1 Z20.
            G3 X49. Y50. Z19.7 I-1. J0.
            G3 X51. Y50. Z19.4 I1. J0.
            G3 X49. Y50. Z19.1 I-1. J0.
            G3 X51. Y50. Z18.8 I1. J0.
            G1 X52.
            G2 X48. Y50. Z18.4 I-2. J0.
            G2 X52. Y50. Z18. I2. J0.
            G2 X48. Y50. Z17.6 I-2. J0.
            """;
        Assert.Empty(Odd(TestShop.Program(two)));
    }

    /// <summary>Where a ramp has no room to go on it goes down to and fro; an arc that goes back without going down is a slip.</summary>
    [Theory]
    [InlineData("G2 X50. Y52. Z18.8 I2. J0.", "G2 X50. Y52. Z18.8 I2. J0.", false)]
    [InlineData("G2 X50. Y52. Z18.8 I2. J0.", "G2 X50. Y52. I2. J0.", true)]
    public void An_arc_that_goes_back_down_its_own_way_is_a_ramp(string good, string other, bool told)
    {
        const string toAndFro = """
            G0 X52. Y50.
            G0 Z20.6
            G1 Z20.
            G3 X50. Y52. Z19.6 I-2. J0.
            G3 X48. Y50. Z19.2 I0. J-2.
            G2 X50. Y52. Z18.8 I2. J0.
            G3 X48. Y50. Z18.4 I0. J-2.
            G3 X50. Y48. I2. J0.
            """;
        (string text, int line) = Slip.Make(TestShop.Program(toAndFro), good, other);
        VerifyResult result = TestShop.Judge(PocketTest.Job, Design, text);
        string[] odd = ["odd-turn", "arc-kinks"];
        Assert.Equal(told, result.Findings.Any(f => f.Line == line && odd.Contains(f.Code)));
    }

    /// <summary>Two bores of one radius, each by itself even: the rapid between them ends the first helix.</summary>
    [Fact]
    public void A_second_bore_may_turn_the_other_way()
    {
        string second = Helix
            .Replace("G3", "G2", StringComparison.Ordinal)
            .Replace("X52.", "X72.", StringComparison.Ordinal)
            .Replace("X48.", "X68.", StringComparison.Ordinal);
        FixtureDesign two = TestShop.Design(
            TestShop.Pocket("bore", FeatureKind.MagnetPocket, Setup.Top, TestShop.Circle(50, 50, 5), 20, 17),
            TestShop.Pocket("other", FeatureKind.MagnetPocket, Setup.Top, TestShop.Circle(70, 50, 5), 20, 17)
        );
        string text = TestShop.Program(Helix + "\nG0 Z40.\n" + second);
        Assert.DoesNotContain("odd-turn", TestShop.Judge(PocketTest.Job, two, text).Findings.Select(f => f.Code));
    }

    /// <summary>Four quarters of a ring; one of them about another centre is a slip, unless it runs on so smoothly that it was planned.</summary>
    [Theory]
    [InlineData("G3 X48. Y50. I0. J-2.", "G3 X48. Y50. I0. J-2.", "")]
    [InlineData("G3 X48. Y50. I0. J-2.", "G3 X48. Y50. I-0.8 J-1.2", "its centre is 1.131 mm off theirs")]
    [InlineData("G3 X48. Y50. I0. J-2.", "G3 X48. Y50. I0.06 J-2.06", "")]
    [InlineData("G3 X48. Y50. I0. J-2.", "G2 X48. Y50. I-2. J0.", "its centre is 2.828 mm off theirs")]
    [InlineData("G3 X48. Y50. I0. J-2.", "G2 X48. Y50. I0. J-2.", "it turns the other way")]
    public void A_quarter_about_another_centre_is_told(string good, string bad, string told)
    {
        const string quarters = """
            G0 X52. Y50.
            G0 Z20.6
            G1 Z20.
            G3 X50. Y52. I-2. J0.
            G3 X48. Y50. I0. J-2.
            G3 X50. Y48. I2. J0.
            G3 X52. Y50. I0. J2.
            """;
        (string text, int line) = Slip.Make(TestShop.Program(quarters), good, bad);
        Finding[] odd = Odd(text);
        Assert.Equal(told.Length > 0 ? [line] : [], odd.Select(f => f.Line ?? 0));
        Assert.All(odd, f => Assert.EndsWith(told, f.Message, StringComparison.Ordinal));
    }

    /// <summary>A full circle ends where it began and yet moves: about another centre than the arcs beside it, it is a slip.</summary>
    [Theory]
    [InlineData("G3 X48. Y50. I2. J0.", "G3 X48. Y50. I2. J0.", false)]
    [InlineData("G3 X48. Y50. I2. J0.", "G3 X48. Y50. I1.5 J1.", true)]
    public void A_full_circle_among_arcs_is_held_against_them(string good, string bad, bool told)
    {
        const string ring = """
            G0 X52. Y50.
            G0 Z20.6
            G1 Z20.
            G3 X48. Y50. I-2. J0.
            G3 X48. Y50. I2. J0.
            G3 X52. Y50. I2. J0.
            """;
        (string text, int line) = Slip.Make(TestShop.Program(ring), good, bad);
        Assert.Equal(told ? [line] : [], Odd(text).Select(f => f.Line ?? 0));
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

    private static Finding[] Odd(string text) =>
        [.. TestShop.Judge(PocketTest.Job, Design, text).Findings.Where(f => f.Code == "odd-turn")];
}
