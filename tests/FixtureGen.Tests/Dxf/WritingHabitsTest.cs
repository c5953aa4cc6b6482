using System.Text;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Dxf;

/// <summary>The same square, written in the ways that programs of forty years write it.</summary>
public sealed class WritingHabitsTest
{
    private static readonly string Square = Sketch.Text(Sketch.Rectangle(0, 0, 20, 10));

    [Theory]
    [InlineData("\n")]
    [InlineData("\r\n")]
    [InlineData("\r")]
    public void Any_line_end(string eol) => IsSquare(Sketch.Bytes(Square, eol));

    [Fact]
    public void Mixed_line_ends()
    {
        byte[] bytes = Sketch.Bytes(Square);
        int n = 0;
        IsSquare([
            .. bytes.SelectMany(b =>
                b != '\n'
                    ? [b]
                    : (n++ % 3) switch
                    {
                        0 => "\r\n"u8.ToArray(),
                        1 => "\r"u8.ToArray(),
                        _ => "\n"u8.ToArray(),
                    }
            ),
        ]);
    }

    [Fact]
    public void Byte_order_mark() => IsSquare([0xEF, 0xBB, 0xBF, .. Sketch.Bytes(Square)]);

    [Theory]
    [InlineData("utf-16", true)]
    [InlineData("utf-16", false)]
    [InlineData("utf-16BE", true)]
    [InlineData("utf-16BE", false)]
    public void Sixteen_bit_text(string name, bool mark)
    {
        var encoding = Encoding.GetEncoding(name);
        byte[] text = encoding.GetBytes(Encoding.ASCII.GetString(Sketch.Bytes(Square)));
        IsSquare(mark ? [.. encoding.GetPreamble(), .. text] : text);
    }

    [Fact]
    public void Leading_blank_lines_and_padded_codes() =>
        IsSquare(Encoding.ASCII.GetBytes("\n\n" + Padded(Sketch.Bytes(Square), s => s.PadLeft(3) + "  ")));

    [Fact]
    public void Lower_case_words() =>
        IsSquare(Encoding.ASCII.GetBytes(Encoding.ASCII.GetString(Sketch.Bytes(Square)).ToLowerInvariant()));

    [Fact]
    public void Comments_between_groups() =>
        IsSquare(
            Sketch.Bytes("999 made_by_hand " + Square.Replace(" 8 0", " 999 a_note 8 0", StringComparison.Ordinal))
        );

    [Fact]
    public void Nothing_but_entities() =>
        IsSquare(Sketch.Bytes("0 SECTION 2 ENTITIES" + Sketch.Rectangle(0, 0, 20, 10) + " 0 ENDSEC 0 EOF"), unit: null);

    [Fact]
    public void No_sections_at_all() => IsSquare(Sketch.Bytes(Sketch.Rectangle(0, 0, 20, 10) + " 0 EOF"), unit: null);

    [Fact]
    public void No_end_mark_is_said()
    {
        Stage<DrawingContent> stage = Sketch.Read(Sketch.Bytes(Square.Replace(" 0 EOF", "", StringComparison.Ordinal)));
        Assert.True(stage.Has("drawing-no-end"));
        Assert.Single(stage.Value!.Loops);
    }

    [Fact]
    public void Junk_after_the_end() => IsSquare([.. Sketch.Bytes(Square), .. "garbage\n\0\0\x1a{]"u8]);

    [Fact]
    public void Numbers_with_exponents_signs_and_bare_points() =>
        IsSquare(
            Sketch.Bytes(
                Square
                    .Replace(" 11 20 ", " 11 +2.E+001 ", StringComparison.Ordinal)
                    .Replace(" 10 20 ", " 10 .2e2 ", StringComparison.Ordinal)
            )
        );

    [Fact]
    public void Decimal_commas_are_read_and_counted()
    {
        Stage<DrawingContent> stage = Sketch.Read(
            Sketch.Bytes(Square.Replace(" 11 20 ", " 11 20,0 ", StringComparison.Ordinal))
        );
        Assert.Single(stage.Value!.Loops);
        Assert.Contains(
            stage.Value.Repairs,
            r => r.Code == "written-oddly" && r.Message.Contains("comma", StringComparison.Ordinal)
        );
    }

