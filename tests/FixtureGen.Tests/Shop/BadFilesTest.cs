using FixtureGen.Model;
using FixtureGen.Shop.Files;
using FixtureGen.Shop.Jobs;
using FixtureGen.Shop.Reading;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Shop;

/// <summary>Each mistake: code, line and column, what, and what was most likely meant.</summary>
public sealed class BadFilesTest
{
    private const string Blank = """
        units = "in"
        material = "hdpe"
        width = 8.5
        height = 8.5
        thickness = 0.75
        thickness_tolerance = 0.015
        """;

    [Theory]
    [InlineData("trim_tool = \"trim-1-8-up\"", "trim_tool")]
    [InlineData("title = \"Soil-meter cradle\"", "title")]
    [InlineData("fixture = \"MC-2\"", "fixture")]
    [InlineData("tools = \"rack\"", "tools")]
    public void What_a_job_names_must_not_be_empty(string written, string key)
    {
        string text = File.ReadAllText(DemoShop.StatedJob("meter-cradle"));
        Assert.Contains(written, text, StringComparison.Ordinal);
        text = text.Replace(written, key + " = \"\"", StringComparison.Ordinal);

        Stage<Job> stage = JobReader.Read(text, "outlines/meter-cradle.toml", DemoShop.Files);

        Assert.Null(stage.Value);
        Finding f = stage.Findings.Single(f => f.Severity == Severity.Error);
        Assert.Equal("toml-missing-key", f.Code);
        Assert.Contains($"{key}' is empty", f.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("width = 8.5", "widht = 8.5", "toml-unknown-key", 3, 1, "'widht'", "'width'")]
    [InlineData(
        "width = 8.5",
        "width = 850",
        "toml-out-of-range",
        3,
        9,
        "850 in (21590 mm)",
        "from 0.985 to 39.37 in (25 to 1000 mm)"
    )]
    [InlineData("width = 8.5", "width = true", "toml-wrong-type", 3, 9, "'width'", "number")]
    [InlineData("width = 8.5", "width = \"8.5 inches\"", "toml-unknown-unit", 3, 9, "8.5 inches", "mm, cm")]
    [InlineData("width = 8.5", "width = 8,5", "toml-syntax", 3, 10, ",", "quotes")]
    [InlineData("height = 8.5", "width = 8.5", "toml-duplicate-key", 4, 1, "line 3", "Keep one")]
    [InlineData("\"hdpe\"", "\"\"", "toml-missing-key", 2, 12, "'material' is empty", "Write text")]
    [InlineData("height = 8.5\n", "", "toml-missing-key", 1, 1, "'height'", "Add it")]
    [InlineData("\"in\"", "\"inch\"", "toml-not-a-choice", 1, 9, "inch", "\"in\"")]
    public void A_mistake_is_named_with_its_place(
        string right,
        string wrong,
        string code,
        int line,
        int column,
        string says,
        string remedy
    )
    {
        string text = Blank.ReplaceLineEndings("\n").Replace(right, wrong, StringComparison.Ordinal);
        Stage<Blank> stage = BlankReader.Read(text, "blanks/b.toml", "b");
        Finding f = stage.Findings.First(x => x.Code == code);

        Assert.Null(stage.Value);
        Assert.Equal(FormattableString.Invariant($"blanks/b.toml:{line}:{column}"), f.Where);
        Assert.Equal(line, f.Line);
        Assert.Contains(says, f.Message, StringComparison.Ordinal);
        Assert.Contains(remedy, f.Message + f.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void A_range_may_be_copied_into_the_file_as_it_is_told()
    {
        foreach (string end in (string[])["0.985", "39.37"])
        {
            string text = Blank.Replace("width = 8.5", "width = " + end, StringComparison.Ordinal);
            Assert.True(BlankReader.Read(text, "blanks/b.toml", "b").Ok);
        }
    }

    [Fact]
    public void A_wrong_unit_is_told_alone_and_no_length_is_judged_by_it()
    {
        string text = Blank
            .Replace("\"in\"", "\"inch\"", StringComparison.Ordinal)
            .Replace("width = 8.5", "width = 850", StringComparison.Ordinal);
        Assert.Equal("toml-not-a-choice", Assert.Single(BlankReader.Read(text, "blanks/b.toml", "b").Findings).Code);
    }

    [Fact]
    public void An_empty_file_is_told_as_such()
    {
        Finding shop = Assert.Single(BlankReader.Read("# nothing\n", "blanks/b.toml", "b").Findings);
        Assert.Equal(("toml-missing-key", "The file is empty."), (shop.Code, shop.Message));
        Finding job = Assert.Single(JobReader.Read("", "outlines/x.toml", DemoShop.Files).Findings);
        Assert.Equal(("toml-missing-key", "The file is empty."), (job.Code, job.Message));
    }

    [Theory]
    [InlineData("plates", "points = [[1.75, 2.25]", "points = [[1.75, 2.25], [1.75, 2.25]", null)]
    [InlineData(
        "plates",
        "port = \"main\"\npoints = [[1.75, 4.25]",
        "port = \"mian\"\npoints = [[1.75, 4.25]",
        ":90:3"
    )]
    [InlineData("plates", "at = [4.25, 4.25]", "at = [0.2, 4.25]", ":103:2")]
    [InlineData("plates", "points = [[1.75, 6.25], [6.75, 6.25]]", "points = [[1.75, 7.5], [6.75, 7.5]]", ":96:3")]
    [InlineData("materials", "cutter = 0.375", "cutter = 0.25", ":27:3")]
    [InlineData("blanks", "material = \"hdpe\"", "material = \"hdpee\"", ":3:12")]
    [InlineData("controls", "G17 G20", "G17 G21", ":23:14")]
    [InlineData("controls", "T{tool} M6", "M6", ":24:15")]
    [InlineData("controls", "S{rpm} M3", "M3", ":27:17")]
    public void A_contradiction_is_told_at_the_row_and_in_the_file_that_makes_it(
        string kind,
        string right,
        string wrong,
        string? place
    )
    {
        string path = "";
        ShopFiles broken = DemoShop.Files with
        {
            Find = (k, name) =>
            {
                if (DemoShop.Files.Find(k, name) is not { } found || k != kind)
                {
                    return DemoShop.Files.Find(k, name);
                }
                path = found.Path;
                string text = found.Text.ReplaceLineEndings("\n");
                return (path, text.Replace(right, wrong, StringComparison.Ordinal));
            },
        };
        Finding[] errors =
        [
            .. JobReader
                .Read(DemoShop.PlainJob(), "outlines/x.toml", broken)
                .Findings.Where(f => f.Severity == Severity.Error),
        ];
        if (place is null)
        {
            Assert.Empty(errors);
            return;
        }
        Assert.Contains(errors, f => f.Where == path + place);
    }

    [Fact]
    public void An_engraver_without_its_own_chip_load_is_refused()
    {
        const string Rack = """
            units = "mm"
            [[tool]]
            name = "point"
            number = 1
            kind = "engraver"
            diameter = 3
            flutes = 1
            flute_length = 3
            stick_out = 20
            tip_angle_deg = 60
            tip_diameter = 0.1
            """;
        const string Own = "\n[[tool.chip_load]]\nin = \"plastic\"\nfrom = 0.02\nto = 0.06\n";

        Finding f = Assert.Single(ToolReader.Read(Rack, "tools/r.toml", "r").Findings);

        Assert.Equal(Severity.Error, f.Severity);
        Assert.Contains("[[tool.chip_load]]", f.Remedy, StringComparison.Ordinal);
        Assert.True(ToolReader.Read(Rack + Own, "tools/r.toml", "r").Ok);
    }

    [Fact]
    public void One_run_shows_every_mistake()
    {
        Stage<Job> stage = JobReader.Read(
            DemoShop.PlainJob(
                more: "[magnets]\ncont = 3\n[rules]\nland = \"1 furlong\"\nwall = 99\n[locator]\nby = \"magic\""
            ),
            "outlines/x.toml",
            DemoShop.Files
        );

        Assert.Equal(
            ["toml-not-a-choice", "toml-out-of-range", "toml-unknown-key", "toml-unknown-unit"],
            stage.Findings.Select(f => f.Code).Order(StringComparer.Ordinal)
        );
    }

    [Fact]
    public void A_name_that_no_shop_file_has_gets_the_nearest()
    {
        string text = DemoShop.PlainJob(blank: "hdpe-8.5");
        Finding f = JobReader.Read(text, "outlines/x.toml", DemoShop.Files).Findings.Single();

        Assert.Equal("shop-name-unknown", f.Code);
        Assert.Equal("outlines/x.toml:4:9", f.Where);
        Assert.Contains("\"hdpe-8-5\"", f.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void A_mistake_in_a_shop_file_is_told_at_its_place_when_a_job_uses_it()
    {
        ShopFiles broken = DemoShop.Files with
        {
            Find = (kind, name) =>
                DemoShop.Files.Find(kind, name) is not { } found ? null
                : kind == "gaskets"
                    ? (found.Path, found.Text.Replace("section = ", "sektion = ", StringComparison.Ordinal))
                : found,
        };
        Stage<Job> stage = JobReader.Read(DemoShop.PlainJob(), "outlines/x.toml", broken);

        Assert.Null(stage.Value);
        Assert.Contains(
            stage.Findings,
            f => f.Code == "toml-unknown-key" && f.Where == "templates/gaskets/sponge-1-8.toml:5:1"
        );
    }

    [Fact]
    public void A_blank_too_thin_to_skim_says_by_how_much()
    {
        string text = DemoShop.PlainJob(more: "[block]\nthickness = \"18.55 mm\"");
        Finding f = JobReader
            .Read(text, "outlines/x.toml", DemoShop.Files)
            .Findings.Single(f => f.Severity == Severity.Error);

        Assert.Equal("shop-contradiction", f.Code);
        Assert.Contains("0.05 mm to skim, 0.2 mm needed", f.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_plate_that_takes_a_block_two_ways_is_refused()
    {
        (string path, string text) = DemoShop.Files.Find("plates", "master")!.Value;
        string even = text.Replace("at = [1.5, 0.45]", "at = [2.0, 4.25]", StringComparison.Ordinal)
            .Replace("at = [6.5, 0.45]", "at = [6.5, 4.25]", StringComparison.Ordinal);

        Assert.Contains(
            PlateReader.Read(even, path, "master").Findings,
            f => f.Code == "shop-contradiction" && f.Message.Contains("would go on", StringComparison.Ordinal)
        );
    }

    [Fact]
    public void Two_tools_in_one_place_are_refused()
    {
        (string path, string text) = DemoShop.Files.Find("tools", "rack")!.Value;
        string doubled = text.Replace("number = 2\n", "number = 1\n", StringComparison.Ordinal);

        Assert.Contains(
            ToolReader.Read(doubled, path, "rack").Findings,
            f => f.Message.Contains("'mill-1-4' and 'mill-3-8' both have number 1", StringComparison.Ordinal)
        );
    }

    [Theory]
    [InlineData("vacuum_on = \"M10\"", "vacuum_on = \"M10 P1\"", "not a single M code")]
    [InlineData("{tool} M6", "{toool} M6", "Unknown placeholder {toool}")]
    [InlineData("arcs = \"centre\"", "arcs = \"radius\"", "half turn")]
    [InlineData("program_number_max = 9999", "program_number_max = 99999", "more digits")]
    [InlineData("vacuum_on = \"M10\"", "vacuum_on = \"M5\"", "which every control reads as something else")]
    [InlineData("vacuum_wait = \"M12\"", "vacuum_wait = \"M11\"", "one word cannot do both")]
    [InlineData("vacuum_wait = \"M12\"", "vacuum_wait = \"M10\"", "one word cannot do both")]
    [InlineData("vacuum_wait = \"M12\"", "vacuum_wait = \"M9\"", "one word cannot do both")]
    [InlineData("vacuum_on = \"M10\" ", "# ", "no word switches it on")]
    [InlineData("\"T{tool} M6\"]", "\"T{tool} M6\", \"M11\"]", "the vacuum would switch there")]
    [InlineData("spindle_start = \"S{rpm} M3\"", "spindle_start = \"S{rpm} M5\"", "starts the spindle clockwise")]
    [InlineData("spindle_stop = \"M5\"", "spindle_stop = \"M3\"", "stops the spindle")]
    [InlineData("air_off = \"M9\"", "air_off = \"M8\"", "one word cannot do both")]
    [InlineData("stop = \"M0\"", "stop = \"M1\"", "always stops")]
    [InlineData("G80 G90 G94", "G80 G91 G94", "heights and places are absolute")]
    [InlineData("G80 G90 G94", "G80 G90 G95", "feeds are per minute")]
    public void A_control_that_cannot_work_is_refused(string right, string wrong, string says)
    {
        (string path, string text) = DemoShop.Files.Find("controls", "inch-centre-arcs")!.Value;
        string bad = text.Replace(right, wrong, StringComparison.Ordinal);

        Assert.Contains(
            ControlReader.Read(bad, path, "c").Findings,
            f => f.Message.Contains(says, StringComparison.Ordinal)
        );
    }
}
