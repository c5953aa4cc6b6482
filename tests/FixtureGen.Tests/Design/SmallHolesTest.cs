using System.Collections.Immutable;
using FixtureGen.Design.Trim;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Shop.Jobs;
using FixtureGen.Tests.Support;
using FixtureGen.Verify;
using FixtureGen.Verify.Verdicts;
using Xunit;

namespace FixtureGen.Tests.Design;

/// <summary>Cutouts that the trim cutter of 3.175 mm does not fit into: refused, cut by a second cutter, marked or left.</summary>
public sealed class SmallHolesTest
{
    private static readonly Job Job = DemoShop.Job(
        DemoShop.PlainJob(more: "\n[locator]\nby = \"pins\"\npins = [[-15, 45], [135, 45]]\n[magnets]\ncount = 4")
    );

    private static Part Plate(params Contour[] cutouts) =>
        new(
            Contours.RoundedRectangle(new Box2(0, 0, 120, 90), 8),
            [.. cutouts.Select(Contours.Reverse)],
            [],
            [],
            [],
            []
        );

    private static Contour Hole(double x, double y, double diameter) => Contours.Circle(new Point2(x, y), diameter / 2);

    private static Contour Slot { get; } = Contours.RoundedRectangle(new Box2(50, 70, 62, 72.5), 1.25);

    [Theory]
    [InlineData("small_holes = \"second-cutter\"", "", SmallHoles.SecondCutter)]
    [InlineData("", "small_holes = \"spot\"", SmallHoles.Spot)]
    [InlineData("small_holes = \"leave\"", "", SmallHoles.Leave)]
    [InlineData("small_holes = \"drill\"", "", SmallHoles.Drill)]
    [InlineData("", "", SmallHoles.Unsaid)]
    public void The_job_says_it_at_its_top_or_under_drawing(string top, string drawing, SmallHoles read)
    {
        string text = top + "\n" + DemoShop.PlainJob(more: drawing.Length > 0 ? "\n[drawing]\n" + drawing : "");
        Assert.Equal(read, DemoShop.Job(text).SmallHoles);
    }

