using FixtureGen.Model;
using FixtureGen.Shop.Reading;
using Xunit;

namespace FixtureGen.Tests.Shop;

public sealed class QuantityTest
{
    // 1 in = 25.4 mm exactly; 1 inHg at 0 C = 3.386389 kPa; 1 lbf = 4.4482216152605 N (exact definitions)
    [Theory]
    [InlineData("6 mm", 6)]
    [InlineData("0.25 in", 6.35)]
    [InlineData("17/64 in", 6.746875)]
    [InlineData("1-1/2 in", 38.1)]
    [InlineData(" 2.5cm ", 25)]
    [InlineData("-3 mm", -3)]
    public void Lengths_carry_their_unit(string text, double mm) =>
        Assert.Equal(mm, Quantity.Length.FromText(text)!.Value.Value, 9);

    [Theory]
    [InlineData("6")]
    [InlineData("6 mmm")]
    [InlineData("1,5 mm")]
    [InlineData("1/0 in")]
    [InlineData("in")]
    [InlineData("")]
    public void What_is_not_a_number_and_a_unit_is_refused(string text) => Assert.Null(Quantity.Length.FromText(text));

    [Fact]
    public void Bare_numbers_are_in_the_files_unit()
    {
        Assert.Equal(215.9, Quantity.Length.FromBare(8.5, LengthUnit.Inch), 9);
        Assert.Equal(8.5, Quantity.Length.FromBare(8.5, LengthUnit.Millimetre), 9);
        Assert.Equal(67.72778, Quantity.Pressure.FromBare(20, LengthUnit.Inch), 5);
        Assert.Equal(8.473862, Quantity.Torque.FromBare(75, LengthUnit.Inch), 6);
        Assert.Equal(280.416, Quantity.Speed.FromBare(920, LengthUnit.Inch), 9);
    }

    [Theory]
    [InlineData("widht", "width")]
    [InlineData("tihckness", "thickness")]
    [InlineData("zzzz", null)]
    public void The_nearest_word_is_found(string typed, string? meant) =>
        Assert.Equal(meant, Nearest.Find(typed, ["width", "height", "thickness", "material"]));
}
