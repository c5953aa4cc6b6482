using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Roles;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Dxf;

/// <summary>Which curves of a shop's drawing are edges: by layer list, colour or line type, and never what is not shown or not solid unless the job says so.</summary>
public sealed class RolesTest
{
    private const string Tables =
        "0 SECTION 2 TABLES 0 TABLE 2 LTYPE 70 3"
        + " 0 LTYPE 2 Continuous 70 0 72 65 73 0 40 0"
        + " 0 LTYPE 2 Dashed 70 0 72 65 73 2 40 0.75 49 0.5 49 -0.25"
        + " 0 LTYPE 2 Thick 70 0 72 65 73 1 40 0.5 49 0.5"
        + " 0 ENDTAB 0 TABLE 2 LAYER 70 6"
        + " 0 LAYER 2 0 70 0 62 7 6 Continuous"
        + " 0 LAYER 2 OFF 70 0 62 -3 6 Continuous"
        + " 0 LAYER 2 FROZEN 70 1 62 3 6 Continuous"
        + " 0 LAYER 2 SILENT 70 0 62 5 6 Continuous 290 0"
        + " 0 LAYER 2 AXES 70 0 62 1 6 Dashed"
        + " 0 LAYER 2 Defpoints 70 0 62 7 6 Continuous"
        + " 0 ENDTAB 0 ENDSEC ";

    private static readonly string Outline = Sketch.Rectangle(0, 0, 120, 80, "OUTLINE");

    [Theory]
    [InlineData("line-not-solid", "0 CIRCLE 8 CUTOUT 6 Dashed 10 30 20 40 40 8", "line_types", "\"DASHED\"")]
    [InlineData("line-not-solid", "0 CIRCLE 8 CUTOUT 6 CENTER2 10 30 20 40 40 8", "line_types", "\"CENTER2\"")]
    [InlineData("line-not-solid", "0 CIRCLE 8 AXES 10 30 20 40 40 8", "line_types", "\"Dashed\"")]
    [InlineData("layer-off", "0 CIRCLE 8 OFF 10 30 20 40 40 8", "layers", "\"OFF\"")]
    [InlineData("layer-frozen", "0 CIRCLE 8 FROZEN 10 30 20 40 40 8", "layers", "\"FROZEN\"")]
    [InlineData("layer-not-plotted", "0 CIRCLE 8 SILENT 10 30 20 40 40 8", "layers", "\"SILENT\"")]
    [InlineData("layer-not-plotted", "0 CIRCLE 8 DEFPOINTS 10 30 20 40 40 8", "layers", "\"Defpoints\"")]
    [InlineData("curve-invisible", "0 CIRCLE 8 CUTOUT 60 1 10 30 20 40 40 8", "", "invisible = true")]
    public void What_is_not_shown_or_not_solid_is_no_cutout_until_the_job_says_so(
        string code,
        string circle,
        string table,
        string name
    )
    {
        DrawingContent drawing = Read(Outline + " " + circle);
        Stage<Part> silent = PartBuilder.Build(drawing, Job(""));
        Assert.Empty(silent.Value!.Cutouts);
        Finding finding = Assert.Single(silent.Findings, f => f.Code == code);
        Assert.Equal(Severity.Warning, finding.Severity);
        Assert.Contains("1 curves, 1 closed", finding.Message, StringComparison.Ordinal);
        Assert.Contains("(38, 40)", finding.Where, StringComparison.Ordinal);
        Assert.Contains(name, finding.Remedy, StringComparison.OrdinalIgnoreCase);

        string says = table.Length == 0 ? $"[drawing]\n{name}" : $"[drawing.{table}]\ncutout = {name}";
        Assert.Single(PartBuilder.Build(drawing, Job(says)).Value!.Cutouts);
    }

    [Fact]
    public void A_pattern_without_gaps_and_a_line_type_that_nothing_defines_are_solid()
    {
        Part part = PartBuilder
            .Build(
                Read(Outline + " 0 CIRCLE 8 CUTOUT 6 Thick 10 30 20 40 40 8 0 CIRCLE 8 CUTOUT 6 Wall 10 90 20 40 40 8"),
                Job("")
            )
            .Value!;
        Assert.Equal(2, part.Cutouts.Length);
    }

    [Theory]
    [InlineData("FORM")]
    [InlineData("KEEPOUT")]
    [InlineData("MAGNET")]
    public void What_is_no_edge_may_be_dashed(string layer)
    {
        Job job = Job("[[form]]\nlayer = \"FORM\"\ndirection = \"down\"\nheight = 8\ndraft_deg = 3");
        Part part = PartBuilder
            .Build(Read(Outline + $" 0 CIRCLE 8 {layer} 6 Dashed 10 60 20 40 40 8"), layer == "FORM" ? job : Job(""))
            .Value!;
        Assert.Equal(1, part.Forms.Length + part.KeepOuts.Length + part.MagnetWishes.Length);
    }

