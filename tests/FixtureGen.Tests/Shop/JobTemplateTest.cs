using FixtureGen.Drawing.Roles;
using FixtureGen.Model;
using FixtureGen.Shop.Jobs;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Shop;

public sealed class JobTemplateTest
{
    private const OpenKeys Open =
        OpenKeys.Blank
        | OpenKeys.Gasket
        | OpenKeys.Magnet
        | OpenKeys.TrimTool
        | OpenKeys.Count
        | OpenKeys.Passes
        | OpenKeys.Feed
        | OpenKeys.Rpm;

    private static readonly JobAnswers Answers = new("abs", "1.5 mm", "0.3 mm", "auto", "mm");

    /// <summary>It wrote 2.4 mm of the alphabetically first plastic, laid by hand, as if it knew.</summary>
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void What_only_the_shop_knows_is_refused_until_it_is_answered(bool form)
    {
        DrawingFacts facts = new("bulb-dibber", null, 120, 80, form, false)
        {
            Last = new("petg", "1.2 mm", "0.4 mm", "pins", ""),
        };
        string text = JobTemplate.NewJob(facts, DemoShop.Files);
        Stage<Job> read = JobReader.Read(text, "outlines/bulb-dibber.toml", DemoShop.Files);

        Assert.False(read.Ok);
        Assert.All(read.Findings, f => Assert.Equal("key-unanswered", f.Code));
        string[] open = ["shop.shell", "drawing.unit", "shell.thickness", "shell.slack_max", "locator.by"];
        Assert.Equal(
            form ? [.. open, "form.direction", "form.height"] : open,
            JobReader.OpenQuestions(text, "bulb-dibber.toml")
        );
        Assert.Contains("last answer here: petg", text, StringComparison.Ordinal);
        Assert.Contains("last answer here: 1.2 mm", text, StringComparison.Ordinal);
        Assert.Contains("\"mm\" makes it 120 x 80 mm", text, StringComparison.Ordinal);
    }

    private static readonly EdgeFacts Edges = new()
    {
        Corners = 4,
        CornerLeft = 0.414,
        Cutter = "mill-2mm",
        SmallHoles = 2,
        Narrowest = 1.5,
        AllRound = true,
    };

    /// <summary>Sharp corners and holes under every cutter were refused by make though every question of new was answered.</summary>
    [Fact]
    public void What_no_cutter_follows_is_asked_and_taken_as_answered()
    {
        DrawingFacts facts = new("bulb-dibber", LengthUnit.Millimetre, 120, 80, false, false)
        {
            Answers = Answers,
            Edges = Edges,
            Last = JobAnswers.None with { SmallHoles = "leave", CornerLeft = "0.6 mm" },
        };
        string open = JobTemplate.NewJob(facts, DemoShop.Files);
        Assert.Equal(["small_holes", "rules.corner_left"], JobReader.OpenQuestions(open, "bulb-dibber.toml"));
        Assert.Contains(
            "mill-2mm reaches farthest and leaves 0.414 mm, so 0.5 mm lets it be made",
            open,
            StringComparison.Ordinal
        );
        Assert.Contains("last answer here: leave", open, StringComparison.Ordinal);
        Assert.Contains("last answer here: 0.6 mm", open, StringComparison.Ordinal);

        JobAnswers said = Answers with { SmallHoles = "spot", CornerLeft = "0.5 mm" };
        string text = JobTemplate.NewJob(facts with { Answers = said }, DemoShop.Files);
        Job job = DemoShop.Job(text, "bulb-dibber");
        Assert.Equal((SmallHoles.Spot, 0.5), (job.SmallHoles, job.Rules.CornerLeft));
        Assert.Equal("spot", JobAnswers.ReadFrom(text, "bulb-dibber.toml").SmallHoles);
        Assert.Equal("0.5 mm", JobAnswers.ReadFrom(text, "bulb-dibber.toml").CornerLeft);

        EdgeFacts second = Edges with { Corners = 0, SecondCutterDoes = true };
        Job cut = DemoShop.Job(JobTemplate.NewJob(facts with { Edges = second }, DemoShop.Files), "bulb-dibber");
        Assert.Equal(SmallHoles.SecondCutter, cut.SmallHoles);
    }

    [Fact]
    public void A_fixture_gets_an_id_that_no_other_of_the_folder_has()
    {
        Assert.Equal("BD-1", JobTemplate.FreeId("bulb-dibber", new HashSet<string>()));
        Assert.Equal("BD-3", JobTemplate.FreeId("bulb-dibber", new HashSet<string> { "BD-1", "BD-2", "XX-3" }));
    }

    [Theory]
    [InlineData(LengthUnit.Millimetre, 120, 80, false, "8-5")]
    [InlineData(LengthUnit.Inch, 120, 80, true, "8-5")]
    [InlineData(LengthUnit.Millimetre, 230, 80, false, "10")]
    [InlineData(null, 5, 3, false, "8-5")]
    public void A_fresh_job_whose_questions_are_answered_reads_without_an_error(
        LengthUnit? unit,
        double width,
        double height,
        bool form,
        string blank
    )
    {
        string text = JobTemplate.NewJob(
            new DrawingFacts("bulb-dibber", unit, width, height, form, false) { Answers = Answers },
            DemoShop.Files
        );
        text = text.Replace("direction = \"?\"", "direction = \"down\"", StringComparison.Ordinal)
            .Replace("height = \"?\"", "height = \"8 mm\"", StringComparison.Ordinal);
        Job job = DemoShop.Job(text, "bulb-dibber");

        Assert.Equal("Bulb dibber", job.Title);
        Assert.Equal("BD-1", job.FixtureId);
        Assert.Matches($"(?m)^# blank = \"[a-z0-9-]*{blank}\"", text);
        Assert.Equal(Open | (form ? OpenKeys.None : OpenKeys.Pins), job.Open);
        Assert.Equal(form ? LocatorKind.Form : LocatorKind.Pins, job.Locator);
        Assert.Equal(1.5, job.Shell.Thickness, 1e-9);
        Assert.Equal(0.3, job.Shell.SlackMax, 1e-9);
        Assert.Equal(unit is null, text.Contains("\nunit = \"mm\"", StringComparison.Ordinal));
    }

