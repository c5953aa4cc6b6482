using FixtureGen.Model;
using FixtureGen.Output.Papers;
using Xunit;

namespace FixtureGen.Tests.Output;

/// <summary>Papers count as the control does, with the other unit in brackets; 25.4 mm an inch.</summary>
public sealed class LengthsTest
{
    private static readonly Lengths Inch = new(LengthUnit.Inch);
    private static readonly Lengths Metric = new(LengthUnit.Millimetre);

    [Fact]
    public void A_length_stands_in_both_units_the_control_s_first()
    {
        Assert.Equal("0.500 in (12.70 mm)", Inch.Long(12.7));
        Assert.Equal("12.70 mm (0.500 in)", Metric.Long(12.7));
        Assert.Equal("8.500 x 1.000 in (215.90 x 25.40 mm)", Inch.Size(215.9, 25.4));
        Assert.Equal("0.980 to 1.020 in (24.89 to 25.91 mm)", Inch.Range(24.892, 25.908));
        Assert.Equal("X 1.000  Y 2.000 in (X 25.40  Y 50.80 mm)", Inch.Place(new Point2(25.4, 50.8)));
    }

    [Fact]
    public void Cells_have_their_units_in_the_head()
    {
        Assert.Equal("1.000 (25.40)", Inch.Cell(25.4));
        Assert.Equal("X in (mm)", Inch.Head("X"));
        Assert.Equal("X mm (in)", Metric.Head("X"));
        Assert.Equal("44.0 (1118)", Inch.Feed(1117.6));
        Assert.Equal("1118 (44.0)", Metric.Feed(1117.6));
    }

    /// <summary>A fit has the digits that its gauge has: 0.2502 in is 6.355 mm.</summary>
    [Fact]
    public void A_fit_has_a_digit_more() => Assert.Equal("0.2502 (6.355)", Inch.Fine(0.2502 * 25.4));
}