    [Theory]
    [InlineData("NaN")]
    [InlineData("Infinity")]
    [InlineData("1.#QNAN")]
    [InlineData("1e999")]
    [InlineData("12x")]
    [InlineData("1.2.3")]
    [InlineData("_")]
    public void What_is_no_number_is_refused_by_name(string number)
    {
        Stage<DrawingContent> stage = Sketch.Stage($"0 CIRCLE 10 0 20 {number} 40 5" + Sketch.Circle(50, 0, 5));
        Finding finding = Assert.Single(stage.Findings, f => f.Code == "drawing-entity-unreadable");
        Assert.Contains("group 20", finding.Message, StringComparison.Ordinal);
        Assert.Single(stage.Value!.Loops);
    }

    [Fact]
    public void Missing_coordinate_is_never_taken_for_zero() =>
        Assert.True(Sketch.Stage("0 LINE 10 0 20 0 11 5").Has("drawing-entity-unreadable"));

    [Fact]
    public void Coordinates_beyond_belief_are_refused_by_name() =>
        Assert.True(Sketch.Stage(Sketch.Circle(1e12, 0, 5)).Has("drawing-entity-unreadable"));

    // georeferenced drawings lie far out; a circle there keeps its size
    [Fact]
    public void Far_from_the_origin_shapes_keep()
    {
        DrawnLoop loop = Sketch.OneLoop(Sketch.Circle(4_500_000, 5_600_000, 20));
        Assert.Equal(400 * Math.PI, loop.AreaMm2, 1e-4);
    }

    [Fact]
    public void Application_data_is_not_geometry() =>
        IsSquare(
            Sketch.Bytes(
                Square.Replace(
                    " 0 LINE 8 0",
                    " 0 LINE 102 {ACAD_X 10 99 20 99 102 } 8 0 1001 APP 1010 7 1020 7",
                    StringComparison.Ordinal
                )
            )
        );

    [Theory]
    [InlineData("67 1")]
    [InlineData("67 0 410 Layout1")]
    public void Paper_space_is_passed_over(string where)
    {
        DrawingContent drawing = Sketch.Drawing($"0 CIRCLE {where} 10 0 20 0 40 5" + Sketch.Circle(50, 0, 5));
        Assert.Single(drawing.Loops);
        Assert.Equal(1, drawing.Entities["CIRCLE"]);
    }

    [Fact]
    public void What_makes_no_outline_is_counted_in_one_note()
    {
        Stage<DrawingContent> stage = Sketch.Stage(
            "0 HATCH 2 SOLID 0 HATCH 2 SOLID 0 DIMENSION 10 0 20 0 0 SOLID 10 0 0 XLINE 10 0 0 RAY 10 0"
        );
        Finding note = Assert.Single(stage.Findings, f => f.Code == "drawing-passed-over");
        Assert.Equal(Severity.Note, note.Severity);
        Assert.Contains("1 DIMENSION, 2 HATCH, 1 RAY, 1 SOLID, 1 XLINE", note.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("", "drawing-empty")]
    [InlineData("   \n \n", "drawing-empty")]
    [InlineData("AC1032\0\0\0", "drawing-not-dxf")]
    [InlineData("%PDF-1.7", "drawing-not-dxf")]
    [InlineData("<?xml version='1.0'?><html/>", "drawing-not-dxf")]
    [InlineData("solid cube", "drawing-not-dxf")]
    [InlineData("0\nSECTION\n2\nENTITIES\n0\nLINE\nten\n0\n", "drawing-group-code")]
    [InlineData("0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n1\n20", "drawing-cut-short")]
    public void What_is_no_drawing_is_refused_by_name(string text, string code)
    {
        Stage<DrawingContent> stage = Sketch.Read(Encoding.ASCII.GetBytes(text));
        Assert.Null(stage.Value);
        Finding finding = Assert.Single(stage.Findings);
        Assert.Equal((code, Severity.Error), (finding.Code, finding.Severity));
        Assert.NotEmpty(finding.Remedy);
    }

    private static void IsSquare(byte[] bytes, LengthUnit? unit = LengthUnit.Millimetre)
    {
        Stage<DrawingContent> stage = Sketch.Read(bytes);
        Assert.True(stage.Value is not null, string.Join('\n', stage.Findings));
        DrawnLoop loop = Assert.Single(stage.Value.Loops);
        Assert.Equal((200.0, 60.0, true), (loop.AreaMm2, loop.PerimeterMm, loop.Clean));
        Assert.Equal(unit, stage.Value.Unit);
        Assert.Equal(4, stage.Value.Entities["LINE"]);
    }

    private static string Padded(byte[] bytes, Func<string, string> pad) =>
        string.Join(
            '\n',
            Encoding
                .ASCII.GetString(bytes)
                .Split('\n')
                .Select((line, i) => i % 2 == 0 && line.Length > 0 ? pad(line) : line)
        );
}
