using FixtureGen.Model;
using FixtureGen.Verify.Tests.Support;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>What a cutter may not do where it stands, how far a drill goes at once, in which order and which way round a shell is trimmed.</summary>
public sealed class MotionTest
{
    private static readonly Job Job = TestShop.Job(TestShop.EndMill(1, 6), TestShop.Cone(2, ToolKind.Drill, 4, 118, 0));

    private static string[] Codes(VerifyResult result) => [.. result.Findings.Select(f => f.Code).Distinct()];

    private static string[] Top(string body, int tool = 1, Job? job = null) =>
        Codes(TestShop.Judge(job ?? Job, TestShop.Design(), TestShop.Program(body, tool)));

    /// <summary>A groove 1.5 mm deep: the same words in it and above it.</summary>
    [Theory]
    [InlineData("G4 P0.5", true)]
    [InlineData("M5\nM3", true)]
    [InlineData("M4", true)]
    [InlineData("S9000", true)]
    [InlineData("G0 Z21.\nG4 P0.5\nG1 Z18.5", false)]
    [InlineData("G0 Z21.\nS9000\nG1 Z18.5", false)]
    [InlineData("S8000", false)]
    public void A_cutter_does_not_stand_still_in_its_work(string words, bool told)
    {
        string body = $"G0 X30. Y30.\nG0 Z21.\nG1 Z20.\nG1 X50. Z18.5\n{words}\nG1 X70.\nG0 Z40.";
        Assert.Equal(told, Top(body).Contains("stops-in-work"));
    }

    /// <summary>A drill of 4 mm: more than 16 mm at once are refused, by hand or in a cycle, with pecks they pass.</summary>
    [Theory]
    [InlineData("G0 Z21.\nG1 Z5.", false)]
    [InlineData("G0 Z21.\nG1 Z2.", true)]
    [InlineData("G0 Z21.\nG1 Z10.\nG1 Z2.", true)]
    [InlineData("G0 Z21.\nG1 Z10.\nG0 Z21.\nG0 Z10.3\nG1 Z2.", false)]
    [InlineData("G99 G81 X30. Y30. Z2. R21.\nG80", true)]
    [InlineData("G99 G83 X30. Y30. Z2. R21. Q4.\nG80", false)]
    public void A_drill_pecks_before_it_chokes(string strokes, bool told) =>
        Assert.Equal(told, Top("G0 X30. Y30.\n" + strokes + "\nG0 Z40.", 2).Contains("peck-missing"));

    /// <summary>6 mm at 8000 a minute: 150.8 m/min.</summary>
    [Theory]
    [InlineData(151, false)]
    [InlineData(147, true)]
    public void The_rim_is_no_faster_than_the_material_bears(double most, bool told)
    {
        Job job = Job with { BlockMaterial = TestShop.Material with { MaxSpeedMPerMin = most } };
        string body = "G0 X30. Y30.\nG0 Z21.\nG1 Z20.\nG1 X50. Z18.5\nG1 X70.\nG0 Z40.";
        Assert.Equal(told, Top(body, 1, job).Contains("surface-speed"));
    }

    [Theory]
    [InlineData(true, false)]
    [InlineData(false, true)]
    public void A_contour_is_cut_the_way_it_was_planned(bool asPlanned, bool told)
    {
        const string Backwards = """
            G0 X50. Y28.5
            G0 Z20.
            G1 Z18.5 F300.
            G1 X65. Z17.5 F800.
            G3 X71.5 Y35. I0. J6.5
            G1 Y65.
            G3 X65. Y71.5 I-6.5 J0.
            G1 X35.
            G3 X28.5 Y65. I0. J-6.5
            G1 Y35.
            G3 X35. Y28.5 I6.5 J0.
            G1 X65.
            """;
        string[] codes = Codes(Trim(TrimShop.Design, asPlanned ? TrimShop.Once : Backwards));
        Assert.Equal(told, codes.Contains("trim-direction"));
    }

    [Theory]
    [InlineData("G1 X35.", false)]
    [InlineData("G1 X49.", false)]
    [InlineData("G1 X50.", true)]
    public void A_contour_goes_on_past_where_it_closes(string last, bool told)
    {
        string body = TrimShop.Once[..^"G1 X35.".Length] + last;
        Assert.Equal(told, Codes(Trim(TrimShop.Design, body)).Contains("contour-seam"));
    }

    [Theory]
    [InlineData("G17", false)]
    [InlineData("G18", true)]
    [InlineData("G18\nG17", true)]
    [InlineData("G18\nG2 X70. Z20. I10. K0.\nG17", false)]
    public void A_plane_that_no_arc_follows_in_does_nothing(string words, bool told) =>
        Assert.Equal(told, Top($"G0 X50. Y30.\n{words}\nG0 Z40.").Contains("orphan-word"));

    /// <summary>Cleared ground at 18.5, then a second descent into it.</summary>
    [Theory]
    [InlineData("G0 Z18.7\nG1 Z18.5", false)]
    [InlineData("G0 Z18.3\nG1 Z19.", true)]
    public void A_rapid_ends_above_where_feeding_begins(string down, bool told)
    {
        string body =
            "G0 X30. Y30.\nG0 Z21.\nG1 Z20.\nG1 X50. Z18.2\nG1 X30.\nG0 Z21.\nX40.\n" + down + "\nG1 X50.\nG0 Z40.";
        Assert.Equal(told, Top(body).Contains("rapid-overshoots"));
    }

    /// <summary>A round cutout of 6 mm in the middle of the part, and the outline.</summary>
    [Theory]
    [InlineData(true, false)]
    [InlineData(false, true)]
    public void A_cutout_comes_before_the_outline(bool first, bool told)
    {
        const string Hole =
            "G0 Z21.\nG0 X43.5 Y42.\nG1 Z17.5 F300.\nG3 X40.5 Y42. I-1.5 J0.\nG3 X43.5 Y42. I1.5 J0.\nG0 Z21.\n";
        TrimCut outline = TrimShop.Design.TrimCuts[0];
        TrimCut hole = outline with
        {
            Name = "cutout",
            Kind = TrimKind.Cutout,
            Edge = TestShop.Circle(42, 42, 3),
            Path = TestShop.Circle(42, 42, 1.5),
            Sweep = [Region.From(TestShop.Circle(42, 42, 3))],
        };
        FixtureDesign design = TrimShop.Design with { TrimCuts = [hole, outline] };
        string body = first ? Hole + TrimShop.Once : TrimShop.Once + "\n" + Hole;
        Assert.Equal(told, Codes(Trim(design, body)).Contains("trim-order"));
    }

    private static VerifyResult Trim(FixtureDesign design, string body) =>
        TestShop.Judge(TrimShop.Job, design, TrimShop.Program(body), Setup.Trim);
}
