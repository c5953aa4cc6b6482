using System.Text;
using FixtureGen.Drawing.Chaining;
using Xunit;

namespace FixtureGen.Tests.Dxf;

/// <summary>Layer names and texts in the codepages of $DWGCODEPAGE, in UTF-8, and by escapes.</summary>
public sealed class CodepageTest
{
    [Theory]
    [InlineData("ANSI_1252", 1252, "Kühlkörper")]
    [InlineData("ansi_1250", 1250, "Žebřík")]
    [InlineData("ANSI_1251", 1251, "Контур")]
    [InlineData("ANSI_1253", 1253, "Περίγραμμα")]
    [InlineData("ANSI_1254", 1254, "Çizgi")]
    [InlineData("ANSI_1255", 1255, "קו")]
    [InlineData("ANSI_932", 932, "外形線")]
    [InlineData("ANSI_936", 936, "轮廓")]
    [InlineData("ANSI_949", 949, "외곽선")]
    [InlineData("ANSI_950", 950, "輪廓")]
    [InlineData("dos850", 850, "Größe")]
    [InlineData("ISO8859-2", 28592, "Łuk")]
    public void Old_drawings_are_read_in_their_codepage(string name, int page, string layer)
    {
        Encoding encoding = CodePagesEncodingProvider.Instance.GetEncoding(page) ?? Encoding.GetEncoding(page);
        Assert.Equal(layer, LayerOf(encoding.GetBytes(layer), $"9 $ACADVER 1 AC1015 9 $DWGCODEPAGE 3 {name}"));
    }

    [Theory]
    [InlineData("9 $ACADVER 1 AC1032 9 $DWGCODEPAGE 3 ANSI_1252")]
    [InlineData("9 $ACADVER 1 AC1015 9 $DWGCODEPAGE 3 UTF-8")]
    [InlineData("")]
    public void Utf8_is_read_as_such(string header) =>
        Assert.Equal("Größe", LayerOf(Encoding.UTF8.GetBytes("Größe"), header));

    [Fact]
    public void Wrong_bytes_in_a_new_drawing_fall_back_to_its_codepage() =>
        Assert.Equal("Größe", LayerOf(Encoding.Latin1.GetBytes("Größe"), "9 $ACADVER 1 AC1032"));

    [Theory]
    [InlineData(@"Gr\U+00F6\U+00DFe", "Größe")]
    [InlineData(@"\u+5916\U+5F62", "外形")]
    [InlineData(@"\M+18A4F", "外")]
    [InlineData(@"\U+00", @"\U+00")]
    [InlineData(@"\U+ZZZZ", @"\U+ZZZZ")]
    [InlineData(@"a\", @"a\")]
    public void Escapes_are_resolved(string written, string read) =>
        Assert.Equal(read, LayerOf(Encoding.ASCII.GetBytes(written), "9 $ACADVER 1 AC1015"));

    [Fact]
    public void Unknown_codepage_is_said()
    {
        DrawingContent drawing = Sketch.Drawing(Sketch.Circle(0, 0, 5), header: "9 $DWGCODEPAGE 3 EBCDIC_37X");
        Assert.Contains(drawing.Repairs, r => r.Message.Contains("EBCDIC", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("45%%d", "45°")]
    [InlineData("%%c6_%%P0.1", "Ø6 ±0.1")]
    [InlineData("%%uA%%oB", "AB")]
    [InlineData("%%065", "A")]
    [InlineData("50%%%", "50%")]
    [InlineData("A^_B", "A^B")]
    public void Text_codes_become_letters(string written, string read) =>
        Assert.Equal(read, Assert.Single(Sketch.Drawing($"0 TEXT 10 0 20 0 40 5 1 {written}").Texts).Text);

    [Theory]
    [InlineData(@"{\fArial|b0;SHEATH}\P7", "SHEATH 7")]
    [InlineData(@"\H2.5x;\LA\l\~B", "A B")]
    [InlineData(@"1\S1#2;", "11/2")]
    [InlineData(@"a\\b\{c\}", @"a\b{c}")]
    public void Paragraph_text_loses_its_formatting(string written, string read) =>
        Assert.Equal(read, Assert.Single(Sketch.Drawing($"0 MTEXT 10 0 20 0 40 5 71 7 1 {written}").Texts).Text);

    private static string LayerOf(byte[] name, string header)
    {
        byte[] before = Sketch.Bytes($"0 SECTION 2 HEADER {header} 0 ENDSEC 0 SECTION 2 ENTITIES 0 CIRCLE 8");
        byte[] after = Sketch.Bytes("10 0 20 0 40 20 0 ENDSEC 0 EOF");
        return Assert.Single(Sketch.Read([.. before, .. name, (byte)'\n', .. after]).Value!.Loops).Layer;
    }
}