    [Fact]
    public void A_drawing_that_is_all_dashed_is_told_the_key_that_makes_it_an_outline()
    {
        Stage<Part> stage = PartBuilder.Build(Read("0 CIRCLE 8 0 6 Dashed 10 60 20 60 40 50"), Job(""));
        Assert.Null(stage.Value);
        string remedy = Assert.Single(stage.Findings, f => f.Code == "line-not-solid").Remedy;
        Assert.Contains("[drawing.line_types] outline = \"DASHED\"", remedy, StringComparison.Ordinal);
        Stage<Part> said = PartBuilder.Build(
            Read("0 CIRCLE 8 0 6 Dashed 10 60 20 60 40 50"),
            Job("[drawing.line_types]\noutline = \"DASHED\"")
        );
        Assert.Equal(2500 * Math.PI, Measure.Area(said.Value!.Outer), 1e-6);
    }

    /// <summary>ByLayer and ByBlock through inserts; a frozen insert hides all, one that is off only what lies on layer 0.</summary>
    [Theory]
    [InlineData("8 OFF 62 1", "8 0 62 0", "red", Hiding.LayerOff)]
    [InlineData("8 OFF", "8 HOLES 62 0", "green", Hiding.None)]
    [InlineData("8 FROZEN", "8 HOLES 62 256", "black", Hiding.LayerFrozen)]
    [InlineData("8 AXES", "8 0 62 256", "red", Hiding.None)]
    [InlineData("8 HOLES 60 1", "8 HOLES 62 30", "30", Hiding.Invisible)]
    [InlineData("8 HOLES", "8 HOLES 62 1 420 65280", "green", Hiding.None)]
    [InlineData("8 HOLES", "8 HOLES 420 1193046", "#123456", Hiding.None)]
    public void Looks_go_through_inserts(string insert, string circle, string colour, Hiding hidden)
    {
        DrawingContent drawing = Read(
            $"0 INSERT {insert} 2 B 10 0 20 0",
            $"0 BLOCK 2 B 10 0 20 0 70 0 0 CIRCLE {circle} 10 0 20 0 40 20 0 ENDBLK"
        );
        CurveLook look = Assert.Single(drawing.Curves).Look;
        Assert.Equal((colour, hidden), (look.Colour, look.Hidden));
    }

    [Fact]
    public void A_line_type_by_block_is_the_inserts()
    {
        DrawingContent drawing = Read(
            "0 INSERT 8 0 6 Dashed 2 B 10 0 20 0",
            "0 BLOCK 2 B 10 0 20 0 70 0 0 CIRCLE 8 0 6 ByBlock 10 0 20 0 40 20 0 CIRCLE 8 0 10 9 20 0 40 20 0 ENDBLK"
        );
        Assert.Equal([true, false], drawing.Curves.Select(c => c.Look.Broken));
    }

    [Fact]
    public void A_part_with_layers_for_inside_and_outside_is_told_by_lists()
    {
        DrawingContent drawing = Read(
            Sketch.Rectangle(0, 0, 120, 80, "EXT")
                + Sketch.Circle(30, 40, 8, "INT")
                + Sketch.Circle(90, 40, 8, "SLOTS")
                + Sketch.Line(0, 90, 120, 90, "DIM")
        );
        Finding which = Assert.Single(PartBuilder.Build(drawing, Job("")).Findings);
        Assert.Contains("outline = \"EXT\", cutout = [\"INT\", \"SLOTS\"]", which.Remedy, StringComparison.Ordinal);
        Stage<Part> part = PartBuilder.Build(
            drawing,
            Job("[drawing]\nignore = \"dim\"\n[drawing.layers]\noutline = [\"EXT\"]\ncutout = [\"INT\", \"slots\"]")
        );
        Assert.Equal(2, part.Value!.Cutouts.Length);
        Assert.Empty(part.Findings);
    }

    [Fact]
    public void Colours_tell_roles_by_name_number_and_value()
    {
        DrawingContent drawing = Read(
            "0 CIRCLE 8 0 62 5 10 60 20 60 40 50 0 CIRCLE 8 0 62 1 10 60 20 60 40 8 0 CIRCLE 8 0 420 1193046 10 60 20 90 40 4"
        );
        Part part = PartBuilder
            .Build(drawing, Job("[drawing.colours]\noutline = 5\ncutout = \"RED\"\nkeepout = \"#123456\""))
            .Value!;
        Assert.Equal((1, 1), (part.Cutouts.Length, part.KeepOuts.Length));
    }