    [Fact]
    public void Saying_it_twice_is_refused()
    {
        string text = "small_holes = \"leave\"\n" + DemoShop.PlainJob(more: "\n[drawing]\nsmall_holes = \"spot\"");
        Stage<Job> read = JobReader.Read(text, "outlines/x.toml", DemoShop.Files);
        Assert.Contains(
            read.Findings,
            f => f.Code == "shop-contradiction" && f.Message.Contains("small_holes", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void What_is_not_said_is_refused_with_the_ways()
    {
        Finding error = Assert.Single(
            TrimPlanner.Plan(Plate(Hole(20, 20, 2.5)), Job, new Kernel(Tolerances.House)).Findings,
            f => f.Severity == Severity.Error
        );
        Assert.Equal("cutout-smaller-than-cutter", error.Code);
        Assert.All(
            (string[])["\"second-cutter\"", "\"spot\"", "\"leave\""],
            way => Assert.Contains(way, error.Remedy, StringComparison.Ordinal)
        );
    }

    /// <summary>2.2 and 2.5 mm holes and a slot of 2.5 mm by the rack's 2 mm mill; the hole of 12 mm and the outline by the trim cutter.</summary>
    [Fact]
    public void A_second_cutter_cuts_them_and_the_judge_agrees()
    {
        Job job = Job with { SmallHoles = SmallHoles.SecondCutter, AcceptLowHold = "a test of the cutter" };
        Part part = Plate(Hole(20, 20, 2.5), Hole(100, 70, 2.2), Slot, Hole(60, 40, 12));
        (FixtureDesign design, ImmutableArray<ProgramText> programs) = MadePart.Make(part, job);

        Assert.Equal(
            ["mill-2mm", "mill-2mm", "mill-2mm", job.TrimTool.Name, job.TrimTool.Name],
            design.TrimCuts.Select(c => c.Tool.Name)
        );
        string trim = programs.Single(p => p.Setup == Setup.Trim).Text;
        int second = trim.IndexOf("SMALL CUTOUTS", StringComparison.Ordinal);
        int first = trim.IndexOf("(CUTOUTS", StringComparison.Ordinal);
        Assert.True(0 < second && second < first && first < trim.IndexOf("(OUTLINE", StringComparison.Ordinal));

        VerifyResult verdict = Verifier.Judge(
            new VerifyRequest(HeldJobs.Nominal(job), design, programs, Limits.House) { Drawing = part }
        );
        Assert.Empty(verdict.Findings.Where(f => f.Severity == Severity.Error).Select(f => f.Code + " " + f.Message));

        // the judge asks the job: without its word for a second cutter the design is not what was asked for
        VerifyResult asked = Verifier.Judge(
            new VerifyRequest(
                HeldJobs.Nominal(job) with
                {
                    SmallHoles = SmallHoles.Unsaid,
                },
                design,
                programs,
                Limits.House
            )
            {
                Drawing = part,
            }
        );
        Assert.Contains(asked.Findings, f => f.Severity == Severity.Error);
    }

    [Fact]
    public void Marked_holes_become_crosses_to_drill_by_hand()
    {
        Job job = Job with { SmallHoles = SmallHoles.Spot };
        Stage<Part> settled = SmallCutouts.Settle(Plate(Hole(20, 20, 2.5), Hole(60, 40, 12)), job, Tolerances.House);
        Finding note = Assert.Single(settled.Findings);
        Assert.Equal(("small-holes-marked", Severity.Note), (note.Code, note.Severity));
        Assert.Contains("2.5 mm at X20.0 Y20.0", note.Message, StringComparison.Ordinal);
        Assert.Single(settled.Value!.Cutouts);
        EngraveMark cross = Assert.Single(settled.Value.Engravings);
        Assert.Equal([new Point2(19, 20), new Point2(20, 19)], cross.Strokes.Select(s => s.Start));

        Stage<Part> slot = SmallCutouts.Settle(Plate(Slot), job, Tolerances.House);
        Assert.Equal("small-hole-not-round", Assert.Single(slot.Findings).Code);
        Assert.False(slot.Ok);
    }

    [Fact]
    public void Left_holes_are_warned_of()
    {
        Job job = Job with { SmallHoles = SmallHoles.Leave };
        Stage<Part> settled = SmallCutouts.Settle(Plate(Hole(20, 20, 2.5), Slot), job, Tolerances.House);
        Finding warning = Assert.Single(settled.Findings);
        Assert.Equal(("small-holes-left", Severity.Warning), (warning.Code, warning.Severity));
        Assert.Empty(settled.Value!.Cutouts);
        Assert.Empty(SmallCutouts.Settle(Plate(Hole(60, 40, 12)), job, Tolerances.House).Findings);
    }

    /// <summary>The block's own cutter must get into the relief: as wide as an eighth-inch cutter's, and no more of the part unbacked.</summary>
    [Theory]
    [InlineData(0.8)]
    [InlineData(1)]
    [InlineData(2)]
    public void A_thin_cutter_has_a_relief_that_a_block_can_be_given(double diameter)
    {
        Tool thin = Job.TrimTool with { Name = "thin", Number = 90, Diameter = diameter, FluteLength = 5 };
        Job job = Job with { TrimTool = thin, Tools = [.. Job.Tools, thin], AcceptLowHold = "a test of the cutter" };
        Part part = Plate(Hole(60, 40, 12), Hole(30, 30, 3));
        (FixtureDesign design, ImmutableArray<ProgramText> programs) = MadePart.Make(part, job);
        VerifyResult verdict = Verifier.Judge(
            new VerifyRequest(HeldJobs.Nominal(job), design, programs, Limits.House) { Drawing = part }
        );
        Assert.Empty(verdict.Findings.Where(f => f.Severity == Severity.Error).Select(f => f.Code + " " + f.Message));
    }
}
