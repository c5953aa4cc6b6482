using FixtureGen.Geometry;
using FixtureGen.Holding.Sliding;
using FixtureGen.Model;
using FixtureGen.Tests.Support;
using Xunit;

namespace FixtureGen.Tests.Holding;

/// <summary>Areas, middles and second moments of pieces against closed forms of the circle (any mechanics handbook) and Green's theorem.</summary>
public sealed class ContactQuadratureTest
{
    [Fact]
    public void Pieces_of_a_ring_have_its_area_its_middle_and_its_polar_moment()
    {
        Point2 middle = new(31.7, -12.3);
        (double outer, double inner) = (40, 25);
        Region ring = new(Contours.Circle(middle, outer), [Contours.Reverse(Contours.Circle(middle, inner))]);
        ContactPiece[] pieces = ContactQuadrature.OverArea([ring], 120);
        double area = pieces.Sum(p => p.Share);
        Point2 at = new(pieces.Sum(p => p.Share * p.At.X) / area, pieces.Sum(p => p.Share * p.At.Y) / area);
        double polar = pieces.Sum(p => p.Share * ((p.At - middle).Dot(p.At - middle) + (2 * p.Spread2)));
        Assert.InRange(area / (Math.PI * ((outer * outer) - (inner * inner))), 0.998, 1.002);
        Assert.True(at.DistanceTo(middle) < 1e-6);
        double exact = Math.PI / 2 * (Math.Pow(outer, 4) - Math.Pow(inner, 4));
        Assert.InRange(polar / exact, 0.998, 1.002);
    }

    /// <summary>Teeth give a scan line many crossings, level edges and corners at its very height.</summary>
    [Theory]
    [InlineData(7)]
    [InlineData(60)]
    public void Teeth_and_slots_lose_no_area(int teeth)
    {
        List<Point2> corners = [new(0, 0), new(teeth * 2, 0)];
        for (int i = teeth - 1; i >= 0; i--)
        {
            corners.AddRange([new((i * 2) + 2, 20), new((i * 2) + 1.5, 8), new((i * 2) + 0.5, 8), new(i * 2, 20)]);
        }
        Region comb = Region.From(Outlines.Polygon([.. corners.Distinct()]));
        Region slotted = new(comb.Outer, [Contours.Reverse(Contours.Slot(new(4, 4), new(10, 5), 1.2))]);
        double sum = ContactQuadrature.OverArea([slotted], 100).Sum(p => p.Share);
        Assert.InRange(sum / Measure.Area(slotted), 0.998, 1.002);
    }
}