    [Fact]
    public void Closed_curves_without_a_role_are_an_error_until_the_job_gives_it_or_ignores_them()
    {
        DrawingContent drawing = Read(Outline + Sketch.Circle(30, 40, 8, "holes") + Sketch.Circle(60, 40, 8, "holes"));
        Finding finding = Assert.Single(PartBuilder.Build(drawing, Job("")).Findings);
        Assert.Equal(("closed-without-role", Severity.Error), (finding.Code, finding.Severity));
        Assert.Contains("2 closed curves", finding.Message, StringComparison.Ordinal);
        Assert.Contains("[drawing.layers] cutout = \"holes\"", finding.Remedy, StringComparison.Ordinal);
        Assert.Equal(2, PartBuilder.Build(drawing, Job("[drawing.layers]\ncutout = \"holes\"")).Value!.Cutouts.Length);
        Assert.Empty(PartBuilder.Build(drawing, Job("[drawing]\nignore = \"HOLES\"")).Value!.Cutouts);
    }

    [Theory]
    [InlineData("[drawing]\nignore = \"OUTLINE\"", "outline-missing")]
    [InlineData("[drawing.layers]\nengrave = \"OUTLINE\"", "outline-missing")]
    public void A_job_that_has_another_use_for_the_outlines_layer_is_refused(string more, string code) =>
        Assert.Contains(PartBuilder.Build(Read(Outline), Job(more)).Findings, f => f.Code == code);

    [Fact]
    public void Names_of_the_job_that_nothing_bears_are_told()
    {
        Stage<Part> part = PartBuilder.Build(
            Read(Outline),
            Job("[drawing.layers]\ncutout = \"HOELS\"\n[drawing.colours]\nengrave = \"green\"")
        );
        Assert.Equal(2, part.Findings.Count(f => f.Code == "role-without-curves" && f.Severity == Severity.Warning));
    }

    [Fact]
    public void Text_and_paper_space_that_are_passed_over_are_told()
    {
        Stage<Part> part = PartBuilder.Build(
            Read(
                Outline
                    + " 0 TEXT 8 NOTES 10 10 20 20 40 5 1 SCALE_1:1 0 POINT 8 NOTES 10 1 20 1 0 LINE 67 1 8 0 10 0 20 0 11 9 21 9"
            ),
            Job("")
        );
        Assert.Contains(
            "1 texts and 1 points have no role and are not used, the first text reads 'SCALE 1:1'",
            Assert.Single(part.Findings, f => f.Code == "text-unused").Message,
            StringComparison.Ordinal
        );
        Assert.Contains(
            "1 LINE",
            Assert.Single(part.Findings, f => f.Code == "paper-space-unused").Message,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData("[drawing.layers]\noutline = [\"A\", \"B\"]\ncutout = \"b\"", "two roles")]
    [InlineData("[drawing.colours]\ncutout = \"mauve\"", "no colour")]
    [InlineData("[drawing.colours]\ncutout = 300", "no colour")]
    [InlineData("[drawing]\njoin = \"0.6 mm\"", "0.5")]
    [InlineData("[drawing.line_types]\ncutout = true", "one name in quotes or a list")]
    public void Roles_that_cannot_be_are_refused(string more, string says)
    {
        Stage<Job> job = FixtureGen.Shop.Jobs.JobReader.Read(
            DemoShop.PlainJob(more: more),
            "outlines/x.toml",
            DemoShop.Files
        );
        Assert.Contains(
            says,
            Assert.Single(job.Findings, f => f.Severity == Severity.Error).Message,
            StringComparison.Ordinal
        );
    }

    [Theory]
    [InlineData(0.092, "", false)]
    [InlineData(0.092, "join = \"0.1 mm\"", true)]
    [InlineData(0.49, "join = \"0.5 mm\"", true)]
    [InlineData(0.04, "", true)]
    [InlineData(0.04, "join = \"0.01 mm\"", false)]
    public void The_job_says_how_wide_a_gap_is_joined(double gap, string join, bool joined)
    {
        string drawn = Sketch.Text(
            "0 LWPOLYLINE 8 OUTLINE 90 4 70 0 10 0 20 80 10 0 20 0 10 120 20 0 10 120 20 80"
                + Sketch.Line(120, 80, gap, 80, "OUTLINE")
        );
        Job job = Job($"[drawing]\n{join}");
        Stage<DrawingContent> read = FixtureGen.Drawing.DxfReader.Read(
            Sketch.Bytes(drawn),
            "sketch.dxf",
            null,
            Tolerances.House with
            {
                Join = job.Join,
            }
        );
        Stage<Part> part = PartBuilder.Build(read.Value!, job);
        Assert.Equal(joined, part.Ok);
        Assert.Equal(
            joined,
            part.Findings.Any(f => f.Code == "gap-joined" && f.Message.Contains("80)", StringComparison.Ordinal))
        );
    }

    private static Job Job(string more) => DemoShop.Job(DemoShop.PlainJob(more: more));

    private static DrawingContent Read(string entities, string blocks = "")
    {
        string text = Sketch
            .Text(entities, blocks)
            .Replace("0 SECTION 2 BLOCKS", Tables + "0 SECTION 2 BLOCKS", StringComparison.Ordinal);
        Stage<DrawingContent> stage = Sketch.Read(Sketch.Bytes(text));
        Assert.True(stage.Ok, string.Join('\n', stage.Findings));
        return stage.Value!;
    }
}
