using System.Text.Json;
using FixtureGen.Drawing;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Drawing.Writing;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Dxf;

public sealed class DxfWriterTest
{
    // a 60 x 20 slot: straight sides 40, ends half circles of radius 10
    private static readonly Contour Slot = new([
        Segment.Line(new(-20, -10), new(20, -10)),
        Segment.Arc(new(20, -10), new(20, 10), new(20, 0), true),
        Segment.Line(new(20, 10), new(-20, 10)),
        Segment.Arc(new(-20, 10), new(-20, -10), new(-20, 0), true),
    ]);

    private const double SlotArea = (40 * 20) + (Math.PI * 100);

    private static DxfSheet Sheet(LengthUnit unit) =>
        new(
            unit,
            [new("OUTLINE", 7), new("MAGNET", 1), new("DOOR", 3)],
            [
                new DxfLoop("OUTLINE", Slot),
                new DxfCircle("MAGNET", new(5, 5), 3),
                new DxfPoint("MAGNET", new(1, 2)),
                new DxfText("DOOR", "Ø 6 ±0.1", new(0, -20), 5, 30),
                new DxfPath("0", new OpenPath([Segment.Line(new(0, 40), new(10, 40))])),
                new DxfSegments("0", [Segment.Line(new(0, 50), new(10, 50)), .. Slot.Segments]),
                new DxfEllipse("0", new(100, 0), new(10, 0), 0.5, 0, 2 * Math.PI),
                new DxfSpline("0", 3, [0, 0, 0, 0, 1, 1, 1, 1], [new(0, 60), new(5, 70), new(10, 50), new(15, 60)]),
            ]
        );

    [Theory]
    [InlineData(LengthUnit.Millimetre, 1.0, 4)]
    [InlineData(LengthUnit.Inch, 25.4, 1)]
    [Trait("Speed", "Slow")]
    public void Another_reader_finds_no_fault_and_the_same_areas(LengthUnit unit, double mm, int code)
    {
        JsonElement read = Ezdxf.Read(DxfWriter.Write(Sheet(unit)));
        Assert.Empty(read.GetProperty("errors").EnumerateArray());
        Assert.Empty(read.GetProperty("fixes").EnumerateArray());
        Assert.Equal("AC1015", read.GetProperty("version").GetString());
        Assert.Equal(code, read.GetProperty("units").GetInt32());
        double[] areas = [.. read.GetProperty("areas").EnumerateArray().Select(a => a.GetDouble() * mm * mm)];
        Assert.Equal(2, areas.Length);
        // lengths are written to a ten-millionth of a mm: an area is off by half of that all along its boundary at most
        Assert.Equal(SlotArea, areas[0], (80 + (20 * Math.PI)) * 5e-8);
        Assert.Equal(Math.PI * 9, areas[1], 6 * Math.PI * 5e-8);
        Assert.Equal("Ø 6 ±0.1", read.GetProperty("texts")[0].GetString());
        Assert.Contains("DOOR", read.GetProperty("layers").EnumerateArray().Select(l => l.GetString()));
    }

    [Fact]
    public void Own_reader_gets_back_what_was_written()
    {
        DrawingContent drawing = DxfReader
            .Read(DxfWriter.Write(Sheet(LengthUnit.Inch)), "slot.dxf", null, Tolerances.House)
            .Value!;
        Assert.Equal(LengthUnit.Inch, drawing.Unit);
        DrawnCurve outline = drawing.Curves.First(c => c.Layer == "OUTLINE");
        Assert.Equal(Slot.Segments.Length, outline.Path.Segments.Length);
        for (int i = 0; i < Slot.Segments.Length; i++)
        {
            Assert.True(outline.Path.Segments[i].Start.DistanceTo(Slot.Segments[i].Start) < 1e-7);
            Assert.True(outline.Path.Segments[i].Centre.DistanceTo(Slot.Segments[i].Centre) < 1e-7);
        }
        DrawnText text = Assert.Single(drawing.Texts);
        Assert.Equal(("Ø 6 ±0.1", "DOOR", 30.0), (text.Text, text.Layer, Math.Round(text.AngleDeg, 9)));
        Assert.Equal(5, text.Height, 5e-8);
    }

    // sine and arc tangent differ in their last binary digits between systems, and so do coordinates; 1/128 in and 9/64 in
    // stand half way between two decimals
    [Theory]
    [InlineData(LengthUnit.Millimetre)]
    [InlineData(LengthUnit.Inch)]
    public void Last_binary_digits_do_not_show(LengthUnit unit)
    {
        byte[][] written =
        [
            .. new Func<double, double>[] { v => v, Math.BitIncrement, Math.BitDecrement }.Select(nudge =>
                DxfWriter.Write(Nudged(unit, v => nudge(nudge(v))))
            ),
        ];
        Assert.Equal(written[0], written[1]);
        Assert.Equal(written[0], written[2]);
    }

    private static DxfSheet Nudged(LengthUnit unit, Func<double, double> nudge)
    {
        Point2 P(double x, double y) => new(nudge(x), nudge(y));
        Point2[] corners =
        [
            P(25.4 / 128, 25.4 * 9 / 64),
            P(0, 1e-20),
            P(0.12345675, 0.1234567850),
            P(300.0625, 1 / 3.0),
        ];
        return new(
            unit,
            [],
            [
                new DxfSegments("0", [.. corners.Zip(corners[1..], Segment.Line)]),
                new DxfLoop(
                    "0",
                    new Contour([
                        Segment.Arc(P(Math.Sqrt(50), 5), P(-5, 5), P(1, 2), true),
                        Segment.Line(P(-5, 5), P(Math.Sqrt(50), 5)),
                    ])
                ),
                new DxfSegments("0", [Segment.Arc(P(10, 0), P(0, 10), P(0, 0), true)]),
                new DxfCircle("0", P(Math.PI, Math.E), nudge(25.4 / 64)),
                new DxfText("0", "A", P(1 / 7.0, 0.5), nudge(5), nudge(30)),
            ]
        );
    }

    [Fact]
    public void Same_sheet_same_bytes() =>
        Assert.Equal(DxfWriter.Write(Sheet(LengthUnit.Inch)), DxfWriter.Write(Sheet(LengthUnit.Inch)));

    [Fact]
    public void Layer_that_is_not_listed_is_a_broken_promise() =>
        Assert.Throws<ArgumentException>(() =>
            DxfWriter.Write(new DxfSheet(LengthUnit.Millimetre, [], [new DxfPoint("GHOST", default)]))
        );
}
