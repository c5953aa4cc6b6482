using FixtureGen.Drawing;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Roles;
using FixtureGen.Geometry;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Dxf;

public sealed class PartBuilderTest
{
    private static readonly Job Job = DemoShop.Job(DemoShop.PlainJob());

    private static readonly string Outline = Sketch.Rectangle(0, 0, 120, 80, "outline");

    [Fact]
    public void Roles_come_from_the_layers_without_case()
    {
        Part part = Good(
            Outline
                + Sketch.Circle(30, 40, 8, "Cutout")
                + Sketch.Circle(60, 60, 3, "MAGNET")
                + " 0 POINT 8 magnet 10 90 20 20"
                + Sketch.Circle(100, 60, 5, "KEEPOUT")
                + Sketch.Line(10, 10, 40, 10, "ENGRAVE")
                + " 0 TEXT 8 ENGRAVE 10 10 20 20 40 5 50 90 1 LEFT"
        );
        Assert.Equal(9600, Measure.Area(part.Outer), 1e-9);
        Assert.Equal(-64 * Math.PI, Measure.Area(Assert.Single(part.Cutouts)), 1e-9);
        Assert.Equal([new Point2(90, 20), new Point2(60, 60)], part.MagnetWishes);
        Assert.Single(part.KeepOuts);
        Assert.Equal(2, part.Engravings.Length);
        Assert.Equal(("LEFT", new Point2(10, 20), 5.0, 90.0), Words(part.Engravings[1]));
    }

    [Fact]
    public void One_layer_is_read_by_nesting()
    {
        Part part = Good(Sketch.Rectangle(0, 0, 120, 80) + Sketch.Circle(30, 40, 8) + Sketch.Circle(90, 40, 8));
        Assert.Equal(2, part.Cutouts.Length);
        Assert.True(Measure.Area(part.Outer) > 0);
    }

    [Fact]
    public void A_line_to_engrave_that_touches_the_outline_does_not_break_it() =>
        Good(Outline + Sketch.Line(0, 0, 60, 40, "ENGRAVE") + Sketch.Line(60, 0, 60, 80, "ENGRAVE"));

    [Theory]
    [InlineData("outline-several", "two parts", "0 CIRCLE 8 OUTLINE 10 300 20 0 40 20")]
    [InlineData(
        "outline-island",
        "a part in a hole",
        "0 CIRCLE 8 OUTLINE 10 60 20 40 40 20 0 CIRCLE 8 OUTLINE 10 60 20 40 40 10"
    )]
    [InlineData("cutout-outside", "beside", "0 CIRCLE 8 CUTOUT 10 300 20 0 40 20")]
    [InlineData("loops-cross", "over the edge", "0 CIRCLE 8 CUTOUT 10 118 20 40 40 20")]
    [InlineData("outline-open", "an open cutout", "0 LINE 8 CUTOUT 10 20 20 20 11 40 21 20")]
    [InlineData("form-unstated", "no height", "0 CIRCLE 8 FORM 10 60 20 40 40 10")]
    [InlineData(
        "outline-island",
        "a cutout in a cutout",
        "0 CIRCLE 8 CUTOUT 10 60 20 40 40 20 0 CIRCLE 8 CUTOUT 10 60 20 40 40 10"
    )]
    public void Refused_by_name(string code, string what, string entities)
    {
        Stage<Part> stage = Build(Outline + " " + entities);
        Assert.True(stage.Value is null, what);
        Assert.Contains(stage.Findings, f => f.Code == code && f.Severity == Severity.Error && f.Remedy.Length > 0);
    }

