using FixtureGen.Model;
using FixtureGen.Verify.Shape;
using FixtureGen.Verify.Tests.Support;
using Xunit;

namespace FixtureGen.Verify.Tests;

/// <summary>Least and greatest distances of lines from each other, against closed forms of elementary geometry.</summary>
public sealed class SpreadTest
{
    /// <summary>Points of a circle of radius r, e off the middle of one of radius R about it, are R - r - e to R - r + e from that.</summary>
    [Theory]
    [InlineData(10, 4, 0)]
    [InlineData(10, 4, 0.3)]
    [InlineData(10, 9.9, 0.05)]
    [InlineData(50, 8, 7.25)]
    public void Circle_off_the_middle_of_another(double outer, double inner, double off)
    {
        PieceBins axis = Of(TestShop.Circle(0, 0, outer));
        Spread spread = Spread.Find(Of(TestShop.Circle(off * 0.6, off * 0.8, inner)).Pieces, axis, 1e6, 0);
        Assert.Equal(outer - inner - off, spread.Least, 1e-9);
        Assert.Equal(outer - inner + off, spread.Greatest, 2 * Spread.Precision);
    }

    /// <summary>The farthest point of a square's side from the inscribed circle's twin of radius r is a corner: a root 2 - r.</summary>
    [Theory]
    [InlineData(10, 3)]
    [InlineData(4, 3.9)]
    public void Square_round_a_circle(double half, double radius)
    {
        PieceBins axis = Of(TestShop.Circle(0, 0, radius));
        Spread spread = Spread.Find(Of(TestShop.Rectangle(-half, -half, half, half)).Pieces, axis, 1e6, 0);
        Assert.Equal(half - radius, spread.Least, 1e-9);
        Assert.Equal((half * Math.Sqrt(2)) - radius, spread.Greatest, 2 * Spread.Precision);
    }

    [Fact]
    public void Line_on_itself_is_nowhere_off_itself()
    {
        Contour edge = TestShop.Rounded(0, 0, 60, 40, 7);
        Spread spread = Spread.Find(Of(edge).Pieces, Of(edge), 1e6, 0);
        Assert.InRange(spread.Greatest, 0, 1e-9);
    }

    /// <summary>A bump of a tenth between samples counts: a tooth 0.02 mm wide and 0.1 mm high on a side of 60 mm.</summary>
    [Fact]
    public void Narrow_tooth_is_found_with_its_true_height()
    {
        Point2[] p = [new(0, 0), new(31.234, 0), new(31.244, 0.1), new(31.254, 0), new(60, 0)];
        Piece[] line = [.. Enumerable.Range(0, 4).Select(i => Piece.Line(p[i], p[i + 1]))];
        PieceBins axis = new([Piece.Line(p[0], p[4])], 4);
        Spread spread = Spread.Find(line, axis, 1e6, 0.01);
        Assert.Equal(0.1, spread.Greatest, 1e-9);
        Assert.Equal(31.244, spread.GreatestAt.X, 1e-9);
    }

    private static PieceBins Of(Contour contour) => new(Spread.PiecesOf(contour.Segments), 4);
}
