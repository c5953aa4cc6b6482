using System.Buffers.Binary;
using System.Globalization;
using System.Text;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Reading;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Dxf;

/// <summary>Binary drawings of both layouts say what their text twins say (DXF Reference, Binary DXF Files; value types by group code).</summary>
public sealed class BinaryTest
{
    private static readonly string Groups = Sketch.Text(
        Sketch.Rectangle(0, 0, 20, 10, "KONTUR")
            + " 0 ARC 5 A1 8 0 62 7 10 50 20 0 30 0 40 5 50 10 51 200"
            + " 0 LWPOLYLINE 90 3 70 1 10 100 20 0 10 120 20 0 42 0.5 10 110 20 30"
            + " 0 TEXT 8 NOTE 10 1 20 2 40 2.5 1 F-017 50 30",
        "0 BLOCK 2 X 70 0 10 0 20 0 30 0 0 ENDBLK",
        "9 $ACADVER 1 AC1015 9 $INSUNITS 70 4"
    );

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Both_layouts_read_like_the_text(bool shortCodes)
    {
        DrawingContent text = Sketch.Read(Sketch.Bytes(Groups)).Value!;
        DrawingContent binary = Sketch.Read(Binary(Groups, shortCodes)).Value!;
        Assert.Equal(text.Version, binary.Version);
        Assert.Equal(text.Unit, binary.Unit);
        Assert.Equal(text.Entities, binary.Entities);
        Assert.Equal(
            text.Loops.Select(l => (l.AreaMm2, l.PerimeterMm, l.Layer)),
            binary.Loops.Select(l => (l.AreaMm2, l.PerimeterMm, l.Layer))
        );
        Assert.Equal(text.Texts, binary.Texts);
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Cut_short_anywhere_never_throws(bool shortCodes)
    {
        byte[] whole = Binary(Groups, shortCodes);
        for (int length = 0; length < whole.Length; length++)
        {
            Stage<DrawingContent> stage = Sketch.Read(whole[..length]);
            Assert.True(stage.Value is not null || stage.Findings.Length > 0);
        }
    }

    [Fact]
    public void Unknown_code_is_refused_by_name()
    {
        byte[] bytes = [.. BinaryGroups.Sentinel, 0, 0, .. "SECTION\0"u8, 0xF4, 0x01, 1, 2, 3];
        Assert.Equal(
            "drawing-group-code",
            Assert.Single(Sketch.Read(bytes).Findings, f => f.Severity == Severity.Error).Code
        );
    }

    private static byte[] Binary(string groups, bool shortCodes)
    {
        var bytes = new List<byte>([.. BinaryGroups.Sentinel]);
        string[] words = groups.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        Span<byte> value = stackalloc byte[8];
        for (int i = 0; i < words.Length; i += 2)
        {
            int code = int.Parse(words[i], CultureInfo.InvariantCulture);
            if (shortCodes)
            {
                bytes.Add((byte)code);
            }
            else
            {
                BinaryPrimitives.WriteInt16LittleEndian(value, (short)code);
                bytes.AddRange(value[..2]);
            }
            string word = words[i + 1];
            if (code is < 10 or 999)
            {
                bytes.AddRange([.. Encoding.ASCII.GetBytes(word), 0]);
            }
            else if (code is < 60 or (>= 210 and < 240))
            {
                BinaryPrimitives.WriteDoubleLittleEndian(value, Sketch.Number(word));
                bytes.AddRange(value);
            }
            else if (code < 80)
            {
                BinaryPrimitives.WriteInt16LittleEndian(value, short.Parse(word, CultureInfo.InvariantCulture));
                bytes.AddRange(value[..2]);
            }
            else
            {
                BinaryPrimitives.WriteInt32LittleEndian(value, int.Parse(word, CultureInfo.InvariantCulture));
                bytes.AddRange(value[..4]);
            }
        }
        return [.. bytes];
    }
}