    [Fact]
    public void A_drawing_with_layers_of_its_own_is_asked_which_is_the_outline()
    {
        DrawingFacts facts = new("bulb-dibber", LengthUnit.Millimetre, 120, 80, false, false)
        {
            Answers = Answers,
            Layers =
            [
                new SuggestedRole("Dim", CurveRole.Ignore, 0, 7),
                new SuggestedRole("holes", CurveRole.Cutout, 3, 0),
                new SuggestedRole("Part Edge", CurveRole.Outline, 1, 0),
                new SuggestedRole("slots", CurveRole.Cutout, 2, 0),
            ],
        };
        string text = JobTemplate.NewJob(facts, DemoShop.Files);
        Assert.Equal(DrawingRoles.House.Layers, DemoShop.Job(text, "bulb-dibber").Roles.Layers);
        string named = text.Replace("# [drawing", "[drawing", StringComparison.Ordinal)
            .Replace("# outline", "outline", StringComparison.Ordinal)
            .Replace("# ignore", "ignore", StringComparison.Ordinal)
            .Replace("# cutout", "cutout", StringComparison.Ordinal);
        Assert.Equal(
            "Outline Part Edge, Cutout holes, Cutout slots, Ignore Dim",
            string.Join(
                ", ",
                DemoShop.Job(named, "bulb-dibber").Roles.Layers.Where(l => l.Stated).Select(l => $"{l.Role} {l.Name}")
            )
        );
    }

    /// <summary>Without the # of the last part the job says the same; only what is chosen otherwise when left out is passed over.</summary>
    [Fact]
    public void Every_default_is_shown_as_it_is()
    {
        string text = JobTemplate.NewJob(
            new DrawingFacts("bulb-dibber", LengthUnit.Millimetre, 120, 80, false, false) { Answers = Answers },
            DemoShop.Files
        );
        int from = text.IndexOf("# [magnets]", StringComparison.Ordinal);
        string[] chosen =
        [
            "# [trim]",
            "# passes",
            "# feed",
            "# rpm",
            "# [placement]",
            "# at ",
            "# angle_deg",
            "# [[port]]",
            "# [hold]",
            "# by ",
            "# accept_low_hold",
            "# [magnets]",
            "# count",
            "# factor_target",
            "# [[magnet]]",
        ];
        IEnumerable<string> said = text[from..]
            .Split('\n')
            .Where(l => !chosen.Any(c => l.StartsWith(c, StringComparison.Ordinal)))
            .Select(l => l.StartsWith("# dull_factor", StringComparison.Ordinal) ? "# [trim]\n" + l : l)
            .Select(l => l.Replace("# [", "[", StringComparison.Ordinal))
            .Select(l => l.StartsWith("# ", StringComparison.Ordinal) ? l[2..] : l);
        string stated =
            text[..from] + string.Join('\n', said).Replace("\n# [trim]", "\n[trim]", StringComparison.Ordinal);

        Job silent = DemoShop.Job(text, "bulb-dibber");
        Job spoken = DemoShop.Job(stated, "bulb-dibber");

        Assert.Equal(18.5, spoken.Rules.FixtureHeight);
        Assert.Equal(silent.Rules with { FixtureHeight = 18.5 }, spoken.Rules);
        Assert.Equal(silent.Limits, spoken.Limits);
        Assert.Equal(silent.DullFactor, spoken.DullFactor);
        Assert.Equal(silent.Skirt, spoken.Skirt);
        Assert.Equal(silent.BlankThickness, spoken.BlankThickness, 1e-9);
        Assert.Equal(silent.Vacuum.AlarmKPa, spoken.Vacuum.AlarmKPa, 1e-9);
        Assert.Equal(silent.Vacuum.PumpRatedKPa, spoken.Vacuum.PumpRatedKPa, 1e-9);
        Assert.Equal(silent.Vacuum.LeakHoleMm, spoken.Vacuum.LeakHoleMm, 1e-9);
        Assert.Equal(silent.Vacuum.AlarmToleranceKPa, spoken.Vacuum.AlarmToleranceKPa, 1e-9);
    }

    /// <summary>A wrong key's finding lists the right ones: each of them stands in a fresh job.</summary>
    [Theory]
    [InlineData("rules")]
    [InlineData("limits")]
    [InlineData("vacuum")]
    [InlineData("trim")]
    [InlineData("block")]
    [InlineData("skirt")]
    [InlineData("magnets")]
    [InlineData("shell")]
    [InlineData("hold")]
    public void No_key_is_hidden(string table)
    {
        string fresh = JobTemplate.NewJob(
            new DrawingFacts("bulb-dibber", LengthUnit.Millimetre, 120, 80, false, false) { Answers = Answers },
            DemoShop.Files
        );
        Finding unknown = Assert.Single(
            JobReader.Read(DemoShop.PlainJob(more: $"[{table}]\nzzz = 1"), "outlines/x.toml", DemoShop.Files).Findings
        );
        string list = unknown.Remedy.Split("nown here: ")[1];

        Assert.Equal("toml-unknown-key", unknown.Code);
        Assert.All(list.TrimEnd('.').Split(", "), key => Assert.Matches($@"(?m)^(# )?{key} = ", fresh));
    }
}