    [Fact]
    public void Open_outline_is_an_error_with_place_and_gap()
    {
        Stage<Part> stage = Build(
            "0 LWPOLYLINE 8 OUTLINE 90 4 70 0 10 0 20 80 10 0 20 0 10 120 20 0 10 120 20 80"
                + Sketch.Line(120, 80, 0.5, 80, "OUTLINE")
        );
        Finding finding = Assert.Single(stage.Findings, f => f.Code == "outline-open");
        Assert.Equal(Severity.Error, finding.Severity);
        Assert.Contains("gap 0.5", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Holes_of_an_open_outline_are_not_told_to_be_parts()
    {
        Stage<Part> stage = Build(
            "0 LWPOLYLINE 8 OUTLINE 90 4 70 0 10 0 20 80 10 0 20 0 10 120 20 0 10 120 20 80"
                + Sketch.Circle(30, 40, 8, "OUTLINE")
                + Sketch.Circle(90, 40, 8, "OUTLINE")
        );
        Assert.Equal("outline-open", Assert.Single(stage.Findings).Code);
    }

    [Fact]
    public void A_place_of_an_inch_drawing_is_told_as_the_drawing_program_shows_it()
    {
        Stage<Part> stage = Build(
            "0 LWPOLYLINE 8 OUTLINE 90 3 70 0 10 4 20 3 10 0 20 0 10 5 20 0",
            header: "9 $INSUNITS 70 1"
        );
        Finding finding = Assert.Single(stage.Findings);
        Assert.EndsWith(" at (4, 3) in, (101.6, 76.2) mm", finding.Where, StringComparison.Ordinal);
        // from (4, 3) to (5, 0): the root of 10, in inches
        Assert.Contains("gap 80.322 mm", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void The_remedy_for_layers_without_a_role_is_one_that_a_job_reads()
    {
        string other = Sketch.Rectangle(0, 0, 120, 80, "Edge") + Sketch.Circle(30, 40, 8, "holes");
        Finding which = Assert.Single(Build(other).Findings);
        Assert.Contains("[drawing.layers] outline = \"Edge\"", which.Remedy, StringComparison.Ordinal);
        Job job = DemoShop.Job(DemoShop.PlainJob(more: "[drawing.layers]\noutline = \"Edge\""));
        // a hole on a layer that the job says nothing of must not be lost
        Finding without = Assert.Single(PartBuilder.Build(Sketch.Stage(other).Value!, job).Findings);
        Assert.Equal(("closed-without-role", Severity.Error), (without.Code, without.Severity));
        Assert.Contains("[drawing.layers] cutout = \"holes\"", without.Remedy, StringComparison.Ordinal);
        Job both = DemoShop.Job(DemoShop.PlainJob(more: "[drawing.layers]\noutline = \"Edge\"\ncutout = \"holes\""));
        Assert.Single(PartBuilder.Build(Sketch.Stage(other).Value!, both).Value!.Cutouts);
    }

    [Fact]
    public void Crossed_outline_is_an_error_with_its_place()
    {
        Stage<Part> stage = Build("0 LWPOLYLINE 90 4 70 1 10 0 20 0 10 200 20 100 10 200 20 0 10 0 20 120");
        Finding finding = Assert.Single(stage.Findings, f => f.Code == "loop-crosses-itself");
        Assert.Equal(Severity.Error, finding.Severity);
        Assert.NotNull(finding.At);
    }

    [Fact]
    public void No_unit_is_an_error_with_both_sizes()
    {
        Stage<Part> stage = Build(Outline, header: "");
        Assert.Contains(
            "120 x 80 mm, or 3048 x 2032 mm if drawn in inches",
            Assert.Single(stage.Findings).Message,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Unlikely_size_is_an_error_until_the_unit_is_stated()
    {
        byte[] bytes = Sketch.Bytes(Sketch.Text(Sketch.Rectangle(0, 0, 4, 3)));
        Assert.Contains(PartBuilder.Build(Sketch.Read(bytes).Value!, Job).Findings, f => f.Code == "size-unlikely");
        Assert.True(PartBuilder.Build(Sketch.Read(bytes, LengthUnit.Millimetre).Value!, Job).Ok);
    }

    [Fact]
    public void Layers_without_a_role_are_asked_about_when_none_is_the_outline()
    {
        Finding finding = Assert.Single(
            Build(Sketch.Rectangle(0, 0, 120, 80, "A") + Sketch.Circle(9, 9, 3, "B")).Findings
        );
        Assert.Equal("outline-layer", finding.Code);
        Assert.Contains("'A', 'B'", finding.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Forms_take_their_heights_by_layer_then_by_order()
    {
        Job job = Job with
        {
            Forms =
            [
                new FormSpec("FORM", FormDirection.Up, 5, 3),
                new FormSpec("FORM", FormDirection.Down, 7, 4),
                new FormSpec("CUP", FormDirection.Down, 12, 2),
            ],
        };
        DrawingContent drawing = Sketch.Drawing(
            Outline
                + Sketch.Circle(20, 40, 6, "CUP")
                + Sketch.Circle(50, 40, 9, "FORM")
                + Sketch.Circle(90, 40, 6, "FORM")
        );
        Stage<Part> stage = PartBuilder.Build(drawing, job);
        Assert.True(stage.Ok, string.Join('\n', stage.Findings));
        Assert.Equal([5.0, 7.0, 12.0], stage.Value!.Forms.Select(f => f.Height).Order());
        Assert.Equal(12, stage.Value.Forms.Single(f => Measure.Bounds(f.Edge).Middle.X < 30).Height);
    }

    public static TheoryData<string> Outlines =>
        [
            .. Directory
                .EnumerateFiles(Path.Combine(DemoShop.Root, "outlines"), "*.dxf")
                .Select(f => Path.GetFileNameWithoutExtension(f))
                .Order(StringComparer.Ordinal),
        ];

    [Theory]
    [MemberData(nameof(Outlines))]
    public void Every_outline_of_the_demo_shop_makes_a_part(string name)
    {
        string folder = Path.Combine(DemoShop.Root, "outlines");
        Job job = DemoShop.Job(File.ReadAllText(Path.Combine(folder, name + ".toml")), name);
        Stage<DrawingContent> read = DxfReader.Read(
            File.ReadAllBytes(Path.Combine(folder, name + ".dxf")),
            name + ".dxf",
            job.DrawingUnit,
            Tolerances.House
        );
        Assert.True(read.Ok, string.Join('\n', read.Findings));
        Stage<Part> part = PartBuilder.Build(read.Value!, job);
        Assert.True(part.Ok, string.Join('\n', part.Findings));
    }

    private static (string, Point2, double, double) Words(EngraveMark mark) =>
        (mark.Text, mark.At, mark.Height, Math.Round(mark.AngleDeg, 9));

    private static Stage<Part> Build(string entities, string header = "9 $INSUNITS 70 4") =>
        PartBuilder.Build(Sketch.Stage(entities, header: header).Value!, Job);

    private static Part Good(string entities)
    {
        Stage<Part> stage = Build(entities);
        Assert.True(stage.Ok, string.Join('\n', stage.Findings));
        return stage.Value!;
    }
}
