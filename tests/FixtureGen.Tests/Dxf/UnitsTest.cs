using FixtureGen.Drawing;
using FixtureGen.Drawing.Chaining;
using FixtureGen.Model;
using Xunit;

namespace FixtureGen.Tests.Dxf;

/// <summary>$INSUNITS by the DXF Reference, HEADER; the inch is 25.4 mm exactly (ISO 31, the international inch).</summary>
public sealed class UnitsTest
{
    [Theory]
    [InlineData(1, "in", 25.4)]
    [InlineData(2, "ft", 304.8)]
    [InlineData(4, "mm", 1)]
    [InlineData(5, "cm", 10)]
    [InlineData(6, "m", 1000)]
    [InlineData(9, "mil", 0.0254)]
    [InlineData(10, "yd", 914.4)]
    [InlineData(13, "um", 0.001)]
    [InlineData(14, "dm", 100)]
    public void Known_units_scale_to_mm(int code, string name, double mm)
    {
        Stage<DrawingContent> stage = Sketch.Stage(
            Sketch.Rectangle(0, 0, 3000, 2000),
            header: FormattableString.Invariant($"9 $INSUNITS 70 {code}")
        );
        Assert.Equal(6e6 * mm * mm, Assert.Single(stage.Value!.Loops).AreaMm2, 1e-3 * mm * mm);
        Assert.Equal(name, DrawingReport.Describe("x", stage, null, stage.Findings).Unit);
    }

    [Theory]
    [InlineData("9 $INSUNITS 70 0", "unit-missing")]
    [InlineData("", "unit-missing")]
    [InlineData("9 $INSUNITS 70 3", "unit-unusual")]
    [InlineData("9 $INSUNITS 70 21", "unit-unusual")]
    [InlineData("9 $INSUNITS 70 99", "unit-unusual")]
    [InlineData("9 $INSUNITS 70 1 9 $MEASUREMENT 70 1", "unit-contradiction")]
    [InlineData("9 $INSUNITS 70 4 9 $MEASUREMENT 70 0", "unit-contradiction")]
    public void Doubts_are_said(string header, string code) =>
        Assert.True(Sketch.Stage(Sketch.Rectangle(0, 0, 100, 100), header: header).Has(code));

    [Fact]
    public void Without_a_unit_both_sizes_are_spelled_out()
    {
        Stage<DrawingContent> stage = Sketch.Stage(Sketch.Rectangle(0, 0, 8.5, 2), header: "");
        Assert.Null(stage.Value!.Unit);
        Assert.Equal(17, Assert.Single(stage.Value.Loops).AreaMm2, 1e-12);
        Assert.Contains(
            "8.5 x 2 mm, or 215.9 x 50.8 mm if drawn in inches",
            Assert.Single(stage.Findings, f => f.Code == "unit-missing").Message,
            StringComparison.Ordinal
        );
    }

    [Fact]
    public void Stated_unit_counts_before_the_drawing()
    {
        byte[] bytes = Sketch.Bytes(Sketch.Text(Sketch.Rectangle(0, 0, 4, 2)));
        Stage<DrawingContent> stage = Sketch.Read(bytes, LengthUnit.Inch);
        Assert.Equal(8 * 25.4 * 25.4, Assert.Single(stage.Value!.Loops).AreaMm2, 1e-9);
        Assert.True(stage.Has("unit-overridden"));
    }

    [Theory]
    [InlineData(4, true)]
    [InlineData(4000, true)]
    [InlineData(120, false)]
    public void Unlikely_sizes_are_asked_about(double side, bool asked) =>
        Assert.Equal(asked, Sketch.Stage(Sketch.Rectangle(0, 0, side, side)).Has("size-unlikely"));
}
